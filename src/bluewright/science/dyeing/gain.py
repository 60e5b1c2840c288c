"""How much heavier dyed cloth is than it was, and how little that can tell: the weather weighs as much as the blue.

gain = after - before
sd^2 = 2 (scale^2 + (dry water_sd)^2)          the water of conditioned cloth follows the air of the room
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, sqrt
from typing import Final

from bluewright.science.base.bands import NINETY_Z, Band, significant
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


@dataclass(frozen=True, slots=True, kw_only=True)
class Gain:
    """What two weighings tell."""

    gain_g: Band
    """By how much it is heavier; below nothing where the spread says so: the band is not cut."""
    scale_off_g: float
    """What the scale alone leaves open, give or take, nine times in ten."""
    water_off_g: float
    """What the water of the cloth alone leaves open; 0 for bone dry cloth."""


def gain(before_g: float, after_g: float, *, fibre: Fibre, basis: Basis, scale_sd_g: float | None = None) -> Gain:
    """By how much it is heavier, with the spread of two weighings; both by one scale, dry in the same way.

    `scale_sd_g` is how far one weighing may be off; None: as usual for a kitchen scale. Sources: `SCALE_SD_G`,
    `SCALE_SD_FRAC`, `WATER_SD_FRAC`, judgements.
    """
    usual_g = max(SCALE_SD_G.value, SCALE_SD_FRAC.value * before_g)
    water_g = 0.0 if basis == "dry" else WATER_SD_FRAC.value * 1000.0 * dry_kg(before_g / 1000.0, fibre=fibre)
    scale_off_g = _off(usual_g if scale_sd_g is None else scale_sd_g)
    water_off_g = _off(water_g)
    off_g, middle_g = hypot(scale_off_g, water_off_g), after_g - before_g
    return Gain(
        gain_g=Band(p5=significant(middle_g - off_g), p50=significant(middle_g), p95=significant(middle_g + off_g)),
        scale_off_g=significant(scale_off_g), water_off_g=significant(water_off_g),
    )  # fmt: skip


def _off(sd_g: float) -> float:
    return NINETY_Z * sqrt(2.0) * sd_g
