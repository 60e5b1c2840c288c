"""Where values stand on paper, and which of them get a tick: round numbers, times of day, days."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta, timezone
from typing import Final

from bluewright.science.base.errors import InputError
from bluewright.words.numbers import hour as hour_said

_HOURS: Final = (1, 2, 3, 6, 12, 24, 48, 72, 168, 336)


@dataclass(frozen=True, slots=True)
class Scale:
    """A straight map from values `low` to `high` onto paper `start` to `end` (either way round)."""

    low: float
    high: float
    start: float
    end: float

    def __post_init__(self) -> None:
        if not (math.isfinite(self.low) and math.isfinite(self.high) and self.low < self.high):
            raise InputError(
                where="scale",
                what=f"it runs from {self.low:g} to {self.high:g}",
                right="a scale needs two finite values, the lower one first",
            )

    def __call__(self, value: float) -> float:
        """Where `value` stands on paper; beyond the ends it goes on straight."""
        return self.start + (value - self.low) / (self.high - self.low) * (self.end - self.start)


@dataclass(frozen=True, slots=True)
class Tick:
    """A value that gets a mark, and what is written there (nothing for a bare mark)."""

    at: float
    label: str


def inner_ticks(low: float, high: float, *, wanted: int = 5) -> list[Tick]:
    """Round numbers between `low` and `high`, about `wanted` of them: steps of 1, 2 or 5 times a power of ten."""
    step = round_step(high - low, wanted=wanted)
    return _ticks(math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9), step)


def outer_ticks(low: float, high: float, *, wanted: int = 5) -> list[Tick]:
    """Round numbers from the last at or below `low` to the first at or above `high`: the ticks of a whole axis.

    A range of nothing gets room on both sides.
    """
    if high - low <= 1e-9 * max(abs(low), abs(high)):
        room = max(abs(low), abs(high)) / 10 or 1.0
        low, high = low - room, high + room
    step = round_step(high - low, wanted=wanted)
    return _ticks(math.floor(low / step + 1e-9), math.ceil(high / step - 1e-9), step)


def _ticks(first: int, last: int, step: float) -> list[Tick]:
    decimals = max(0, -math.floor(math.log10(step) + 1e-9))
    return [Tick(at=k * step, label=f"{k * step + 0.0:,.{decimals}f}") for k in range(first, last + 1)]


def round_step(span: float, *, wanted: int) -> float:
    """The step of 1, 2 or 5 times a power of ten that cuts `span` into at most about `wanted` pieces."""
    if not (math.isfinite(span) and span > 0):
        raise InputError(where="scale", what=f"it spans {span:g}", right="ticks need a finite span above zero")
    rough = span / wanted
    power = 10.0 ** math.floor(math.log10(rough))
    return next(power * factor for factor in (1.0, 2.0, 5.0, 10.0) if power * factor >= rough * (1 - 1e-9))


def hours_since(start: datetime, times: Sequence[datetime], *, where: str) -> list[float]:
    """Hours from `start` to each of `times`; refuses times without an offset from UTC."""
    for at, time in enumerate((start, *times)):
        if time.utcoffset() is None:
            raise InputError(
                where=f"{where}[{max(at - 1, 0)}]",
                what=f"{time.isoformat()} has no offset from UTC",
                right="give times with an offset",
            )
    return [(time - start) / timedelta(hours=1) for time in times]


def hour_ticks(start: datetime, span_h: float, *, most: int) -> list[Tick]:
    """Times of day as ticks, in hours since `start`, at most about `most`, on the clock of `start`.

    Steps are 1, 2, 3, 6 or 12 hours counted from midnight, then whole days. Where there is room for few labels,
    midnight carries none: the names of the days stand on both sides of it.
    """
    step = next((h for h in _HOURS if span_h / h <= most), 24 * math.ceil(span_h / 24 / most))
    midnight_h = -_hours_of_day(start)
    first = math.ceil((0 - midnight_h) / step - 1e-9)
    found = []
    while (at := midnight_h + first * step) <= span_h + 1e-9:
        hour = (first * step) % 24
        bare = step >= 24 or (hour == 0 and step >= 6)
        found.append(Tick(at=at, label="" if bare else hour_said(int(hour))))
        first += 1
    return found


def day_spans(start: datetime, span_h: float) -> list[tuple[float, float, datetime]]:
    """The days on the clock of `start`: from, to (hours since `start`, cut to the span), and noon of that day."""
    clock = timezone(start.utcoffset() or timedelta(0))
    noon = start.astimezone(clock).replace(hour=12, minute=0, second=0, microsecond=0)
    midnight_h = -_hours_of_day(start)
    found = []
    while midnight_h < span_h:
        found.append((max(midnight_h, 0.0), min(midnight_h + 24, span_h), noon))
        midnight_h, noon = midnight_h + 24, noon + timedelta(days=1)
    return [span for span in found if span[1] - span[0] > 1e-9]


def nights(
    start: datetime, end: datetime, *, dusk_h: float = 21.0, dawn_h: float = 5.0
) -> list[tuple[datetime, datetime]]:
    """The nights from `start` to `end`, from `dusk_h` to `dawn_h` on the clock of `start` (hours of the day)."""
    clock = timezone(start.utcoffset() or timedelta(0))
    dusk = start.astimezone(clock).replace(hour=0, minute=0, second=0, microsecond=0) - timedelta(hours=24 - dusk_h)
    length = timedelta(hours=24 - dusk_h + dawn_h)
    found = []
    while dusk < end:
        if dusk + length > start:
            found.append((max(dusk, start), min(dusk + length, end)))
        dusk += timedelta(days=1)
    return found


def _hours_of_day(time: datetime) -> float:
    return time.hour + time.minute / 60 + time.second / 3600
