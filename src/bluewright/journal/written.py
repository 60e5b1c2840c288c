"""What was read or reckoned is kept in memory until something that it was made of is written, and no moment longer.

Three parts, each small:

* The database counts. `prepare` gives every table three triggers that add one to the table's row of `written` for
  each row that is inserted, changed or deleted. So a count holds for whoever wrote: a page, work beside the pages,
  another program; what is rolled back was never counted.
* `Watch` reads the counts, and only when SQLite says that anything was committed since (`data_version`).
* `UntilWritten` makes a value, notes which tables were read for it, and keeps it until the count of one differs. Nobody
  has to say what a value rests on, so nobody can forget to.

What a value is made of besides rows belongs into its key: the language, a day, the reader's units. Whoever makes one
reads within `make` every row that it is made of, the garden's own too: what was read before may have changed since.
"""

from __future__ import annotations

import re
import sqlite3
from collections import OrderedDict
from collections.abc import Callable, Hashable, Iterator, Mapping
from collections.abc import Set as AbstractSet
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from threading import Lock, local
from typing import Any, Final, Generic, TypeVar

from django.apps import apps
from django.db import connection, transaction
from django.db.backends.base.base import BaseDatabaseWrapper

K = TypeVar("K", bound=Hashable)
V = TypeVar("V")
COUNTS: Final = "written"
"""The table of counts: of each table by name how many rows were written in it so far."""
WORD: Final = re.compile(r"[a-z]+_\w+")
"""What may be a table's name in a statement."""


def prepare(within: BaseDatabaseWrapper) -> None:
    """Have the database count what is written in each table, where it does not yet.

    Done at each start: a migration that makes a table anew leaves its triggers behind. Writes nothing if nothing lacks.
    """
    tables = [model._meta.db_table for model in apps.get_models(include_auto_created=True)]
    wanted = {f"{COUNTS}_{verb}_{table}": (verb, table) for table in tables for verb in ("insert", "update", "delete")}
    with within.cursor() as cursor:
        there = {name for (name,) in cursor.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall()}
        if not wanted.keys() - there:
            return
        with transaction.atomic(using=within.alias):
            cursor.execute(f"CREATE TABLE IF NOT EXISTS {COUNTS} (name TEXT PRIMARY KEY, times INTEGER NOT NULL)")
            cursor.executemany(f"INSERT OR IGNORE INTO {COUNTS} VALUES (%s, 0)", [(table,) for table in tables])
            for name, (verb, table) in wanted.items():
                cursor.execute(
                    f"CREATE TRIGGER IF NOT EXISTS {name} AFTER {verb} ON {table}"
                    f" BEGIN UPDATE {COUNTS} SET times = times + 1 WHERE name = '{table}'; END"
                )


@dataclass(frozen=True, slots=True)
class Counts:
    """What was written up to a moment: of which file, and how often in each table."""

    opened: int
    of: Mapping[str, int]

    def only(self, tables: AbstractSet[str]) -> Counts:
        """Those of some tables."""
        return Counts(self.opened, {name: self.of[name] for name in tables})

    def stand(self, now: Counts) -> bool:
        """Whether nothing was written in these tables up to now."""
        return self.opened == now.opened and all(now.of.get(name) == times for name, times in self.of.items())


class Watch:
    """A connection that never writes: SQLite tells it whether any other committed something."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._file: tuple[Path, int] | None = None
        self._opened = 0
        self._looks: sqlite3.Connection | None = None
        self._version: int | None = None
        self._counts: Counts | None = None

    def counts(self, path: Path) -> Counts | None:
        """Those of a database's file now; None if it does not count (`prepare`).

        Another file in its place, a backup brought back, counts as written throughout.
        """
        with self._lock:
            file = path, path.stat().st_ino
            if self._looks is None or file != self._file:
                if self._looks is not None:
                    self._looks.close()
                self._looks = sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True, check_same_thread=False)
                self._file, self._opened, self._version = file, self._opened + 1, None
            (version,) = self._looks.execute("PRAGMA data_version").fetchone()
            if version != self._version:  # what is committed between these two reads is read once more next time
                self._counts, self._version = self._read(self._looks), version
            return self._counts

    def _read(self, looks: sqlite3.Connection) -> Counts | None:
        try:
            return Counts(self._opened, dict(looks.execute(f"SELECT name, times FROM {COUNTS}").fetchall()))
        except sqlite3.OperationalError:
            return None


_watch: Final = Watch()
_open = local()


def counts() -> Counts | None:
    """Those of the garden's database; None within a transaction, whose own rows nobody else can see yet."""
    if connection.in_atomic_block or connection.is_in_memory_db():  # type: ignore[attr-defined]
        return None
    return _watch.counts(Path(connection.settings_dict["NAME"]))


@contextmanager
def noted_reads() -> Iterator[set[str]]:
    """Within it, the names of all tables that this thread's statements name, those of what is made within included."""
    found = set[str]()

    def noting(execute: Callable[..., Any], sql: str, params: Any, many: bool, context: Any) -> Any:
        found.update(WORD.findall(sql))
        return execute(sql, params, many, context)

    outer: tuple[set[str], ...] = getattr(_open, "sets", ())
    _open.sets = (*outer, found)
    try:
        with connection.execute_wrapper(noting):
            yield found
    finally:
        _open.sets = outer


class UntilWritten(Generic[K, V]):
    """Values by key, the latest so many, each kept until a table is written that was read for it.

    Whoever gets one must not change it.
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._held: OrderedDict[K, tuple[Counts, V]] = OrderedDict()
        self._lock = Lock()

    def known(self, key: K) -> V | None:
        """The value; None if there is none that still stands."""
        now = counts()
        with self._lock:
            found = self._held.get(key)
            if now is None or found is None or not found[0].stand(now):
                return None
            self._held.move_to_end(key)
        for reads in getattr(_open, "sets", ()):  # what is made of it rests on the same tables
            reads.update(found[0].of)
        return found[1]

    def made(self, key: K, make: Callable[[], V]) -> V:
        """The value made anew, and kept."""
        before = counts()
        with noted_reads() as reads:
            value = make()
        if before is not None:
            with self._lock:
                self._held[key] = before.only(reads & before.of.keys()), value
                self._held.move_to_end(key)
                while len(self._held) > self._most:
                    self._held.popitem(last=False)
        return value

    def got(self, key: K, make: Callable[[], V]) -> V:
        """The value, made if there is none that still stands."""
        found = self.known(key)
        return self.made(key, make) if found is None else found
