"""Rows planted once, and put back wherever they are wanted: writing a garden as people do takes fifty times as long."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from uuid import uuid4

from django.apps import apps
from django.db import connection, transaction

from bluewright.journal.models import Garden

JOURNAL = "journal_"
"""How the names of the journal's tables begin."""


@dataclass(frozen=True)
class Planted:
    """The rows of a garden, as the database holds them, by table; and the keys that they go by, the garden's first."""

    keys: tuple[str, ...]
    rows: dict[str, list[tuple[Any, ...]]]

    def put_back(self) -> Garden:
        """Write the rows into the transaction of the test, which takes them back at its end; returns their garden.

        Each time with keys of their own: what the program keeps of a tub belongs to no other test.
        """
        fresh = {key: uuid4().hex for key in self.keys}
        with transaction.atomic():
            for table, rows in self.rows.items():
                places = ", ".join("?" * len(rows[0]))
                renamed = [[fresh.get(value, value) for value in row] for row in rows]
                connection.connection.executemany(f'INSERT INTO "{table}" VALUES ({places})', renamed)
        return Garden.objects.get(pk=fresh[self.keys[0]])


def planted(plant: Callable[[], Garden]) -> Planted:
    """What a planting writes into an empty journal, which is left empty."""
    with transaction.atomic():
        assert not Garden.everything.exists(), "planted before the tests begin to write"
        plant()
        found = _rows_of(connection.connection)
        transaction.set_rollback(True)
    return found


def planted_in(file: Path) -> Planted:
    """What the one garden of a database of its own holds; nothing is written beside it, which others copy meanwhile."""
    with closing(sqlite3.connect(f"{file.as_uri()}?immutable=1", uri=True)) as database:
        return _rows_of(database)


def _rows_of(database: sqlite3.Connection) -> Planted:
    tables = [model._meta.db_table for model in apps.get_models(include_auto_created=True)]
    rows = {table: _rows(database, table) for table in tables if table.startswith(JOURNAL)}
    ((garden, *_),) = rows[Garden._meta.db_table]
    keys = {row[0] for found in rows.values() for row in found if isinstance(row[0], str)} - {garden}
    return Planted((garden, *sorted(keys)), {table: found for table, found in rows.items() if found})


def _rows(database: sqlite3.Connection, table: str) -> list[tuple[Any, ...]]:
    """The rows as they are stored: behind a plus, no column is turned into a moment or a truth."""
    columns = database.execute(f'SELECT * FROM "{table}" LIMIT 0').description
    stored = ", ".join(f'+"{name}"' for name, *_ in columns)
    return [tuple(row) for row in database.execute(f'SELECT {stored} FROM "{table}"')]
