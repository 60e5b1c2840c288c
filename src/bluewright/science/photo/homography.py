"""A flat thing seen aslant: from places on it to places in the picture, by eight numbers found from known points.

u = (h11 x + h12 y + h13) / (h31 x + h32 y + h33), and v alike: straight lines stay straight, parallels may meet.
"""

from __future__ import annotations

import numpy as np

from bluewright.science.base.errors import ModelError
from bluewright.science.base.sourced import Floats


def homography(on_thing_mm: Floats, in_picture_px: Floats) -> Floats:
    """The 3 by 3 matrix that takes points of the thing, shape (n, 2), n >= 4, to those in the picture.

    Least squares of the linear equations of both point sets, each shifted and scaled to mean 0 and mean distance
    sqrt(2) first, without which they are ill-conditioned (Hartley 1997); the solution is the singular vector of the
    smallest singular value. Raises ModelError where the points leave it open: three of four in one line.
    """
    from_thing, from_picture = _normaliser(on_thing_mm), _normaliser(in_picture_px)
    x, y = moved(on_thing_mm, by=from_thing).T
    u, v = moved(in_picture_px, by=from_picture).T
    one, zero = np.ones_like(x), np.zeros_like(x)
    rows = np.concatenate(
        [
            np.stack([x, y, one, zero, zero, zero, -u * x, -u * y, -u], axis=1),
            np.stack([zero, zero, zero, x, y, one, -v * x, -v * y, -v], axis=1),
        ]
    )
    _, sizes, vectors = np.linalg.svd(rows)
    if sizes[7] < 1e-6 * sizes[0]:
        raise ModelError("these points do not tell how the card lies: they stand in one line")
    found = np.linalg.inv(from_picture) @ vectors[-1].reshape(3, 3) @ from_thing
    return np.asarray(found / found[2, 2])


def moved(points: Floats, *, by: Floats) -> Floats:
    """Points, shape (..., 2), moved by a 3 by 3 matrix."""
    found = points @ by[:, :2].T + by[:, 2]
    return np.asarray(found[..., :2] / found[..., 2:])


def _normaliser(points: Floats) -> Floats:
    centre = points.mean(axis=0)
    size = np.sqrt(2.0) / max(float(np.linalg.norm(points - centre, axis=1).mean()), 1e-12)
    return np.array([[size, 0.0, -size * centre[0]], [0.0, size, -size * centre[1]], [0.0, 0.0, 1.0]])
