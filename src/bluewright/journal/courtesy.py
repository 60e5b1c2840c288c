"""Letting others go first: what is worked out beside the pages pauses while somebody waits for a page.

Python runs one thread at a time. A forecast that is worked out beside another takes it half of its speed, and one that
waits for another to end waits a second. So the thread beside the pages says once how it gives way (`giving_way`), and
what takes long calls `give_way` between its parts. Whoever gives way holds no lock that a page may want.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import local

_thread = local()


@contextmanager
def giving_way(wait: Callable[[], None]) -> Iterator[None]:
    """Within it, this thread gives way by calling `wait`."""
    before = getattr(_thread, "wait", None)
    _thread.wait = wait
    try:
        yield
    finally:
        _thread.wait = before


def give_way() -> None:
    """Wait until nobody is in more of a hurry; at once in a thread that gives way to none."""
    wait: Callable[[], None] | None = getattr(_thread, "wait", None)
    if wait is not None:
        wait()


def gives_way() -> bool:
    """Whether this thread is one that does."""
    return getattr(_thread, "wait", None) is not None
