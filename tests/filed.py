"""A garden's database in a file of its own, where what is written is committed: for tests of what is kept in memory.

Other tests run within one transaction, in memory, and there nothing is kept.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from django.db import connections
from django.db.backends.sqlite3.base import DatabaseWrapper

from bluewright.journal.anew import make_tables
from bluewright.journal.written import prepare


@contextmanager
def filed(path: Path, unblocked: Any) -> Iterator[Path]:
    """This thread's database is the file, made with all its tables if it is not there yet; `unblocked` is the fixture
    `django_db_blocker`."""
    with unblocked.unblock():
        before = connections["default"]
        new = not path.exists()
        own = DatabaseWrapper(before.settings_dict | {"NAME": str(path)}, "default")
        connections["default"] = own
        try:
            if new:
                make_tables(own)
            prepare(own)
            yield path
        finally:
            own.close()
            connections["default"] = before
