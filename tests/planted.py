"""Rows planted once, and put back wherever they are wanted: writing a garden as people do takes fifty times as long."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any
from uuid import UUID

from django.db import connection, transaction

from bluewright.journal.models import Garden

JOURNAL = "journal_"
"""How the names of the journal's tables begin."""


@dataclass(frozen=True)
class Planted:
    """The rows of a garden, as the database holds them, by table."""

    key: UUID
    rows: dict[str, list[tuple[Any, ...]]]

    def put_back(self) -> Garden:
        """Write the rows into the transaction of the test, which takes them back at its end; returns their garden."""
        with transaction.atomic():
            for table, rows in self.rows.items():
                places = ", ".join("?" * len(rows[0]))
                connection.connection.executemany(f'INSERT INTO "{table}" VALUES ({places})', rows)
        return Garden.objects.get(pk=self.key)


def planted(plant: Callable[[], Garden]) -> Planted:
    """What a planting writes into an empty journal, which is left empty."""
    with transaction.atomic():
        assert not Garden.everything.exists(), "planted before the tests begin to write"
        key = plant().pk
        rows = {table: _rows(table) for table in connection.introspection.table_names() if table.startswith(JOURNAL)}
        transaction.set_rollback(True)
    return Planted(key, {table: found for table, found in rows.items() if found})


def _rows(table: str) -> list[tuple[Any, ...]]:
    """The rows as they are stored: behind a plus, no column is turned into a moment or a truth."""
    columns = connection.connection.execute(f'SELECT * FROM "{table}" LIMIT 0').description
    stored = ", ".join(f'+"{name}"' for name, *_ in columns)
    return [tuple(row) for row in connection.connection.execute(f'SELECT {stored} FROM "{table}"')]
