"""Chances of a sign's level, 0 to 3, from a cue: the ordered logit with slips, for all who look at a tub or a vat.

P(level >= j) = (1 - lapse) * logistic(slope * (cue - cut_j)) + lapse * (4 - j) / 4
"""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats

LEVELS: Final = 4
LAPSE_FRAC: Final = 0.04
"""Share of readings that are slips of the eye or the thumb, spread evenly over the levels (judgement)."""


def level_chance(cue: Floats, *, cuts: tuple[float, float, float], slope: float, level: int) -> Floats:
    """Chance of one level at cues already shifted by the offset of who looks; of the shape of `cue`."""
    reached = 1.0 if level == 0 else _at_least(cue, cuts[level - 1], slope)
    passed = 0.0 if level == LEVELS - 1 else _at_least(cue, cuts[level], slope)
    return np.asarray((1 - LAPSE_FRAC) * (reached - passed) + LAPSE_FRAC / LEVELS)


def _at_least(cue: Floats, cut: float, slope: float) -> Floats:
    return np.asarray(1.0 / (1.0 + np.exp(-slope * (cue - cut))))
