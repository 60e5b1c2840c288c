"""One page after another: with several phones at once each then has its page sooner than if all were made together.

Python runs one thread at a time. Pages that are made together pass its lock to and fro, at each row that they read
from the database, and all of them are done only when the last is.
"""

from __future__ import annotations

from collections.abc import Callable
from threading import Lock
from typing import Final

from django.http import HttpRequest, HttpResponse

Answer = Callable[[HttpRequest], HttpResponse]
READS: Final = frozenset({"GET", "HEAD"})
"""What takes its turn. A post does not: it may bring a photo over a slow air, and wait for it."""
PATIENCE_S: Final = 0.25
"""A page waits so long for the one before, which may have a forecast to work out, then is made beside it."""


def in_turn(answer: Answer) -> Answer:
    """Middleware, after what hands out files: pages that are read are made one after another."""
    turn = Lock()

    def in_its_turn(request: HttpRequest) -> HttpResponse:
        has_turn = request.method in READS and turn.acquire(timeout=PATIENCE_S)
        try:
            return answer(request)
        finally:
            if has_turn:
                turn.release()

    return in_its_turn
