"""One page after another: with several phones at once each then has its page sooner than if all were made together.

Python runs one thread at a time. Pages that are made together pass its lock to and fro, at each row that they read
from the database, and all of them are done only when the last is.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import Condition, Lock
from typing import Final

from django.http import HttpRequest, HttpResponse

Answer = Callable[[HttpRequest], HttpResponse]
READS: Final = frozenset({"GET", "HEAD"})
"""What takes its turn. A post does not: it may bring a photo over a slow air, and wait for it."""
PATIENCE_S: Final = 0.25
"""A page waits so long for the one before, which may have a forecast to work out, then is made beside it."""
LULL_S: Final = 0.25
"""So long nobody must have asked: a page comes with its redirect, and leads to the next."""
MOST_S: Final = 8.0
"""Work beside the pages waits so long for a lull, then does a little: it goes on, slowly, if phones ask without end."""


class Asked:
    """Who is being answered now, so that others can wait until nobody is."""

    def __init__(self) -> None:
        self._told = Condition()
        self._many = 0
        self._last = float("-inf")

    @contextmanager
    def answering(self) -> Iterator[None]:
        """While somebody is."""
        with self._told:
            self._many += 1
        try:
            yield
        finally:
            with self._told:
                self._many -= 1
                self._last = time.monotonic()
                self._told.notify_all()

    def wait_for_lull(self, *, lull_s: float = LULL_S, most_s: float = MOST_S) -> None:
        """Wait until nobody was answered for so long, at most `most_s`."""
        until = time.monotonic() + most_s
        with self._told:
            while (now := time.monotonic()) < until and (self._many or now < self._last + lull_s):
                ends = until if self._many else min(until, self._last + lull_s)
                self._told.wait(ends - now)


ASKED: Final = Asked()
"""That of this server."""


def in_turn(answer: Answer) -> Answer:
    """Middleware, after what hands out files: pages that are read are made one after another."""
    turn = Lock()

    def in_its_turn(request: HttpRequest) -> HttpResponse:
        with ASKED.answering():
            has_turn = request.method in READS and turn.acquire(timeout=PATIENCE_S)
            try:
                return answer(request)
            finally:
                if has_turn:
                    turn.release()

    return in_its_turn
