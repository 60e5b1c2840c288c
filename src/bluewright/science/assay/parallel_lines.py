"""Two straight lines of one slope: their distance, its interval by Fieller's theorem, and whether they are parallel.

The least squares of a parallel-line assay, as of any bioassay (European Pharmacopoeia 5.3; Fieller 1954).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.sourced import Floats
from bluewright.science.base.t_and_f import f_tail, t_quantile

LEAST_VARIANCE: Final = 1e-10
"""Of ln(K/S): points that lie on a line to the last digit still scatter by a hundredth of a per cent."""


WITHIN: Final = 0.99
"""Of the t at which Fieller's interval loses its ends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ParallelLines:
    """A common slope and the lift of the second line above the first, with their covariance."""

    slope: float
    lift: float
    """Of the sample's line above the standard's."""
    level: float
    """Of the standard's line at x = 0."""
    covariance: Floats
    """Of slope and lift, shape (2, 2), for the scatter found."""
    scatter_sd: float
    dof: int
    apart_slope: tuple[float, float]
    """Slopes fitted apart: standard, sample."""
    parallel_chance: float
    straight_chance: float | None

    def fieller(self, held_chance: float) -> tuple[float, float] | None:
        """The two-sided interval that holds lift / slope with `held_chance`; None where it has no ends.

        Formula: all r with (lift - r slope)^2 <= t^2 var(lift - r slope). Source: Fieller 1954.
        """
        t = t_quantile(0.5 + 0.5 * held_chance, dof=self.dof)
        ends = self._ends(np.array([-t, t]))
        return None if ends is None else (float(min(ends)), float(max(ends)))

    def ratios(self, score_z: Floats) -> Floats | None:
        """Lift / slope at each Student's t of `score_z` (n,): its confidence distribution; None without a slope.

        A t so large that it has no ratio counts as the largest that has one: far beyond any limit that is told.
        """
        most = WITHIN * self.slope / float(np.sqrt(self.covariance[0, 0]))
        return self._ends(np.clip(score_z, -most, most)) if most > 0 else None

    def _ends(self, t: Floats) -> Floats | None:
        """The root r of lift - r slope = t sd(lift - r slope) for each t."""
        var_slope, cov, var_lift = self.covariance[0, 0], self.covariance[0, 1], self.covariance[1, 1]
        square = t**2
        a = self.slope**2 - square * var_slope
        if np.any(a <= 0):
            return None
        b = self.lift * self.slope - square * cov
        c = self.lift**2 - square * var_lift
        root = np.sqrt(np.maximum(b**2 - a * c, 0.0))
        return np.asarray((b - np.sign(t) * root) / a)


def parallel_lines(x: Floats, y: Floats, second: NDArray[np.bool_]) -> ParallelLines:
    """Least squares of `y` on `x` (n,) with one slope and two levels; `second` marks the points of the second line.

    Needs two places of x on each line, and five points in all.
    """
    lifted = second.astype(np.float64)
    one = np.ones_like(x)
    common = np.stack([x, lifted, one], axis=1)
    best, left = _least_squares(common, y)
    dof = len(x) - 3
    variance = max(left / dof, LEAST_VARIANCE)
    covariance = variance * np.linalg.inv(common.T @ common)[:2, :2]
    apart, left_apart = _least_squares(np.column_stack([common, x * lifted]), y)
    return ParallelLines(
        slope=float(best[0]), lift=float(best[1]), level=float(best[2]), covariance=covariance,
        scatter_sd=float(np.sqrt(variance)), dof=dof, apart_slope=(float(apart[0]), float(apart[0] + apart[3])),
        parallel_chance=_chance(left, left_apart, dof_under=dof - 1),
        straight_chance=_straight(x, y, common, left, dof),
    )  # fmt: skip


def _straight(x: Floats, y: Floats, common: Floats, left: float, dof: int) -> float | None:
    """Chance of a bend as large as found, were there none; None where the amounts cannot show a bend."""
    bend = (x - x.mean()) ** 2
    bent = np.column_stack([common, bend])
    if np.linalg.matrix_rank(bent, tol=1e-8 * np.linalg.norm(bent)) < 4 or dof < 2:
        return None
    return _chance(left, _least_squares(bent, y)[1], dof_under=dof - 1)


def _least_squares(columns: Floats, y: Floats) -> tuple[Floats, float]:
    """Coefficients, and the sum of squares that is left over."""
    best: Floats = np.linalg.lstsq(columns, y, rcond=None)[0].astype(np.float64)
    return best, float(np.sum((y - columns @ best) ** 2))


def _chance(left: float, left_with: float, *, dof_under: int) -> float:
    """Chance of a term that takes away so much of what is left over, were it nothing: F with one degree over."""
    under = max(left_with / dof_under, LEAST_VARIANCE)
    return f_tail(max(left - left_with, 0.0) / under, dof_over=1, dof_under=dof_under)
