"""Whether anything was written: what was read or reckoned is kept in memory until then, and no moment longer.

The database itself tells it, so it holds for whoever wrote: a page, work beside the pages, another program. A change
counts once it is committed, which is when others can read it.
"""

from __future__ import annotations

import sqlite3
from collections import OrderedDict
from collections.abc import Callable, Hashable
from pathlib import Path
from threading import Lock
from typing import Final, Generic, TypeVar

from django.db import connection

K = TypeVar("K", bound=Hashable)
V = TypeVar("V")
Stamp = tuple[int, ...]
"""Something that differs once anything was written."""


class Watch:
    """A connection that never writes: SQLite counts for it what all others commit."""

    def __init__(self) -> None:
        self._lock = Lock()
        self._file: tuple[Path, int] | None = None
        self._opened = 0
        self._looks: sqlite3.Connection | None = None

    def stamp(self, path: Path) -> Stamp:
        """That of a database's file; another file in its place, a backup brought back, counts as written too."""
        with self._lock:
            file = path, path.stat().st_ino
            if self._looks is None or file != self._file:
                if self._looks is not None:
                    self._looks.close()
                self._looks = sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True, check_same_thread=False)
                self._file, self._opened = file, self._opened + 1
            (version,) = self._looks.execute("PRAGMA data_version").fetchone()
            return self._opened, version


_watch: Final = Watch()


def stamp() -> Stamp | None:
    """That of the garden's database; None within a transaction, whose own rows nobody else can see yet."""
    if connection.in_atomic_block or connection.is_in_memory_db():  # type: ignore[attr-defined]
        return None
    return _watch.stamp(Path(connection.settings_dict["NAME"]))


class UntilWritten(Generic[K, V]):
    """Values by key, the latest so many, each kept until anything is written. Whoever gets one must not change it."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._held: OrderedDict[K, tuple[Stamp, V]] = OrderedDict()
        self._lock = Lock()

    def known(self, key: K) -> V | None:
        """The value; None if there is none that still stands."""
        now = stamp()
        with self._lock:
            found = self._held.get(key)
            if now is None or found is None or found[0] != now:
                return None
            self._held.move_to_end(key)
            return found[1]

    def made(self, key: K, make: Callable[[], V]) -> V:
        """The value made anew, and kept."""
        before = stamp()
        value = make()
        if before is not None:
            with self._lock:
                self._held[key] = before, value
                self._held.move_to_end(key)
                while len(self._held) > self._most:
                    self._held.popitem(last=False)
        return value

    def got(self, key: K, make: Callable[[], V]) -> V:
        """The value, made if there is none that still stands."""
        found = self.known(key)
        return self.made(key, make) if found is None else found
