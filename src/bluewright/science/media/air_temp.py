"""How warm is the air beside the tub, at hours read, forecast, or neither?

The air is a sum of independent Gaussian parts: a seasonal mean whose place is not known, a slow wander from day to
day, a daily swing (half-cosines between the coldest and the warmest hour) whose height itself wanders, and gusts of
an hour or two. Points that were read or forecast condition it exactly; away from them each part returns to its
prior with its own memory, so what is believed widens ahead without a rule of its own.

Not here: the tub (`tub_heat`), nor sun and night sky on it (`tub_walls`).
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

import numpy as np

from bluewright.science.base.errors import InputError, ModelError
from bluewright.science.base.sourced import Floats, Prior, Sourced

MIN_TEMP_C: Final = -30.0
MAX_TEMP_C: Final = 105.0

COLDEST_HOUR: Final = Sourced(
    value=6.0, unit="h", source="common-practice", low=4.0, high=8.0, grade="practice", note="about sunrise, local time"
)
WARMEST_HOUR: Final = Sourced(
    value=15.0, unit="h", source="common-practice", low=13.0, high=17.0, grade="practice", note="mid afternoon"
)
WARMEST_DAY: Final = Sourced(
    value=203.0, unit="d", source="common-practice", low=190.0, high=220.0, grade="practice",
    note="day of the year (22 July) with the warmest seasonal mean, northern middle latitudes",
)  # fmt: skip
YEAR_MEAN: Final = Prior(
    kind="normal", centre=10.0, spread=4.0, unit="C", source="common-practice", grade="guess",
    note="yearly mean air of a temperate garden in northern middle latitudes, spread over places",
)  # fmt: skip
SEASON_SWING: Final = Sourced(
    value=6.5, unit="C", source="common-practice", low=4.0, high=12.0, grade="guess",
    note="July stands so much above the yearly mean, January as much below; small by the sea, large inland",
)  # fmt: skip
DAY_TO_DAY: Final = Prior(
    kind="normal", centre=0.0, spread=3.0, unit="C", source="common-practice", grade="guess",
    note="wander of the daily mean about the season",
)  # fmt: skip
DAY_TO_DAY_H: Final = Sourced(
    value=72.0, unit="h", source="common-practice", low=48.0, high=120.0, grade="guess", note="memory of the weather"
)
HALF_RANGE: Final = Prior(
    kind="normal", centre=4.0, spread=1.2, unit="C", source="common-practice", grade="guess",
    note="half of daily maximum minus minimum, mean of the year, spread over places",
)  # fmt: skip
HALF_RANGE_SEASON: Final = Sourced(
    value=1.5,
    unit="C",
    source="common-practice",
    low=0.5,
    high=2.5,
    grade="guess",
    note="more in summer, less in winter",
)
HALF_RANGE_DAY: Final = Prior(
    kind="normal", centre=0.0, spread=1.5, unit="C", source="common-practice", grade="guess",
    note="clear days swing more than cloudy ones",
)  # fmt: skip
HALF_RANGE_DAY_H: Final = Sourced(value=30.0, unit="h", source="common-practice", low=18.0, high=60.0, grade="guess")
GUSTS: Final = Prior(
    kind="normal", centre=0.0, spread=0.9, unit="C", source="common-practice", grade="guess",
    note="cloud, showers and breeze about the smooth daily curve",
)  # fmt: skip
GUSTS_H: Final = Sourced(value=2.5, unit="h", source="common-practice", low=1.0, high=6.0, grade="guess")

SHARED_ERROR_FRAC: Final = Sourced(
    value=0.5, unit="1", source="common-practice", low=0.0, high=0.9, grade="guess",
    note="share of an air reading's error variance that its neighbours have too",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """Temperatures read or forecast, with their standard errors; any number of them, in any order, or none.

    Raises InputError if the arrays differ in length, hold something that is not a number, lie outside -30 to
    105 C, or have an error of 0 or less.
    """

    hours: Floats
    """Hours since the steep began, shape (k,); before it is negative, a forecast may lie ahead."""
    temp_c: Floats
    """Temperatures, shape (k,)."""
    sd_c: Floats
    """Standard errors, shape (k,): of the thermometer, or of the forecast, which grows with its lead time."""

    def __post_init__(self) -> None:
        if not self.hours.shape == self.temp_c.shape == self.sd_c.shape or self.hours.ndim != 1:
            raise InputError(where="hours", what="hours, temp_c and sd_c differ in length", right="give one of each")
        if not (np.isfinite(self.hours).all() and np.isfinite(self.sd_c).all() and (self.sd_c > 0).all()):
            raise InputError(where="sd_c", what="an hour or an error is not a number above 0", right="check the rows")
        wrong = ~((self.temp_c >= MIN_TEMP_C) & (self.temp_c <= MAX_TEMP_C))
        if wrong.any():
            raise InputError(
                where=f"temp_c[{int(np.argmax(wrong))}]",
                what=f"{self.temp_c[wrong][0]:g} C cannot be",
                right=f"give {MIN_TEMP_C:g} to {MAX_TEMP_C:g} C",
            )

    @staticmethod
    def nothing() -> Seen:
        """No readings at all."""
        return Seen(hours=np.empty(0), temp_c=np.empty(0), sd_c=np.empty(0))


def daily_curve(clock_h: Floats) -> Floats:
    """The daily swing between -1 at the coldest and +1 at the warmest hour, two half-cosines; any shape.

    Source: common practice for air curves from a minimum and a maximum; hours `COLDEST_HOUR`, `WARMEST_HOUR`.
    """
    low, high = COLDEST_HOUR.value, WARMEST_HOUR.value
    since_low = np.mod(np.asarray(clock_h) - low, 24.0)
    rise = high - low
    rising = -np.cos(np.pi * since_low / rise)
    falling = np.cos(np.pi * (since_low - rise) / (24.0 - rise))
    return np.where(since_low < rise, rising, falling)


def season(day_of_year: int) -> float:
    """+1 on the warmest day of the year, -1 half a year away (northern middle latitudes)."""
    return float(np.cos(2 * np.pi * (day_of_year - WARMEST_DAY.value) / 365.25))


def northern_day(day: date, *, hemisphere: Literal["north", "south"]) -> int:
    """Day of the year at which the northern hemisphere stands in the season of `day`: in the south half a year on."""
    of_year = day.timetuple().tm_yday
    return of_year if hemisphere == "north" else (of_year + 182) % 365 + 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Gaussian:
    """A Gaussian vector: its mean, shape (m,), and covariance, shape (m, m)."""

    mean_c: Floats
    cov_c2: Floats

    def given(self, rows: Floats, seen_c: Floats, error_c2: Floats) -> tuple[Gaussian, float]:
        """Conditioned on `rows @ x = seen_c` with errors of covariance `error_c2`; with the log density of that.

        Raises ModelError if the readings contradict each other beyond arithmetic.
        """
        if not len(seen_c):
            return self, 0.0
        shared = self.cov_c2 @ rows.T
        within = rows @ shared + error_c2
        missed = seen_c - rows @ self.mean_c
        try:
            root = np.linalg.cholesky(within)
        except np.linalg.LinAlgError:
            raise ModelError("the temperatures read cannot be joined: their covariance is singular") from None
        solved = np.linalg.solve(root, np.column_stack([missed, shared.T]))
        gain = solved[:, 1:]
        found = Gaussian(mean_c=self.mean_c + gain.T @ solved[:, 0], cov_c2=self.cov_c2 - gain.T @ gain)
        log_density = -0.5 * float(solved[:, 0] @ solved[:, 0]) - float(np.log(np.diag(root)).sum())
        return found, log_density - 0.5 * len(seen_c) * float(np.log(2 * np.pi))


def air_errors_c2(hours: Floats, *, sd_c: Floats) -> Floats:
    """Covariance of the errors of air readings and forecasts at hours (k,), shape (k, k): neighbours share half.

    A forecast that is too warm today is mostly too warm tomorrow, and a station differs from the garden for days.
    """
    apart_h = np.abs(hours[:, None] - hours[None, :])
    alike = SHARED_ERROR_FRAC.value * np.exp(-apart_h / DAY_TO_DAY_H.value)
    np.fill_diagonal(alike, 1.0)
    return np.asarray(alike * np.outer(sd_c, sd_c))


def air(hours: Floats, *, clock_h: float, day_of_year: int, seen: Seen) -> Gaussian:
    """The air at `hours` (shape (m,)) and, as last entry, the daily mean about `hours[0]`: shape (m + 1,) in all.

    `clock_h` is the local hour of day at hour 0. Without any reading this is a wide seasonal prior that assumes
    the middle latitudes of the northern hemisphere: about 16 C with sd 5 in July, 3.5 C with sd 5 in January.
    """
    at = np.concatenate([hours, hours[:1], seen.hours])
    swing = daily_curve(np.mod(clock_h + at, 24.0))
    swing[len(hours)] = 0.0
    gusty = np.ones(len(at))
    gusty[len(hours)] = 0.0
    warm = season(day_of_year)
    half_range_c = HALF_RANGE.centre + HALF_RANGE_SEASON.value * warm
    mean_c = YEAR_MEAN.centre + SEASON_SWING.value * warm + half_range_c * swing
    apart_h = np.abs(at[:, None] - at[None, :])
    cov = (
        YEAR_MEAN.spread**2
        + DAY_TO_DAY.spread**2 * np.exp(-apart_h / DAY_TO_DAY_H.value)
        + np.outer(swing, swing)
        * (HALF_RANGE.spread**2 + HALF_RANGE_DAY.spread**2 * np.exp(-apart_h / HALF_RANGE_DAY_H.value))
        + np.outer(gusty, gusty) * GUSTS.spread**2 * np.exp(-apart_h / GUSTS_H.value)
    )
    wanted = len(hours) + 1
    rows = np.zeros((len(seen.hours), len(at)))
    rows[np.arange(len(seen.hours)), wanted + np.arange(len(seen.hours))] = 1.0
    found, _ = Gaussian(mean_c=mean_c, cov_c2=cov).given(rows, seen.temp_c, air_errors_c2(seen.hours, sd_c=seen.sd_c))
    return Gaussian(mean_c=found.mean_c[:wanted], cov_c2=found.cov_c2[:wanted, :wanted])
