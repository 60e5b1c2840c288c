"""Worker processes for work that takes long, started afresh: threads and numerical libraries do not survive a fork."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context
from typing import Final

MOST_WORKERS: Final = 8
LAST: Final = 19
"""Behind everybody else, as systems count courtesy."""


def cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


@contextmanager
def workers(many: int, *, beside: bool = False) -> Iterator[ProcessPoolExecutor]:
    """A pool of so many; what it has not begun when it is left is dropped.

    With `beside` they take only the processor time that nobody else wants, where the system can do that.
    """
    pool = ProcessPoolExecutor(many, mp_context=get_context("spawn"), initializer=_begin, initargs=(beside,))
    try:
        yield pool
    finally:
        pool.shutdown(cancel_futures=True)


def _begin(beside: bool) -> None:
    """Interrupts are the parent's."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if beside and hasattr(os, "nice"):
        os.nice(LAST)
