"""Who reads what is shown: in which units, and how dates are written.

A page sets its reader once, for all that is said while it is made; without one (the command line) it is said in
metric units, the day before the month.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, replace
from typing import Any, Final, Literal

from bluewright.science.base.measures import System

Dates = Literal["day_first", "month_first"]
"""`Sun 5 Jul 18:00`, or `Sun, Jul 5, 6:00 pm`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reader:
    """The units and the way of writing dates that a reader is used to."""

    system: System = "metric"
    dates: Dates = "day_first"


METRIC: Final = Reader()
_READER: Final[ContextVar[Reader]] = ContextVar("reader", default=METRIC)


def reader() -> Reader:
    """Who reads what is being said."""
    return _READER.get()


@contextmanager
def read_by(**changed: Any) -> Iterator[None]:
    """While it is open, what is said is said for a reader changed so (`system`, `dates`); the rest stays as it was."""
    token = _READER.set(replace(reader(), **changed))
    try:
        yield
    finally:
        _READER.reset(token)
