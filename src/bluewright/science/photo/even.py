"""Uneven light, evened out by white around the samples.

A curved surface (quadratic in x and y) is fitted to the light of the white, channel by channel, and all light is
divided by it. A plane, or nothing, is used where the white does not bear more: a surface that is not held on all sides
of a sample says nothing there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.photo.region import Region

LEVERAGES: Final = ((2, 0.5), (1, 1.0))
"""Degree, and the most that the fitted light at a sample may hang on its errors: 1 is as if one block of white alone
told it."""
SURE_FRAC: Final = 0.1
"""A sample counts as surrounded if its middle is no further outside the white than this share of the whole."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Evenness:
    """How light falls over a picture, relative to the middle of the first white."""

    degree: int
    """2: curved, 1: a plane, 0: taken as even."""
    centre_px: Floats
    scale_px: float
    coefficients: Floats
    """Shape (terms, 3)."""

    def at(self, at_px: Floats) -> Floats:
        """Relative light in each channel at places (x, y), shape (..., 3)."""
        return np.asarray(_terms((at_px - self.centre_px) / self.scale_px, self.degree) @ self.coefficients)


def even_light(whites: Sequence[Region], *, samples: Sequence[Floats]) -> Evenness:
    """How light falls, from regions of one white, as far as they bear it at the middles of all `samples` (x, y)."""
    if not whites:
        return _flat()
    at = np.concatenate([each.block_at_px for each in whites])
    light = np.concatenate([each.block_light for each in whites])
    weight = np.sqrt(np.concatenate([each.block_points for each in whites]))[:, None]
    asked = np.array([*samples, *(each.at_px for each in whites)])
    centre, scale = asked.mean(axis=0), max(float(np.ptp(np.concatenate([at, asked]), axis=0).max()) / 2, 1.0)
    if not _surrounded(at, np.array(samples)):
        return _flat()
    for degree, most in LEVERAGES:
        design, wanted = _terms((at - centre) / scale, degree), _terms((asked - centre) / scale, degree)
        if len(design) <= design.shape[1] or np.linalg.cond(design * weight) > 1e6:
            continue
        inverse = np.linalg.pinv(design * weight)
        leverage = ((wanted @ inverse) ** 2).sum(axis=1) * np.mean(weight**2)
        if leverage.max() <= most:
            coefficients = inverse @ (light * weight)
            level = _terms((whites[0].at_px - centre) / scale, degree) @ coefficients
            return Evenness(degree=degree, centre_px=centre, scale_px=scale, coefficients=coefficients / level)
    return _flat()


def _flat() -> Evenness:
    return Evenness(degree=0, centre_px=np.zeros(2), scale_px=1.0, coefficients=np.ones((1, 3)))


def _surrounded(at: Floats, samples: Floats) -> bool:
    low, high = at.min(axis=0), at.max(axis=0)
    room = SURE_FRAC * (high - low)
    return bool(np.all((samples >= low - room) & (samples <= high + room)))


def _terms(place: Floats, degree: int) -> Floats:
    x, y = place[..., 0], place[..., 1]
    ones = np.ones_like(x)
    return np.stack([ones, x, y, x * x, x * y, y * y][: (1, 3, 6)[degree]], axis=-1)
