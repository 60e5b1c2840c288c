"""What the longest leaves of marked plants tell of a regrowth: how far it is, without a cut.

Length goes with a power of the share of full leaf that stands. The level (how long leaves become) and the power are
unknown; so is by what this regrowth ripens earlier or later than the bed usually does. Readings of one regrowth are
off together, by the plants that were marked.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.bed.growth_priors import LENGTH_LEAF_SD, LENGTH_LEVEL_SD, LENGTH_LOOK_SD
from bluewright.science.bed.growth_record import Start


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthsSeen:
    """Marked plants of one regrowth as the model sees them, each array of shape (k,)."""

    regrowth: int
    """Which regrowth of this season, the present one 0."""
    start: Start | None
    """How the season began, where it is that of the first cut; None for a later one."""
    gone_degree_d: Floats
    """Degree-days since the last cut or the beginning, at each look."""
    gone_sd: Floats
    """Their standard deviations: the weather may not have been read."""
    log_mm: Floats
    """Mean over the plants of the natural log of the length."""
    marked_plants: Floats
    """How many were measured."""


def log_likelihood(
    seen: LengthsSeen, *, log_share_frac: Floats, slope: Floats, log_full_mm: Floats, power_factor: Floats
) -> Floats:
    """Log density of the lengths, shape (n,), given for n draws the log share of full leaf at each look, (n, k).

    `slope` is the derivative of the log share by degree-days, (n, k); `log_full_mm` and `power_factor` are (n,).
    Formula: a normal of covariance diag(s^2) + v v' + w w', by the lemma of Woodbury: s what each look is off
    by itself, v the level that a regrowth's looks share, w what unread weather moves them all, since warmth adds up.
    """
    off = seen.log_mm - log_full_mm[:, None] - power_factor[:, None] * log_share_frac
    own = LENGTH_LOOK_SD.value**2 + LENGTH_LEAF_SD.value**2 / seen.marked_plants
    level, warmth = np.full_like(off, LENGTH_LEVEL_SD.value), power_factor[:, None] * slope * seen.gone_sd
    both, cross, other = (np.sum(a * b / own, axis=1) for a, b in ((level, level), (level, warmth), (warmth, warmth)))
    first, second = (np.sum(one * off / own, axis=1) for one in (level, warmth))
    wide = (1 + both) * (1 + other) - cross**2
    taken = ((1 + other) * first**2 - 2 * cross * first * second + (1 + both) * second**2) / wide
    return np.asarray(-0.5 * (np.sum(off**2 / own, axis=1) - taken + np.sum(np.log(own)) + np.log(wide)))
