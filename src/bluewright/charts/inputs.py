"""What a chart is made of: bands, marks, windows. Checked when they are built, so that drawing cannot fail."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bluewright.charts.scale import hours_since
from bluewright.science.base.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeBand:
    """A quantity against time: low, middle and high at each of at least two rising times."""

    times: tuple[datetime, ...]
    """Rising, each with an offset from UTC."""
    low: tuple[float, ...]
    """The 5 % points."""
    mid: tuple[float, ...]
    """The middles."""
    high: tuple[float, ...]
    """The 95 % points."""

    def __post_init__(self) -> None:
        _check_band([t.timestamp() for t in self.times], self.low, self.mid, self.high, along="times")
        hours_since(self.times[0], self.times, where="times")


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveBand:
    """A quantity against another: low, middle and high at each of at least two rising abscissae."""

    x: tuple[float, ...]
    """Rising."""
    low: tuple[float, ...]
    """The 5 % points."""
    mid: tuple[float, ...]
    """The middles."""
    high: tuple[float, ...]
    """The 95 % points."""

    def __post_init__(self) -> None:
        _check_band(self.x, self.low, self.mid, self.high, along="x")


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One thing seen or measured at a time; without a value it stands on the time axis."""

    time: datetime
    label: str
    """A few words; drawn where there is room, always there for a screen reader or a pointer."""
    value: float | None = None
    """In the unit of the panel that it belongs to."""

    def __post_init__(self) -> None:
        hours_since(self.time, [self.time], where="time")
        _check_finite("value", self.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One measured pair."""

    x: float
    y: float
    label: str = ""
    """A few words; drawn where there is room."""

    def __post_init__(self) -> None:
        _check_finite("x", self.x)
        _check_finite("y", self.y)


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """A stretch of time that answers the question."""

    start: datetime
    end: datetime
    """Not before `start`."""
    label: str
    """What it is: `best time to strain`."""

    def __post_init__(self) -> None:
        hours_since(self.start, [self.start, self.end], where="window")
        if self.end < self.start:
            raise InputError(where="window", what="it ends before it starts", right="put the earlier time first")


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A value with its range, low <= mid <= high."""

    low: float
    mid: float
    high: float

    def __post_init__(self) -> None:
        for name, value in (("low", self.low), ("mid", self.mid), ("high", self.high)):
            _check_finite(name, value)
        if not self.low <= self.mid <= self.high:
            raise InputError(
                where="mid",
                what=f"{self.mid:g} is outside its own range {self.low:g} to {self.high:g}",
                right="low <= mid <= high",
            )


def check_words(**texts: str) -> None:
    """Refuse a chart whose question, summary or axis name is empty: a drawing must say what it shows."""
    for where, text in texts.items():
        if not text.strip():
            raise InputError(where=where, what="it is empty", right="say in words what the chart shows")


def _check_band(
    along_values: Sequence[float], low: Sequence[float], mid: Sequence[float], high: Sequence[float], *, along: str
) -> None:
    count = len(along_values)
    if count < 2:
        raise InputError(where=along, what=f"there are {count} points", right="a line needs at least two")
    for where, values in (("low", low), ("mid", mid), ("high", high)):
        if len(values) != count:
            raise InputError(where=where, what=f"it has {len(values)} values", right=f"as many as {along}: {count}")
        for at, value in enumerate(values):
            _check_finite(f"{where}[{at}]", value)
    for at in range(1, count):
        _check_finite(f"{along}[{at}]", along_values[at])
        if not along_values[at - 1] < along_values[at]:
            raise InputError(where=f"{along}[{at}]", what="it does not come after the one before", right="sort them")
    for at in range(count):
        if not low[at] <= mid[at] <= high[at]:
            raise InputError(
                where=f"mid[{at}]",
                what=f"{mid[at]:g} is outside its own range {low[at]:g} to {high[at]:g}",
                right="low <= mid <= high",
            )


def _check_finite(where: str, value: float | None) -> None:
    if value is not None and not math.isfinite(value):
        raise InputError(where=where, what=f"{value} has no place on paper", right="give a finite number")
