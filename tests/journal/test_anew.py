"""A new garden's tables are those that all migrations together make, to the last constraint."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

import pytest
from django.db import connection, connections
from django.db.migrations.recorder import MigrationRecorder

from bluewright.journal.anew import make_tables

ALIAS = "anew"


@pytest.fixture
def anew(tmp_path: Any, django_db_blocker: Any) -> Iterator[Any]:
    """An empty database of its own beside the one of the tests, which the migrations made."""
    connections.databases[ALIAS] = connections.databases["default"] | {
        "NAME": str(tmp_path / "anew.sqlite3"),
        "OPTIONS": {"init_command": "PRAGMA foreign_keys=ON;PRAGMA synchronous=OFF;"},
    }
    with django_db_blocker.unblock():
        yield connections[ALIAS]
        connections[ALIAS].close()
    del connections.databases[ALIAS]
    del connections[ALIAS]


def shapes(of: Any) -> dict[str, list[str]]:
    """The words of which each table, index and trigger is made; columns may stand in another order."""
    with of.cursor() as cursor:
        found = cursor.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL").fetchall()
    return {name: sorted(re.findall(r"\w+|[^\w\s]", sql)) for name, sql in found}


def rows(of: Any) -> dict[str, int]:
    """How many rows each table holds."""
    with of.cursor() as cursor:
        tables = of.introspection.table_names(cursor)
        return {table: cursor.execute(f'SELECT count(*) FROM "{table}"').fetchone()[0] for table in tables}


@pytest.mark.django_db
def test_it_has_every_table_column_index_and_constraint_as_the_migrations_make_them(anew: Any) -> None:
    make_tables(anew)
    by_migrations = shapes(connection)
    assert len(by_migrations) > 100
    assert shapes(anew) == by_migrations
    assert (
        MigrationRecorder(anew).applied_migrations().keys() == MigrationRecorder(connection).applied_migrations().keys()
    )
    assert rows(anew) == rows(connection), "no migration writes a row that a new garden would miss"


@pytest.mark.django_db
def test_broken_off_in_the_middle_it_is_empty_still(anew: Any, monkeypatch: pytest.MonkeyPatch) -> None:
    class PowerCutError(Exception):
        pass

    def cut(*_: object) -> None:
        raise PowerCutError

    monkeypatch.setattr(MigrationRecorder, "record_applied", cut)
    with pytest.raises(PowerCutError):
        make_tables(anew)
    assert anew.introspection.table_names() == []
