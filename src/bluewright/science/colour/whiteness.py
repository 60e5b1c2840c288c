"""CIE whiteness and tint of undyed cloth or paper, under D65, 2 degree observer.

They compare whites of one instrument with each other, and hold only near white. Brightened paper and cloth read above
100; unbleached wool and linen far below, some below nothing.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.sourced import Floats
from bluewright.science.colour.spaces import D65_XYZ

LEAST_WHITENESS: Final = 40.0
MOST_TINT: Final = 3.0
"""Whiteness is told above the one and below 5 Y - 280, tint within the other (CIE 15:2004, 9.1; from memory)."""


def whiteness(xyz: ArrayLike) -> Floats:
    """W = Y + 800 (xn - x) + 1700 (yn - y), Y from 0 to 100; X, Y, Z with white at Y = 1, shape (..., 3) to (...)."""
    y, d_x, d_y = _from_white(xyz)
    return np.asarray(100.0 * y + 800.0 * d_x + 1700.0 * d_y)


def tint(xyz: ArrayLike) -> Floats:
    """T = 1000 (xn - x) - 650 (yn - y): above 0 greenish, below reddish; shape (..., 3) to (...)."""
    _y, d_x, d_y = _from_white(xyz)
    return np.asarray(1000.0 * d_x - 650.0 * d_y)


def holds(xyz: ArrayLike) -> bool:
    """Whether one colour, shape (3,), is near enough to white for whiteness and tint to mean anything."""
    most = 500.0 * float(np.asarray(xyz, dtype=float)[1]) - 280.0
    return bool(LEAST_WHITENESS < whiteness(xyz) < most) and bool(abs(tint(xyz)) < MOST_TINT)


def _from_white(xyz: ArrayLike) -> tuple[Floats, Floats, Floats]:
    """Y, and by how much x and y fall short of those of white."""
    xyz = np.asarray(xyz, dtype=float)
    white, total = D65_XYZ / D65_XYZ.sum(), xyz.sum(axis=-1)
    return xyz[..., 1], white[0] - xyz[..., 0] / total, white[1] - xyz[..., 1] / total
