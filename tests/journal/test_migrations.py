"""A garden written by any earlier program opens in this one with every row as it was.

One database is brought from migration to migration. At each, rows of every table are written by the models as they were
then, every column filled; after the last, all of them are read by the models as they are now. Its tables are then
those that a new garden gets at once.
"""

from __future__ import annotations

import re
import uuid
from collections import Counter
from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest
from django.apps import apps
from django.core.management.sql import emit_post_migrate_signal
from django.db import models
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.loader import MigrationLoader
from django.db.migrations.recorder import MigrationRecorder

from bluewright.journal.anew import make_tables
from bluewright.journal.transfer import KINDS, OF_PHOTOS
from tests.journal.empty import empty_database

ALIAS = "earlier"
STEPS = sorted(name for app, name in MigrationLoader(None).disk_migrations if app == "journal")
MOMENT = datetime(2026, 7, 3, 12, 30, 15, 123456, tzinfo=UTC)
GONE: dict[tuple[str, str], str] = {}
"""Columns (table, column) that a later migration took away on purpose, and where their content is now."""

EMPTY = {("poured", "batch"), ("jarlook", "batch")}
"""Columns (table, column) that stand empty because the one beside is filled: a constraint wants one or the other."""


@pytest.fixture(scope="module")
def earlier(tmp_path_factory: pytest.TempPathFactory, django_db_blocker: Any) -> Iterator[Any]:
    """An empty database of its own beside the one of the tests."""
    folder = tmp_path_factory.mktemp("earlier")
    with django_db_blocker.unblock(), empty_database(ALIAS, folder) as database:
        yield database


def value(field: Any, rows: dict[type[models.Model], models.Model]) -> Any:
    """Something for a column that is not its default."""
    if (field.model._meta.model_name, field.name) in EMPTY:
        return None
    if isinstance(field, models.ForeignKey):
        return rows[field.remote_field.model].pk
    if field.choices:
        return field.choices[-1][0]
    made: dict[type[Any], Any] = {
        models.BooleanField: not field.default,
        models.CharField: (f"Küpe {uuid.uuid4()}" if field.unique else "Küpe")[: field.max_length or 4],
        models.TextField: "a note, ☃",
        models.FloatField: 1.25,
        models.IntegerField: 3,
        models.DateTimeField: MOMENT,
        models.DateField: date(2026, 7, 3),
        models.UUIDField: uuid.uuid4(),
        models.JSONField: {"a": [1, None, "ü"]},
    }
    for kind, found in made.items():
        if isinstance(field, kind):
            return found
    return field.get_default()


def in_order(of: Any) -> list[Any]:
    """The journal's tables as they were, each after those that it refers to."""
    left = [m for m in of.get_models(include_auto_created=True) if m._meta.app_label == "journal"]
    done: list[Any] = []
    while left:
        ready = [
            m
            for m in left
            if not any(f.remote_field and f.remote_field.model in left and f.remote_field.model is not m
                       for f in m._meta.concrete_fields)
        ]  # fmt: skip
        assert ready, "tables refer to each other in a ring"
        done += ready
        left = [m for m in left if m not in ready]
    return done


Written = dict[tuple[str, str], dict[str, Any]]
"""What was written, by table and key."""


def fill(of: Any, *, by: str) -> Written:
    """Write a row into every table."""
    user = of.get_model("auth", "User").objects.using(ALIAS).create(username=by)
    rows: dict[Any, Any] = {type(user): user}
    written = {}
    for model in in_order(of):
        plain = {
            f.attname: value(f, rows)
            for f in model._meta.concrete_fields
            if not isinstance(f, models.AutoField | models.BigAutoField)
        }
        rows[model] = row = model._base_manager.using(ALIAS).create(**plain)
        written[model._meta.model_name, str(row.pk)] = plain
    return written


@pytest.fixture(scope="module")
def filled(earlier: Any) -> dict[str, Written]:
    """What was written at each step, the database brought to the last."""
    others = [leaf for leaf in MigrationExecutor(earlier).loader.graph.leaf_nodes() if leaf[0] != "journal"]
    written = {}
    for step in STEPS:
        executor = MigrationExecutor(earlier)
        executor.migrate([("journal", step), *others])
        written[step] = fill(executor.loader.project_state([("journal", step), *others]).apps, by=f"owner at {step}")
    return written


@pytest.mark.parametrize("step", STEPS)
def test_every_row_written_at_any_step_is_read_now(filled: dict[str, Written], step: str) -> None:
    assert len({table for table, _ in filled[step]}) >= 11
    for (table, key), plain in filled[step].items():
        now = apps.get_model("journal", table)._base_manager.using(ALIAS).get(pk=key)
        for column, was in plain.items():
            if (table, column) not in GONE:
                assert getattr(now, column) == was, f"{table}.{column}"


def test_the_database_is_whole_after_every_step(filled: dict[str, Written], earlier: Any) -> None:
    assert len(filled) == len(STEPS)
    with earlier.cursor() as cursor:
        assert cursor.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert cursor.execute("PRAGMA foreign_key_check").fetchall() == []


def test_every_table_that_a_garden_s_file_carries_is_filled(filled: dict[str, Written]) -> None:
    tables = {table for table, _ in filled[STEPS[-1]]}
    assert {model._meta.model_name for model, *_ in (*KINDS.values(), *OF_PHOTOS.values())} <= tables


def shapes(of: Any) -> dict[str, list[str]]:
    """The words of which each table, index and trigger is made; columns may stand in another order."""
    with of.cursor() as cursor:
        found = cursor.execute("SELECT name, sql FROM sqlite_master WHERE sql IS NOT NULL").fetchall()
    return {name: sorted(re.findall(r"\w+|[^\w\s]", sql)) for name, sql in found}


def rows(of: Any) -> Counter[str]:
    """How many rows each table holds."""
    with of.cursor() as cursor:
        tables = of.introspection.table_names(cursor)
        return Counter({table: cursor.execute(f'SELECT count(*) FROM "{table}"').fetchone()[0] for table in tables})


def test_a_new_garden_has_every_table_column_index_and_constraint_as_all_migrations_make_them(
    filled: dict[str, Written], earlier: Any, tmp_path: Path
) -> None:
    with empty_database("anew", tmp_path) as anew:
        make_tables(anew)
        emit_post_migrate_signal(verbosity=0, interactive=False, db=ALIAS)  # as the command `migrate` does at its end
        by_migrations = shapes(earlier)
        assert len(by_migrations) > 100
        assert shapes(anew) == by_migrations
        assert (
            MigrationRecorder(anew).applied_migrations().keys()
            == MigrationRecorder(earlier).applied_migrations().keys()
        )
        ours = Counter(f"journal_{table}" for written in filled.values() for table, _ in written)
        ours["auth_user"] = len(STEPS)
        assert rows(earlier) - ours == +rows(anew), "no migration writes a row that a new garden would miss"
