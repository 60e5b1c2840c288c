"""Rain of every day: what was read, a forecast as far as it holds, and days that are not known as the climate has them.

Unknown days follow a chain of wet and dry days with a skewed amount on each wet one, as generators of weather do: a
forecast holds with a chance that falls with the days ahead, else the day is as unknown as any.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.media.weather.record import Weather

WET_DAY_MM: Final = Sourced(
    value=5.0, unit="mm", source="common-practice", low=3.0, high=10.0, grade="guess",
    note="rain of a wet day where the table has no number of wet days",
)  # fmt: skip
USUAL_MM_PER_D: Final = Prior(
    kind="lognormal", centre=1.8, spread=0.5, unit="mm/d", source="common-practice", grade="guess",
    note="rain of a temperate garden without a climate table: 35 to 80 mm in most months",
)  # fmt: skip
ODD_MONTH: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.3, unit="1", source="common-practice", grade="guess",
    note="how far a season's rain stands off the table, beyond the luck of single days",
)  # fmt: skip
PERSISTENCE_FRAC: Final = Sourced(
    value=0.3, unit="1", source="richardson-1981", low=0.1, high=0.5, grade="memory",
    note="how much likelier a wet day is after a wet one than after a dry one",
)  # fmt: skip
SKEW: Final = Sourced(
    value=0.75, unit="1", source="richardson-1981", low=0.6, high=1.0, grade="memory",
    note="shape of the gamma distribution of rain on a wet day; 1 is the exponential one",
)  # fmt: skip
GAUGE: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.1, unit="1", source="common-practice", grade="practice",
    note="a gauge in the garden: wind, splash and place",
)  # fmt: skip
FORECAST_AMOUNT: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.6, unit="1", source="common-practice", grade="guess",
    note="amount of a rain that does come as forecast",
)  # fmt: skip
HOLDS_CHANCE: Final = Sourced(
    value=0.85, unit="1", source="common-practice", low=0.7, high=0.95, grade="guess", note="of tomorrow's forecast"
)
HOLDS_LESS_PER_D: Final = Sourced(
    value=0.08, unit="1/d", source="common-practice", low=0.05, high=0.12, grade="guess", note="for each day further on"
)
MOST_WET_FRAC: Final = Sourced(
    value=0.95, unit="1", source="common-practice", low=0.9, high=1.0, grade="guess", note="share of wet days anywhere"
)


def rain(days: Sequence[date], *, weather: Weather, now: date, rng: np.random.Generator, n: int) -> Floats:
    """`n` draws of the rain of consecutive `days`, mm, shape (n, d), given what was read and forecast by `now`."""
    known = {row.day: row for row in weather.days if row.rain_mm is not None}
    odd = ODD_MONTH.draw(rng, n) if weather.normals else USUAL_MM_PER_D.draw(rng, n) / USUAL_MM_PER_D.centre
    wet = rng.random(n) < _climate(days[0], weather)[0]
    found = np.empty((n, len(days)))
    for k, day in enumerate(days):
        row = known.get(day)
        if row is not None and not row.forecast:
            found[:, k] = (row.rain_mm or 0.0) * GAUGE.draw(rng, n)
        else:
            found[:, k] = _unknown(day, weather, wet, odd, rng)
            if row is not None:
                holds = rng.random(n) < holds_chance((day - now).days)
                found[:, k] = np.where(holds, (row.rain_mm or 0.0) * FORECAST_AMOUNT.draw(rng, n), found[:, k])
        wet = found[:, k] > 0
    return found


def holds_chance(ahead_d: int) -> float:
    """How likely a forecast of rain for so many days ahead says more than the climate does."""
    return max(0.0, HOLDS_CHANCE.value - HOLDS_LESS_PER_D.value * max(0, ahead_d - 1))


def _unknown(
    day: date, weather: Weather, wet_before: NDArray[np.bool_], odd: Floats, rng: np.random.Generator
) -> Floats:
    """Draws of a day of which nothing is known but whether the one before was wet."""
    wet_frac, wet_mm = _climate(day, weather)
    held = PERSISTENCE_FRAC.value
    chance = np.where(wet_before, wet_frac + held * (1 - wet_frac), wet_frac * (1 - held))
    amount = rng.gamma(SKEW.value, wet_mm / SKEW.value, size=len(odd)) * odd
    return np.where(rng.random(len(odd)) < chance, amount, 0.0)


def _climate(day: date, weather: Weather) -> tuple[float, float]:
    """Share of wet days about this day, and the mean rain of one, mm."""
    usual_mm, wet_d, length_d = USUAL_MM_PER_D.centre, None, _month_d(day)
    if weather.normals:
        month = weather.normals[day.month - 1]
        usual_mm = usual_mm if month.rain_mm is None else month.rain_mm / length_d
        wet_d = month.wet_d
    wet_frac = usual_mm / WET_DAY_MM.value if wet_d is None else wet_d / length_d
    wet_frac = min(wet_frac, MOST_WET_FRAC.value)
    return wet_frac, usual_mm / wet_frac if wet_frac > 0 else 0.0


def _month_d(day: date) -> int:
    after = day.replace(day=28).toordinal() + 4
    return date.fromordinal(after).replace(day=1).toordinal() - day.replace(day=1).toordinal()
