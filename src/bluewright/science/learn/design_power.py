"""What so many pairs can show, before any work is done: Student's t when there is a difference."""

from __future__ import annotations

import math
from functools import cache

import numpy as np

from bluewright.science.base.t_and_f import t_quantile
from bluewright.science.learn.mixed_normals import noise_grid, normal_cdf

CLEAR_CHANCE = 0.05
"""Two-sided: a difference is said to show clearly where chance alone would do it once in twenty."""
MOST_FACTOR = 100.0


def power(shift_z: float, *, dof: int, clear_chance: float = CLEAR_CHANCE) -> float:
    """Chance that a t test shows a difference of `shift_z` standard errors, two-sided, with `dof` degrees of freedom.

    Formula: mean over u of Phi(shift - c u) + Phi(-shift - c u), u^2 dof chi-squared, c the critical t: the two tails
    of the noncentral t. Source: Johnson and Welch 1940 (from memory).
    """
    limit = _limit(1.0 - clear_chance / 2, dof)
    sigma, weights = noise_grid(dof=dof, spread_sd=1.0, points=241)
    edge = limit / sigma
    return float(weights @ (normal_cdf(shift_z - edge) + normal_cdf(-shift_z - edge)))


@cache
def _limit(below_chance: float, dof: int) -> float:
    return t_quantile(below_chance, dof=dof)


def found_chance(blocks: int, *, dof: int, ratio_factor: float, error_sd: float) -> float:
    """Chance to find `ratio_factor` with a standard error of `error_sd` on the logarithm; 0 without degrees of
    freedom."""
    if dof < 1 or blocks < 1:
        return 0.0
    return power(abs(math.log(ratio_factor)) / error_sd, dof=dof)


def least_factor(*, dof: int, error_sd: float, wanted_chance: float = 0.8) -> float | None:
    """The smallest ratio above 1 that is found with `wanted_chance`, by halving; None beyond a hundredfold."""
    low, high = 0.0, math.log(MOST_FACTOR)
    if dof < 1 or power(high / error_sd, dof=dof) < wanted_chance:
        return None
    for _ in range(24):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if power(middle / error_sd, dof=dof) < wanted_chance else (low, middle)
    return math.exp(high)


def half_width_log(*, dof: int, error_sd: float, inside_chance: float = 0.9) -> float:
    """Half of the range to be expected, on the logarithm: t times the mean of the estimated standard error.

    Formula: t(dof) s sqrt(2 / dof) Gamma((dof + 1) / 2) / Gamma(dof / 2).
    """
    shrink = math.sqrt(2.0 / dof) * math.exp(math.lgamma((dof + 1) / 2) - math.lgamma(dof / 2))
    return _limit(0.5 + inside_chance / 2, dof) * error_sd * shrink


def spread_points(*, dof: int, spread_sd: float) -> tuple[float, float, float]:
    """The 5, 50 and 95 % points of a believed noise."""
    sigma, weights = noise_grid(dof=dof, spread_sd=spread_sd, points=4001)
    low, mid, high = np.interp([0.05, 0.5, 0.95], np.cumsum(weights) - 0.5 * weights, sigma)
    return float(low), float(mid), float(high)
