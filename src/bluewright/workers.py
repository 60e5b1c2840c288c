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


def cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


@contextmanager
def workers(many: int) -> Iterator[ProcessPoolExecutor]:
    """A pool of so many; what it has not begun when it is left is dropped."""
    pool = ProcessPoolExecutor(many, mp_context=get_context("spawn"), initializer=_leave_interrupts_to_the_parent)
    try:
        yield pool
    finally:
        pool.shutdown(cancel_futures=True)


def _leave_interrupts_to_the_parent() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)
