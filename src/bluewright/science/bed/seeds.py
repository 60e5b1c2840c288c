"""Where woad's own seed falls."""

from __future__ import annotations

from bluewright.science.base.sourced import Floats


def seedlings_per_m2(distance_m: Floats) -> Floats:
    """Seeds on a square metre at a distance from the mother plant, any shape: for the shape, never for totals.

    Formula: log10 = 1.92 - 0.02 x, x in cm. Source: Farah, Tanaka and West 1988 (key farah-1988), r2 0.60.
    """
    return 10.0 ** (1.92 - 2.0 * distance_m)
