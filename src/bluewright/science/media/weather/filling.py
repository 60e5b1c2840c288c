"""Coldest and warmest of every day: what was read, with its error, and gaps filled by neighbours and climate.

Daily mean and half range are Gaussian parts as in `media.air_temp`: what is usual, what the whole season is off, and a
wander from day to day with its own memory; a day warmer than usual swings more in summer. Days that were read condition
both exactly, so that a gap of a day is filled narrowly, a gap of a month as wide as the climate, and a forecast fades
into it.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.media.air_temp import (
    DAY_TO_DAY,
    DAY_TO_DAY_H,
    HALF_RANGE_DAY,
    HALF_RANGE_DAY_H,
    Gaussian,
    air_errors_c2,
)
from bluewright.science.media.tub_temp import READ_DAY_ERROR, air_error_c
from bluewright.science.media.weather.climate import usual, warm_season
from bluewright.science.media.weather.record import Weather, WeatherDay

CLEAR_PER_C: Final = Sourced(
    value=0.20, unit="1", source="noaa-seattle", low=0.0, high=0.4, grade="fitted",
    note="half range that a day 1 C too warm has more, mean of the year: by Seattle's days of 2012 to 2014",
)  # fmt: skip
CLEAR_SEASON_PER_C: Final = Sourced(
    value=0.25, unit="1", source="noaa-seattle", low=0.0, high=0.4, grade="fitted",
    note="the same, more in July and less in January: a clear day is warm in summer and cold in winter",
)  # fmt: skip
BESIDE_D = 15
"""Days read so long before or after the span still say something of its ends."""
DAY_H = 24.0
HALF_DAY_H = 12.0
"""From about the coldest to about the warmest."""
TINY_C2 = 1e-8
"""Added to variances so that arithmetic does not see less than nothing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Temps:
    """Draws of the coldest and the warmest of each day, both of shape (n, d)."""

    min_c: Floats
    max_c: Floats


def span(first: date, last: date) -> list[date]:
    """Every day from the first to the last."""
    return [first + timedelta(days=k) for k in range((last - first).days + 1)]


def temps(days: Sequence[date], *, weather: Weather, now: date, rng: np.random.Generator, n: int) -> Temps:
    """`n` draws of the extremes of consecutive `days`, given what was read and what was forecast by `now`.

    A half range drawn below 0 is turned over: the warmest is never colder than the coldest. Raises ModelError if the
    readings contradict each other beyond arithmetic.
    """
    found = believed(days, weather=weather, now=now)
    size = len(days)
    root = np.linalg.cholesky(found.cov_c2 + TINY_C2 * np.eye(2 * size))
    drawn = found.mean_c + rng.standard_normal((n, 2 * size)) @ root.T
    mean, half = drawn[:, :size], np.abs(drawn[:, size:])
    return Temps(min_c=mean - half, max_c=mean + half)


def believed(days: Sequence[date], *, weather: Weather, now: date) -> Gaussian:
    """Daily means, then half ranges, of `days`: a Gaussian vector of twice their number."""
    rows = [row for row in weather.days if -BESIDE_D <= (row.day - days[0]).days < len(days) + BESIDE_D]
    wide = span(min([days[0], *(row.day for row in rows)]), max([days[-1], *(row.day for row in rows)]))
    at, sign, temp_c, sd_c = _read(rows, first=wide[0], now=now).T
    errors_c2 = air_errors_c2(DAY_H * at + HALF_DAY_H / 2 * sign, sd_c=sd_c)
    found, _ = _prior(wide, weather).given(_of_extremes(at, sign, len(wide)), temp_c, errors_c2)
    kept = (days[0] - wide[0]).days + np.arange(len(days))
    kept = np.concatenate([kept, kept + len(wide)])
    return Gaussian(mean_c=found.mean_c[kept], cov_c2=found.cov_c2[np.ix_(kept, kept)])


def _prior(days: Sequence[date], weather: Weather) -> Gaussian:
    """What is believed of the days before any is read."""
    known, size = usual(days, weather=weather), len(days)
    apart_h = DAY_H * np.abs(np.subtract.outer(np.arange(size), np.arange(size)))
    cov = np.zeros((2 * size, 2 * size))
    wander = DAY_TO_DAY.spread**2 * np.exp(-apart_h / DAY_TO_DAY_H.value)
    swing = HALF_RANGE_DAY.spread**2 * np.exp(-apart_h / HALF_RANGE_DAY_H.value)
    clear = CLEAR_PER_C.value + CLEAR_SEASON_PER_C.value * warm_season(days, weather=weather)
    cov[:size, :size] = known.mean_sd_c**2 + wander
    cov[size:, size:] = known.half_range_sd_c**2 + swing + clear[:, None] * wander * clear
    cov[:size, size:] = wander * clear
    cov[size:, :size] = cov[:size, size:].T
    return Gaussian(mean_c=np.concatenate([known.mean_c, known.half_range_c]), cov_c2=cov)


def _read(rows: Sequence[WeatherDay], *, first: date, now: date) -> Floats:
    """Each extreme read or forecast, shape (k, 4): days since the first, -1 or +1, temperature, standard error."""
    found = []
    for row in rows:
        ahead_h = DAY_H * (row.day - now).days
        sd_c = air_error_c(ahead_h, forecast=True) if row.forecast else READ_DAY_ERROR.value
        for sign, temp_c in ((-1, row.min_c), (1, row.max_c)):
            if temp_c is not None:
                found.append(((row.day - first).days, sign, temp_c, sd_c))
    return np.array(found, dtype=float).reshape(-1, 4)


def _of_extremes(at: Floats, sign: Floats, size: int) -> Floats:
    """Each extreme as daily mean less or plus half range: shape (k, 2 size)."""
    rows = np.zeros((len(at), 2 * size))
    place = at.astype(int)
    rows[np.arange(len(at)), place] = 1.0
    rows[np.arange(len(at)), place + size] = sign
    return rows
