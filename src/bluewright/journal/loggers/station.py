"""What a weather station measures beside temperature, and how its lines become days."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import UTC, date, datetime
from typing import Any, Final, Literal
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from bluewright.journal.loggers.columns import Columns
from bluewright.science.media.weather.evapotranspiration import wind_at_two_metres

Name = Literal["low", "rain", "humidity", "wind", "sun"]
Values = NDArray[np.float64]
FULL_DAY_H: Final = 20
"""So many hours of a day must have been read for the day to count."""
HALF_HOUR_S: Final = 1800
"""All clocks differ from UTC by so much or a multiple, within which nothing of a day changes."""
DAY_S: Final = 86_400
UNITS: Final[Mapping[Name, Mapping[str, float]]] = {
    "rain": {"mm": 1.0, "in": 25.4},
    "humidity": {"%": 0.01},
    "wind": {"m/s": 1.0, "km/h": 1 / 3.6, "mph": 0.44704, "kn": 1852 / 3600},
    "sun": {"W/m2": 1.0, "MJ/m2": 1.0, "h": 1.0, "min": 1 / 60},
}
"""What one of each unit is in mm, as a share, in m/s, and of sun in W/m2, MJ/m2 or hours."""
LIMITS: Final[Mapping[Name, tuple[float, float]]] = {
    "low": (-60.0, 60.0), "rain": (0.0, 2000.0), "humidity": (0.0, 1.0), "wind": (0.0, 60.0), "sun": (-20.0, 1600.0),
}  # fmt: skip
"""What can be, in those; beyond them a sensor is broken, and its cell counts as empty."""
COLUMN: Final[Mapping[Name, str]] = {
    "low": "low_column", "rain": "rain_column", "humidity": "humidity_column", "wind": "wind_column",
    "sun": "sun_column",
}  # fmt: skip
MOST_RADIATION_MJ: Final = 50.0
MOST_RAIN_MM: Final = 2000.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """What is known of one day; what was not measured, or not for long enough, is None."""

    day: date
    rain_mm: float | None = None
    humidity_frac: float | None = None
    humidity_low_frac: float | None = None
    humidity_high_frac: float | None = None
    wind_m_per_s: float | None = None
    sunshine_h: float | None = None
    radiation_mj_per_m2: float | None = None

    def told(self) -> dict[str, Any]:
        """What is known, by name."""
        return {name: value for name in NAMES if (value := getattr(self, name)) is not None}


NAMES: Final = tuple(name for name in Day.__slots__ if name != "day")
"""What can be known of a day."""


def measured(columns: Columns) -> dict[Name, int]:
    """What the file measures beside temperature, and in which column."""
    return {name: at for name, field in COLUMN.items() if (at := getattr(columns, field)) is not None}


def in_own_unit(name: Name, value: float, columns: Columns) -> float | None:
    """A cell's number in the unit that days are reckoned in; None where it cannot be."""
    factor = 1.0 if name == "low" else UNITS[name][getattr(columns, f"{name}_unit", "%") if name != "humidity" else "%"]
    own = value * factor
    if name == "low" and columns.unit == "f":
        own = (value - 32) / 1.8
    low, high = LIMITS[name]
    return own if low <= own <= high else None


def days(
    seconds: NDArray[np.int64], values: Mapping[Name, Values], columns: Columns, *, zone: ZoneInfo
) -> tuple[list[Day], int]:
    """Each day of the file by the garden's clock with what it says of it, and how many days were not whole.

    `seconds` rise and are each there once; of `values` what was not read is NaN.
    """
    if not len(seconds) or not set(values) - {"low"}:
        return [], 0
    ordinals = _ordinals(seconds, zone)
    hours = seconds // 3600
    found, parts = list[Day](), 0
    for ordinal in np.unique(ordinals):
        here = ordinals == ordinal
        told = dict(_of_day(here, hours, values, columns))
        if told:
            found.append(Day(day=date.fromordinal(int(ordinal)), **told))
        else:
            parts += 1
    return found, parts


def _ordinals(seconds: NDArray[np.int64], zone: ZoneInfo) -> NDArray[np.int64]:
    """The day of each second by a clock, as its number."""
    steps, of_step = np.unique(seconds // HALF_HOUR_S, return_inverse=True)
    told = [datetime.fromtimestamp(int(step) * HALF_HOUR_S, UTC).astimezone(zone).toordinal() for step in steps]
    return np.array(told, dtype=np.int64)[of_step]


def _of_day(
    here: NDArray[np.bool_], hours: NDArray[np.int64], values: Mapping[Name, Values], columns: Columns
) -> Iterator[tuple[str, float]]:
    """What the lines of one day say, each where enough of its hours were read."""
    for name, every in values.items():
        read = here & ~np.isnan(every)
        whole = columns.daily or len(np.unique(hours[read])) >= FULL_DAY_H
        if name == "low" or not read.any() or not whole:
            continue
        mine = every[read]
        if name == "rain":
            rain_mm = float((_fallen(every, here) if columns.rain_how == "total" else mine).sum())
            if rain_mm <= MOST_RAIN_MM:
                yield "rain_mm", round(rain_mm, 3)
        elif name == "humidity":
            yield from _humidity(mine, columns)
        elif name == "wind":
            wind = float(mine.mean())
            if columns.wind_height_m != "2":
                wind = float(wind_at_two_metres(wind, height_m=float(columns.wind_height_m)))
            yield "wind_m_per_s", round(wind, 3)
        else:
            yield from _sun(mine, hours[read], columns)


def _fallen(total_mm: Values, here: NDArray[np.bool_]) -> Values:
    """Rain of the lines of a day from a running total: what each is above the one before; a reset begins at nothing."""
    known = np.flatnonzero(~np.isnan(total_mm))
    steps = np.diff(total_mm[known], prepend=total_mm[known[:1]])
    steps = np.where(steps < 0, total_mm[known], steps)
    return np.asarray(steps[here[known]])


def _humidity(mine: Values, columns: Columns) -> Iterator[tuple[str, float]]:
    """The mean, and of a file by the hour the lowest and highest too; nothing is drier than one in a hundred."""
    frac = np.clip(mine, 0.01, 1.0)  # a sensor that says 0 % is at the end of its scale
    yield "humidity_frac", round(float(frac.mean()), 4)
    if not columns.daily:
        yield "humidity_low_frac", round(float(frac.min()), 4)
        yield "humidity_high_frac", round(float(frac.max()), 4)


def _sun(mine: Values, hours: NDArray[np.int64], columns: Columns) -> Iterator[tuple[str, float]]:
    """Radiation of the day from watts (means over its hours) or from sums; or hours of sunshine."""
    sun = np.maximum(mine, 0.0)  # sensors say some watts below nothing at night
    if columns.sun_unit in {"h", "min"}:
        sunshine_h = float(sun.sum())
        if sunshine_h <= 24:
            yield "sunshine_h", round(sunshine_h, 3)
        return
    if columns.sun_unit == "W/m2":
        _each, of_hour, many = np.unique(hours, return_inverse=True, return_counts=True)
        means = np.bincount(of_hour, sun) / many
        radiation = float(means.mean()) * DAY_S / 1e6
    else:
        radiation = float(sun.sum())
    if radiation <= MOST_RADIATION_MJ:
        yield "radiation_mj_per_m2", round(radiation, 3)


__all__ = ["COLUMN", "FULL_DAY_H", "LIMITS", "NAMES", "UNITS", "Day", "Name", "days", "in_own_unit", "measured"]
