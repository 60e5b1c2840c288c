"""What eye, nose and hand notice, on a 0 to 3 scale, given the state of the tub: ordered-logit models.

For each sign a *cue* is computed from the state; the chance of a level is

    P(level >= j) = (1 - lapse) * logistic(slope * (cue + offset - cut_j)) + lapse * (4 - j) / 4

The `offset` is this person's and this tub's own way of reading the sign. It is unknown, the same for all readings of
a steep, and part of what the ensemble learns: ten looks by one person are not ten independent witnesses. A `lapse`
is a slip of the eye or the thumb. Cuts, slopes and offsets are judgements (grade guess): no published scale exists.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from bluewright.science.base import levels
from bluewright.science.base.levels import LEVELS
from bluewright.science.base.sourced import Floats
from bluewright.science.steep.growth import flora_frac
from bluewright.science.steep.kinetics import Course

SignName = Literal["bubbles", "scum", "blue_cast", "limpness", "darkness", "smell", "alkali_green"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """One sign: its cue from the state, and how the cue becomes a level."""

    cue: Callable[[Course], Floats]
    """From a course (t, n) to the cue (t, n)."""
    cuts: tuple[float, float, float]
    slope: float
    offset_sd: float
    """How far one person's reading of the cue lies from another's, in units of the cue."""
    levels: tuple[str, str, str, str]
    """What levels 0 to 3 look like, in words."""


def _log10(values: Floats, floor: float) -> Floats:
    return np.log10(values + floor)


SIGNS: Final[dict[SignName, Sign]] = {
    "bubbles": Sign(
        cue=lambda c: _log10(c["flora"] * flora_frac(c.temp_c), 1e-4),
        cuts=(-1.7, -1.0, -0.4), slope=4.0, offset_sd=0.4,
        levels=("none", "a few at the rim", "rising steadily", "lively, frothing"),
    ),
    "scum": Sign(
        cue=lambda c: _log10(c["indigo"] / c.start_mmol_per_l, 1e-4),
        cuts=(-2.0, -1.4, -0.8), slope=4.0, offset_sd=0.4,
        levels=("none", "a thin shimmer", "a film, coppery or blue", "a thick blue skin"),
    ),
    "blue_cast": Sign(
        cue=lambda c: _log10(c["indoxyl"], 1e-3) - _log10(c["oxygen"] / 0.01, 1.0),
        cuts=(-0.7, -0.1, 0.3), slope=5.0, offset_sd=0.3,
        levels=("none", "a hint at the edge", "clear in bright light", "strong, like a gemstone"),
    ),
    "limpness": Sign(
        cue=lambda c: c.dead_frac,
        cuts=(0.25, 0.55, 0.85), slope=12.0, offset_sd=0.10,
        levels=("crisp", "bends", "limp, olive", "slimy, see-through"),
    ),
    "darkness": Sign(
        cue=lambda c: c["brown"],
        cuts=(0.08, 0.22, 0.45), slope=20.0, offset_sd=0.05,
        levels=("clear, pale", "straw to yellow-green", "tea", "dark brown"),
    ),
    "smell": Sign(
        cue=lambda c: np.sqrt(c["brown"] * c["flora"]),
        cuts=(0.10, 0.30, 0.60), slope=12.0, offset_sd=0.08,
        levels=("fresh, like grass", "sweet or fruity", "cabbage", "foul"),
    ),
    "alkali_green": Sign(
        cue=lambda c: _log10(c.recoverable_mmol_per_l, 0.02),
        cuts=(-0.5, 0.0, 0.4), slope=6.0, offset_sd=0.25,
        levels=("stays brown", "yellowish green", "green", "deep green, soon blue"),
    ),
}  # fmt: skip


def level_chances(cue: Floats, sign: Sign) -> Floats:
    """Chances of the four levels given cues already shifted by the offset; shape (..., 4), adding up to 1."""
    return np.stack([level_chance(cue, sign, level) for level in range(LEVELS)], axis=-1)


def level_chance(cue: Floats, sign: Sign, level: int) -> Floats:
    """Chance of one level, of the shape of `cue`."""
    return levels.level_chance(cue, cuts=sign.cuts, slope=sign.slope, level=level)
