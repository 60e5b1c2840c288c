"""A garden written by any earlier program opens in this one with every row as it was.

For each migration but the last, an empty database is brought to it, rows of every table are written by the models as
they were then, every column filled, and after all further migrations read by the models as they are now.
"""

from __future__ import annotations

import uuid
from collections.abc import Iterator
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any

import pytest
from django.apps import apps
from django.db import connections, models
from django.db.migrations.executor import MigrationExecutor
from django.db.migrations.loader import MigrationLoader

from bluewright.journal.transfer import KINDS, OF_PHOTOS

ALIAS = "earlier"
STEPS = sorted(name for app, name in MigrationLoader(None).disk_migrations if app == "journal")
MOMENT = datetime(2026, 7, 3, 12, 30, 15, 123456, tzinfo=UTC)
GONE: dict[tuple[str, str], str] = {}
"""Columns (table, column) that a later migration took away on purpose, and where their content is now."""

EMPTY = {("poured", "batch"), ("jarlook", "batch")}
"""Columns (table, column) that stand empty because the one beside is filled: a constraint wants one or the other."""


@pytest.fixture
def earlier(tmp_path: Path, django_db_blocker: Any) -> Iterator[Any]:
    """An empty database of its own beside the one of the tests."""
    connections.databases[ALIAS] = connections.databases["default"] | {
        "NAME": str(tmp_path / "earlier.sqlite3"),
        "OPTIONS": {"init_command": "PRAGMA foreign_keys=ON;PRAGMA synchronous=OFF;"},
    }
    with django_db_blocker.unblock():
        yield connections[ALIAS]
        connections[ALIAS].close()
    del connections.databases[ALIAS]
    del connections[ALIAS]


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
        models.CharField: "Küpe"[: field.max_length or 4],
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


def fill(of: Any) -> dict[tuple[str, str], dict[str, Any]]:
    """Write a row into every table; returns what was written, by table and key."""
    user = of.get_model("auth", "User").objects.using(ALIAS).create(username="owner")
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


@pytest.mark.parametrize("step", STEPS[:-1])
def test_every_row_written_at_an_earlier_step_is_read_now(earlier: Any, step: str) -> None:
    executor = MigrationExecutor(earlier)
    start = [("journal", step), *[leaf for leaf in executor.loader.graph.leaf_nodes() if leaf[0] != "journal"]]
    executor.migrate(start)
    written = fill(executor.loader.project_state(start).apps)
    assert len({table for table, _ in written}) >= 11

    executor = MigrationExecutor(earlier)
    executor.migrate(executor.loader.graph.leaf_nodes())
    for (table, key), plain in written.items():
        now = apps.get_model("journal", table)._base_manager.using(ALIAS).get(pk=key)
        for column, was in plain.items():
            if (table, column) not in GONE:
                assert getattr(now, column) == was, f"{table}.{column}"
    with earlier.cursor() as cursor:
        assert cursor.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert cursor.execute("PRAGMA foreign_key_check").fetchall() == []


def test_every_table_that_a_garden_s_file_carries_is_filled(earlier: Any) -> None:
    executor = MigrationExecutor(earlier)
    executor.migrate(executor.loader.graph.leaf_nodes())
    filled = {table for table, _ in fill(executor.loader.project_state().apps)}
    assert {model._meta.model_name for model, *_ in (*KINDS.values(), *OF_PHOTOS.values())} <= filled
