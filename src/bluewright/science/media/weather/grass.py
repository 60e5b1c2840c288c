"""Reference evapotranspiration of every day with its spread: each figure that is missing by FAO-56's rule, widely.

Missing humidity: the dew point is about the coldest of the day. Missing sun: from the day's range. Missing wind: 2 m/s.
Each rule adds the spread that days have about it; humidity and wind of a climate table go before the rules.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final, Literal

import numpy as np

from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.media.weather import evapotranspiration as fao
from bluewright.science.media.weather import sun
from bluewright.science.media.weather.climate import by_day
from bluewright.science.media.weather.filling import Temps
from bluewright.science.media.weather.record import Weather, WeatherDay

Formula = Literal["penman_monteith", "hargreaves"]

USUAL_WIND_M_PER_S: Final = Sourced(
    value=2.0, unit="m/s", source="fao-56", low=1.0, high=4.0, grade="memory", note="mean over 2000 stations, at 2 m"
)
WIND_PLACE: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.35, unit="1", source="common-practice", grade="guess",
    note="a garden's wind about the usual one: hedges or none",
)  # fmt: skip
WIND_DAY: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.35, unit="1", source="common-practice", grade="guess",
    note="one day's wind about the place's",
)  # fmt: skip
WIND_READ: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.15, unit="1", source="common-practice", grade="practice",
    note="a wind that was read, for the garden beside the mast",
)  # fmt: skip
DEW_BELOW: Final = Prior(
    kind="normal", centre=0.0, spread=1.5, unit="C", source="fao-56", grade="guess",
    note="dew point less the coldest of the day, over days; dry places stand 2 C lower",
)  # fmt: skip
HUMIDITY_DAY: Final = Prior(
    kind="normal", centre=0.0, spread=0.08, unit="1", source="common-practice", grade="guess",
    note="one day's mean humidity about that of the table",
)  # fmt: skip
HUMIDITY_READ: Final = Prior(
    kind="normal", centre=0.0, spread=0.04, unit="1", source="common-practice", grade="practice",
    note="a hygrometer in the shade",
)  # fmt: skip
SUN_BY_RANGE: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.22, unit="1", source="common-practice", grade="guess",
    note="one day's sun about what its range tells",
)  # fmt: skip
SUN_BY_HOURS: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.08, unit="1", source="common-practice", grade="practice",
    note="one day's sun about what its hours of sunshine tell",
)  # fmt: skip
SUN_READ: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.05, unit="1", source="common-practice", grade="practice",
    note="a pyranometer of a garden station",
)  # fmt: skip
FORMULA_OFF: Final[dict[Formula, Prior]] = {
    "penman_monteith": Prior(
        kind="lognormal", centre=1.0, spread=0.07, unit="1", source="common-practice", grade="guess",
        note="the formula about what grass was weighed to lose, over a season",
    ),
    "hargreaves": Prior(
        kind="lognormal", centre=1.0, spread=0.15, unit="1", source="common-practice", grade="guess",
        note="the same: windy places lose more, damp ones less",
    ),
}  # fmt: skip


def grass(
    days: Sequence[date], *, weather: Weather, temps: Temps, formula: Formula, rng: np.random.Generator
) -> Floats:
    """Draws of the reference evapotranspiration of `days`, mm, shape (n, d) like `temps`; dew is not counted.

    Formulas and rules: `evapotranspiration`, `sun`; FAO-56 chapters 3 and 4.
    """
    of_year = np.array([min(day.timetuple().tm_yday, 365) for day in days], dtype=float)
    above = sun.extraterrestrial(of_year, latitude_deg=weather.latitude_deg)
    off = FORMULA_OFF[formula].draw(rng, len(temps.min_c))[:, None]
    if formula == "hargreaves":
        return fao.hargreaves(temps.min_c, temps.max_c, above_mj_per_m2=above) * off
    known = {row.day: row for row in weather.days}
    rows = [known.get(day) for day in days]
    clear = sun.clear_sky(above, altitude_m=weather.altitude_m)
    sunny = np.minimum(_sun(rows, of_year, above, weather, temps, rng), clear)
    vapour_kpa = _vapour(days, rows, weather, temps, rng)
    net = fao.net_radiation(
        temps.min_c, temps.max_c, vapour_kpa=vapour_kpa, sun_mj_per_m2=sunny, clear_mj_per_m2=clear
    )  # fmt: skip
    found = fao.penman_monteith(
        temps.min_c, temps.max_c, vapour_kpa=vapour_kpa, wind_m_per_s=_wind(days, rows, weather, temps, rng),
        net_mj_per_m2=net, altitude_m=weather.altitude_m,
    )  # fmt: skip
    return np.maximum(found, 0.0) * off


Rows = Sequence[WeatherDay | None]


def _of(rows: Rows, name: str) -> Floats:
    """A figure of each day, shape (d,); what is not known is not a number."""
    found = [None if row is None else getattr(row, name) for row in rows]
    return np.array([np.nan if value is None else value for value in found], dtype=float)


def _drawn(prior: Prior, temps: Temps, rng: np.random.Generator) -> Floats:
    """A draw for each draw and day."""
    return prior.from_z(rng.standard_normal(temps.min_c.shape))


def _sun(
    rows: Rows, of_year: Floats, above: Floats, weather: Weather, temps: Temps, rng: np.random.Generator
) -> Floats:
    """Sun on the ground: measured, or from hours of sunshine, or from the day's range."""
    measured, hours = _of(rows, "radiation_mj_per_m2"), _of(rows, "sunshine_h")
    daylight_h = sun.daylight(of_year, latitude_deg=weather.latitude_deg)
    by_hours = sun.from_sunshine(hours, daylight_h=daylight_h, above_mj_per_m2=above)
    by_range = sun.from_range(temps.max_c - temps.min_c, above_mj_per_m2=above, coast=weather.coast)
    guessed = by_range * _drawn(SUN_BY_RANGE, temps, rng)
    told = np.where(np.isnan(by_hours), guessed, by_hours * _drawn(SUN_BY_HOURS, temps, rng))
    return np.where(np.isnan(measured), told, measured * _drawn(SUN_READ, temps, rng))


