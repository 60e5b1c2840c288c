"""How much heavier dyed cloth is than it was, and how little that can tell: the weather weighs as much as the blue.

gain = after - before
sd^2 = 2 (scale^2 + (dry water_sd)^2)          the water of conditioned cloth follows the air of the room
"""

from __future__ import annotations

from math import hypot, sqrt
from typing import Final

from bluewright.science.base.bands import Band, significant
from bluewright.science.base.sourced import Sourced
from bluewright.science.media.cloth import Basis, Fibre, dry_kg

SCALE_SD_G: Final = Sourced(
    value=0.5, unit="g", source="common-practice", low=0.1, high=2.0, grade="practice", note="a kitchen scale"
)
SCALE_SD_FRAC: Final = Sourced(
    value=0.001, unit="1", source="common-practice", low=0.0005, high=0.005, grade="guess", note="of what lies on it"
)
WATER_SD_FRAC: Final = Sourced(
    value=0.01, unit="1", source="common-practice", low=0.005, high=0.02, grade="guess",
    note="of the dry mass, from day to day in one room; the regain of wool runs over more than four per cent",
)  # fmt: skip
NINETY_SD: Final = 1.6449


def gain_g(before_g: float, after_g: float, *, fibre: Fibre, basis: Basis) -> Band:
    """By how much it is heavier, with the spread of two weighings; both by one scale, dry in the same way.

    Below nothing where the spread says so: the band is not cut. Sources: `SCALE_SD_G`, `WATER_SD_FRAC`, judgements.
    """
    scale_g = max(SCALE_SD_G.value, SCALE_SD_FRAC.value * before_g)
    water_g = 0.0 if basis == "dry" else WATER_SD_FRAC.value * 1000.0 * dry_kg(before_g / 1000.0, fibre=fibre)
    off_g = NINETY_SD * sqrt(2.0) * hypot(scale_g, water_g)
    middle_g = after_g - before_g
    return Band(p5=significant(middle_g - off_g), p50=significant(middle_g), p95=significant(middle_g + off_g))
