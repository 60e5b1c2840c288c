"""An empty database of its own beside the one of the tests."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from django.db import connections


@contextmanager
def empty_database(alias: str, folder: Path) -> Iterator[Any]:
    """A connection to it while the block runs. It need not outlive a power cut."""
    connections.databases[alias] = connections.databases["default"] | {
        "NAME": str(folder / f"{alias}.sqlite3"),
        "OPTIONS": {"init_command": "PRAGMA foreign_keys=ON;PRAGMA synchronous=OFF;"},
    }
    try:
        yield connections[alias]
    finally:
        connections[alias].close()
        del connections.databases[alias]
        del connections[alias]
