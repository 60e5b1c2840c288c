"""Work that no page waits for: done beside the pages by one thread of the server, one thing after another.

It gives way to the pages: it begins in a lull, and what takes long pauses while a page is made (`journal/courtesy.py`).
Where no server runs (tests, commands) nothing is done. What is asked for while it waits already is not asked twice.
"""

from __future__ import annotations

import logging
import time
from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Condition, Thread
from typing import Final

from django.db import connections

from bluewright.journal.courtesy import give_way, giving_way
from bluewright.web.turns import ASKED

Work = Callable[[], None]
log: Final = logging.getLogger("django")


class Aside:
    """A thread that works off what is asked for."""

    def __init__(self) -> None:
        self._waiting: OrderedDict[Hashable, tuple[float, Work]] = OrderedDict()
        self._again: dict[Hashable, tuple[float, Work]] = {}
        self._told = Condition()
        self._on = False

    def begin(self) -> None:
        """Start the thread: it ends with the program."""
        if not self._on:
            self._on = True
            Thread(target=self._run, name="aside", daemon=True).start()

    def ask(self, key: Hashable, work: Work, *, after_s: float = 0.0) -> bool:
        """Have some work done soon, or after some seconds; returns whether it will be, by this call."""
        if not self._on:
            return False
        with self._told:
            new = key not in self._waiting
            self._waiting.setdefault(key, (time.monotonic() + after_s, work))
            self._told.notify()
        return new

    def repeat(self, key: Hashable, work: Work, *, every_s: float) -> None:
        """Have some work done now, and again so many seconds after each time."""
        self._again[key] = every_s, work
        self.ask(key, work)

    def waits(self, key: Hashable) -> bool:
        """Whether this is asked for and not done yet."""
        with self._told:
            return key in self._waiting

    def _run(self) -> None:
        with giving_way(ASKED.wait_for_lull):
            self._work_off()

    def _work_off(self) -> None:
        while True:
            key, work = self._next()
            try:
                give_way()
                work()
            except Exception:
                log.exception("aside: %s", key)
            finally:
                connections.close_all()
                with self._told:
                    self._waiting.pop(key)
                    if key in self._again:
                        every_s, again = self._again[key]
                        self._waiting[key] = time.monotonic() + every_s, again

    def _next(self) -> tuple[Hashable, Work]:
        """What is due, the first that was asked for first; waits until there is something."""
        with self._told:
            while True:
                now = time.monotonic()
                for key, (due, work) in self._waiting.items():
                    if due <= now:
                        return key, work
                soonest = min((due for due, _work in self._waiting.values()), default=None)
                self._told.wait(None if soonest is None else soonest - now)


ASIDE: Final = Aside()
"""That of this server."""
