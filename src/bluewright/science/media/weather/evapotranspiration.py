"""Reference evapotranspiration: what a well watered field of short grass gives to the air in a day, in mm.

A millimetre is a litre on each square metre. Two formulas: Penman-Monteith as FAO-56 settled it, and Hargreaves, which
asks for temperatures only. Source of every formula here: FAO Irrigation and Drainage Paper 56 (1998), chapters 2 to 4;
its equation is named at each function. Shapes broadcast throughout.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats, Sourced

Number = Floats | float

MM_PER_MJ: Final = Sourced(
    value=0.408, unit="mm m2/MJ", source="fao-56", low=0.40, high=0.41, grade="memory",
    note="millimetres that a megajoule on a square metre evaporates: one over the latent heat of 2.45 MJ/kg",
)  # fmt: skip
ALBEDO_FRAC: Final = Sourced(
    value=0.23, unit="1", source="fao-56", low=0.2, high=0.25, grade="memory", note="sun that green grass throws back"
)
STEFAN_MJ_PER_M2_K4: Final = Sourced(
    value=4.903e-9, unit="MJ/m2/d/K4", source="fao-56", low=4.89e-9, high=4.91e-9, grade="memory"
)
LEAST_WIND_M_PER_S: Final = Sourced(
    value=0.5, unit="m/s", source="fao-56", low=0.3, high=0.6, grade="memory",
    note="in still air warmth alone stirs so much",
)  # fmt: skip


def saturation(temp_c: Number) -> Floats:
    """Pressure of vapour that air of this temperature can hold, kPa (Tetens' formula, equation 11)."""
    temp = np.asarray(temp_c)
    return np.asarray(0.6108 * np.exp(17.27 * temp / (temp + 237.3)))


def saturation_slope(temp_c: Number) -> Floats:
    """How much that pressure grows with a degree, kPa/C (equation 13)."""
    return np.asarray(4098 * saturation(temp_c) / (np.asarray(temp_c) + 237.3) ** 2)


def mean_saturation(min_c: Number, max_c: Number) -> Floats:
    """The same over a day: the mean of both ends, kPa (equation 12)."""
    return np.asarray((saturation(min_c) + saturation(max_c)) / 2)


def vapour_by_humidity(min_c: Number, max_c: Number, *, humidity_frac: Number) -> Floats:
    """Vapour in the air from the day's mean relative humidity, kPa (equation 19)."""
    return np.asarray(mean_saturation(min_c, max_c) * np.asarray(humidity_frac))


def vapour_by_extremes(min_c: Number, max_c: Number, *, low_frac: Number, high_frac: Number) -> Floats:
    """Vapour in the air from the day's lowest and highest relative humidity, kPa (equation 17)."""
    return np.asarray((saturation(min_c) * np.asarray(high_frac) + saturation(max_c) * np.asarray(low_frac)) / 2)


def psychrometric(altitude_m: float) -> float:
    """The psychrometric constant at this height, kPa/C (equations 7 and 8)."""
    pressure_kpa = 101.3 * ((293 - 0.0065 * altitude_m) / 293) ** 5.26
    return float(0.665e-3 * pressure_kpa)


def wind_at_two_metres(wind_m_per_s: Number, *, height_m: float) -> Floats:
    """Wind 2 m above the ground from that at another height over grass, m/s (equation 47)."""
    return np.asarray(np.asarray(wind_m_per_s) * 4.87 / np.log(67.8 * height_m - 5.42))


def net_longwave(
    min_c: Number, max_c: Number, *, vapour_kpa: Number, sun_mj_per_m2: Number, clear_mj_per_m2: Number
) -> Floats:
    """Warmth that the ground gives to the sky, MJ/m2 (equation 39); the sun is at most that of a clear sky."""
    warmth = STEFAN_MJ_PER_M2_K4.value * ((np.asarray(max_c) + 273.16) ** 4 + (np.asarray(min_c) + 273.16) ** 4) / 2
    clear = np.asarray(clear_mj_per_m2)
    share = np.where(clear > 0, np.minimum(np.asarray(sun_mj_per_m2) / np.maximum(clear, 1e-9), 1.0), 0.5)
    return np.asarray(warmth * (0.34 - 0.14 * np.sqrt(np.maximum(vapour_kpa, 0.0))) * (1.35 * share - 0.35))


def net_radiation(
    min_c: Number, max_c: Number, *, vapour_kpa: Number, sun_mj_per_m2: Number, clear_mj_per_m2: Number
) -> Floats:
    """What the grass keeps of sun and sky, MJ/m2 (equations 38 and 40)."""
    lost = net_longwave(
        min_c, max_c, vapour_kpa=vapour_kpa, sun_mj_per_m2=sun_mj_per_m2, clear_mj_per_m2=clear_mj_per_m2
    )
    return (1 - ALBEDO_FRAC.value) * np.asarray(sun_mj_per_m2) - lost


def penman_monteith(
    min_c: Number, max_c: Number, *, vapour_kpa: Number, wind_m_per_s: Number, net_mj_per_m2: Number, altitude_m: float
) -> Floats:
    """Reference evapotranspiration of a day, mm (equation 6); wind at 2 m, no heat into the ground over a day.

    May be below 0 on a winter's day, when dew falls. Range: as FAO-56, any climate where grass grows.
    """
    mean = (np.asarray(min_c) + np.asarray(max_c)) / 2
    wind = np.maximum(wind_m_per_s, LEAST_WIND_M_PER_S.value)
    slope, psychro = saturation_slope(mean), psychrometric(altitude_m)
    lacking = mean_saturation(min_c, max_c) - np.asarray(vapour_kpa)
    by_sun = MM_PER_MJ.value * slope * np.asarray(net_mj_per_m2)
    by_wind = psychro * 900 / (mean + 273) * wind * lacking
    return np.asarray((by_sun + by_wind) / (slope + psychro * (1 + 0.34 * wind)))


def hargreaves(min_c: Number, max_c: Number, *, above_mj_per_m2: Number) -> Floats:
    """Reference evapotranspiration of a day from temperatures and sun above the air, mm (equation 52); at least 0."""
    low, high = np.asarray(min_c), np.asarray(max_c)
    warmth = np.maximum((low + high) / 2 + 17.8, 0.0)
    return np.asarray(
        0.0023 * warmth * np.sqrt(np.maximum(high - low, 0.0)) * MM_PER_MJ.value * np.asarray(above_mj_per_m2)
    )
