"""How much sun reaches the top of the air, and how much a clear or a cloudy sky lets through, day by day.

Source of every formula here: R. G. Allen, L. S. Pereira, D. Raes, M. Smith, Crop evapotranspiration, FAO Irrigation and
Drainage Paper 56 (1998), chapter 3; its equation is named at each function. Shapes broadcast throughout.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats, Sourced

SOLAR_MJ_PER_M2: Final = Sourced(
    value=118.08, unit="MJ/m2/d", source="fao-56", low=117.5, high=118.5, grade="memory",
    note="solar constant of 0.0820 MJ on a square metre a minute, over a day",
)  # fmt: skip
CLEAR_FRAC: Final = Sourced(
    value=0.75, unit="1", source="fao-56", low=0.65, high=0.8, grade="memory",
    note="share that a clear sky lets through at sea level (0.25 + 0.50)",
)  # fmt: skip
CLOUDED_FRAC: Final = Sourced(
    value=0.25, unit="1", source="fao-56", low=0.15, high=0.35, grade="memory", note="share on a day without sun"
)
CLEAR_PER_M: Final = Sourced(
    value=2e-5,
    unit="1/m",
    source="fao-56",
    low=1e-5,
    high=3e-5,
    grade="memory",
    note="more for each metre above the sea",
)
INLAND_PER_ROOT_C: Final = Sourced(
    value=0.16, unit="1/C^0.5", source="fao-56", low=0.13, high=0.18, grade="memory",
    note="Hargreaves' share of the sun for the root of a day's range, inland",
)  # fmt: skip
COAST_PER_ROOT_C: Final = Sourced(
    value=0.19, unit="1/C^0.5", source="fao-56", low=0.16, high=0.21, grade="memory", note="the same on a coast"
)


def declination(day_of_year: Floats | float) -> Floats:
    """The sun's height over the equator, in radians (equation 24)."""
    return np.asarray(0.409 * np.sin(2 * np.pi / 365 * np.asarray(day_of_year) - 1.39))


def sunset_angle(day_of_year: Floats | float, *, latitude_deg: float) -> Floats:
    """The hour angle of sunset, in radians (equation 25); 0 in the polar night, pi in the polar day."""
    slope = -np.tan(np.radians(latitude_deg)) * np.tan(declination(day_of_year))
    return np.asarray(np.arccos(np.clip(slope, -1.0, 1.0)))


def nearness(day_of_year: Floats | float) -> Floats:
    """How much stronger the sun is than in the mean of the year, for its distance (equation 23)."""
    return np.asarray(1 + 0.033 * np.cos(2 * np.pi / 365 * np.asarray(day_of_year)))


def extraterrestrial(day_of_year: Floats | float, *, latitude_deg: float) -> Floats:
    """Sun on a level square metre above the air over a whole day, MJ/m2 (equation 21)."""
    place, height = np.radians(latitude_deg), declination(day_of_year)
    sunset = sunset_angle(day_of_year, latitude_deg=latitude_deg)
    level = sunset * np.sin(place) * np.sin(height) + np.cos(place) * np.cos(height) * np.sin(sunset)
    return np.asarray(SOLAR_MJ_PER_M2.value / np.pi * nearness(day_of_year) * level)


def daylight(day_of_year: Floats | float, *, latitude_deg: float) -> Floats:
    """Hours from sunrise to sunset (equation 34)."""
    return np.asarray(24 / np.pi * sunset_angle(day_of_year, latitude_deg=latitude_deg))


def clear_sky(above_mj_per_m2: Floats | float, *, altitude_m: float) -> Floats:
    """Sun on the ground under a clear sky, MJ/m2, from that above the air (equation 37)."""
    return np.asarray((CLEAR_FRAC.value + CLEAR_PER_M.value * altitude_m) * np.asarray(above_mj_per_m2))


def from_sunshine(sunshine_h: Floats | float, *, daylight_h: Floats | float, above_mj_per_m2: Floats | float) -> Floats:
    """Sun on the ground from hours of sunshine, MJ/m2 (Angstrom's formula, equation 35); none in the polar night."""
    share = np.minimum(np.asarray(sunshine_h) / np.maximum(daylight_h, 1e-9), 1.0)
    return np.asarray((CLOUDED_FRAC.value + (CLEAR_FRAC.value - CLOUDED_FRAC.value) * share) * above_mj_per_m2)


def from_range(range_c: Floats | float, *, above_mj_per_m2: Floats | float, coast: bool) -> Floats:
    """Sun on the ground from the day's warmest less its coldest, MJ/m2 (Hargreaves' formula, equation 50)."""
    per_root_c = (COAST_PER_ROOT_C if coast else INLAND_PER_ROOT_C).value
    return np.asarray(per_root_c * np.sqrt(np.maximum(range_c, 0.0)) * above_mj_per_m2)