def _vapour(days: Sequence[date], rows: Rows, weather: Weather, temps: Temps, rng: np.random.Generator) -> Floats:
    """Vapour in the air, kPa: by humidity, or by the dew point at the coldest; at most what the air can hold."""
    low, high = temps.min_c, temps.max_c
    found = fao.saturation(low + _drawn(DEW_BELOW, temps, rng))
    usual = [month.humidity_frac for month in weather.normals]
    if usual and None not in usual:
        shares = by_day([share or 0.0 for share in usual], days) + _drawn(HUMIDITY_DAY, temps, rng)
        found = fao.vapour_by_humidity(low, high, humidity_frac=np.maximum(shares, 0.05))
    off = _drawn(HUMIDITY_READ, temps, rng)
    mean, least, most = (_of(rows, name) for name in ("humidity_frac", "humidity_low_frac", "humidity_high_frac"))
    by_mean = fao.vapour_by_humidity(low, high, humidity_frac=np.maximum(mean + off, 0.01))
    by_both = fao.vapour_by_extremes(
        low, high, low_frac=np.maximum(least + off, 0.01), high_frac=np.maximum(most + off, 0.01)
    )  # fmt: skip
    found = np.where(np.isnan(mean), found, by_mean)
    found = np.where(np.isnan(least), found, by_both)
    return np.minimum(found, fao.mean_saturation(low, high))


def _wind(days: Sequence[date], rows: Rows, weather: Weather, temps: Temps, rng: np.random.Generator) -> Floats:
    """Wind at 2 m: read, or of the climate table, or the usual one of the world."""
    to_two_metres = float(fao.wind_at_two_metres(1.0, height_m=weather.wind_height_m))
    usual = [month.wind_m_per_s for month in weather.normals]
    known = bool(usual) and None not in usual
    if known:
        mean = np.maximum(by_day([wind or 0.0 for wind in usual], days), 0.0) * to_two_metres
    else:
        mean = USUAL_WIND_M_PER_S.value * WIND_PLACE.draw(rng, len(temps.min_c))[:, None]
    guessed = mean * _drawn(WIND_DAY, temps, rng)
    read = _of(rows, "wind_m_per_s") * to_two_metres
    return np.where(np.isnan(read), guessed, read * _drawn(WIND_READ, temps, rng))
