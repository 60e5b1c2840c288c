"""Rows planted once, and put back wherever they are wanted: writing a garden as people do takes fifty times as long."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any
from uuid import uuid4

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
        garden = plant().pk.hex
        rows = {table: _rows(table) for table in connection.introspection.table_names() if table.startswith(JOURNAL)}
        transaction.set_rollback(True)
    keys = {row[0] for found in rows.values() for row in found if isinstance(row[0], str)} - {garden}
    return Planted((garden, *sorted(keys)), {table: found for table, found in rows.items() if found})


def _rows(table: str) -> list[tuple[Any, ...]]:
    """The rows as they are stored: behind a plus, no column is turned into a moment or a truth."""
    columns = connection.connection.execute(f'SELECT * FROM "{table}" LIMIT 0').description
    stored = ", ".join(f'+"{name}"' for name, *_ in columns)
    return [tuple(row) for row in connection.connection.execute(f'SELECT {stored} FROM "{table}"')]
