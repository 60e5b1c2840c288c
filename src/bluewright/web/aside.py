"""Work that no page waits for: done beside the pages by one thread of the server, one thing after another.

Where no server runs (tests, commands) nothing is done. What is asked for while it waits already is not asked twice.
"""

from __future__ import annotations

import logging
from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Condition, Thread
from typing import Final

from django.db import connections

Work = Callable[[], None]
log: Final = logging.getLogger("django")


class Aside:
    """A thread that works off what is asked for."""

    def __init__(self) -> None:
        self._waiting: OrderedDict[Hashable, Work] = OrderedDict()
        self._told = Condition()
        self._on = False

    def begin(self) -> None:
        """Start the thread: it ends with the program."""
        if not self._on:
            self._on = True
            Thread(target=self._run, name="aside", daemon=True).start()

    def ask(self, key: Hashable, work: Work) -> bool:
        """Have some work done soon; returns whether it will be, by this call."""
        if not self._on:
            return False
        with self._told:
            new = key not in self._waiting
            self._waiting.setdefault(key, work)
            self._told.notify()
        return new

    def waits(self, key: Hashable) -> bool:
        """Whether this is asked for and not done yet."""
        with self._told:
            return key in self._waiting

    def _run(self) -> None:
        while True:
            with self._told:
                self._told.wait_for(lambda: self._waiting)
                key, work = next(iter(self._waiting.items()))
            try:
                work()
            except Exception:
                log.exception("aside: %s", key)
            finally:
                connections.close_all()
                with self._told:
                    self._waiting.pop(key)


ASIDE: Final = Aside()
"""That of this server."""
