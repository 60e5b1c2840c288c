"""What is usual on each day of a span: from the twelve months of a climate table, or from a temperate climate at large.

A daily curve runs straight between the middles of the months, its nodes chosen so that the mean of each month is what
the table says. Without a table the curve is that of `media.air_temp`, whose place is not known: the spread is wide.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.air_temp import (
    HALF_RANGE,
    HALF_RANGE_SEASON,
    SEASON_SWING,
    YEAR_MEAN,
    northern_day,
    season,
)
from bluewright.science.media.weather.record import MONTHS, Weather

ODD_SEASON: Final = Prior(
    kind="normal", centre=0.0, spread=1.0, unit="C", source="common-practice", grade="guess",
    note="how far a garden and a season stand off a climate table, in daily means",
)  # fmt: skip
ODD_HALF_RANGE: Final = Prior(
    kind="normal", centre=0.0, spread=0.5, unit="C", source="common-practice", grade="guess",
    note="the same in half of warmest less coldest",
)  # fmt: skip
_LENGTHS: Final = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


@dataclass(frozen=True, slots=True, kw_only=True)
class Usual:
    """The usual daily mean and half range of each day of a span, and how far a season may stand off them."""

    mean_c: Floats
    """Middle between coldest and warmest, shape (d,)."""
    half_range_c: Floats
    """Half of warmest less coldest, shape (d,)."""
    mean_sd_c: float
    """Standard deviation of what all days of the span are off together."""
    half_range_sd_c: float
    """The same of the half range."""


def usual(days: Sequence[date], *, weather: Weather) -> Usual:
    """What is usual on `days`; from the table where there is one."""
    if weather.normals:
        low, high = (
            by_day([getattr(month, name) for month in weather.normals], days) for name in ("min_c", "max_c")
        )  # fmt: skip
        return Usual(
            mean_c=(low + high) / 2,
            half_range_c=(high - low) / 2,
            mean_sd_c=ODD_SEASON.spread,
            half_range_sd_c=ODD_HALF_RANGE.spread,
        )
    warm = warm_season(days, weather=weather)
    return Usual(
        mean_c=YEAR_MEAN.centre + SEASON_SWING.value * warm,
        half_range_c=HALF_RANGE.centre + HALF_RANGE_SEASON.value * warm,
        mean_sd_c=YEAR_MEAN.spread,
        half_range_sd_c=HALF_RANGE.spread,
    )


def warm_season(days: Sequence[date], *, weather: Weather) -> Floats:
    """+1 on the warmest day of the year, -1 half a year away, shape (d,)."""
    return np.array([season(northern_day(day, hemisphere=weather.hemisphere)) for day in days])


def by_day(values: Sequence[float], days: Sequence[date]) -> Floats:
    """A quantity on each day, shape (d,), from its twelve monthly means, each of which is kept."""
    nodes = np.linalg.solve(_shares(), np.asarray(values, dtype=float))
    of_year = np.array([min(day.timetuple().tm_yday, sum(_LENGTHS)) - 1 for day in days])
    return np.asarray(_weights()[of_year] @ nodes)


@cache
def _weights() -> Floats:
    """How much each month's node counts on each day of the year, shape (365, 12): the two next to it, by nearness."""
    ends = np.cumsum(_LENGTHS)
    middles = ends - np.asarray(_LENGTHS) / 2
    year_d = float(ends[-1])
    around = np.concatenate([[middles[-1] - year_d], middles, [middles[0] + year_d]])
    corners = np.eye(MONTHS)[[MONTHS - 1, *range(MONTHS), 0]]
    at = np.arange(ends[-1]) + 0.5
    return np.column_stack([np.interp(at, around, corners[:, month]) for month in range(MONTHS)])


@cache
def _shares() -> Floats:
    """How much each node counts in the mean of each month, shape (12, 12)."""
    edges = np.cumsum(_LENGTHS)[:-1]
    return np.array([part.mean(axis=0) for part in np.split(_weights(), edges)])
