"""The tone curve that a camera put on its light, undone by neutrals whose lightness is known.

Per channel a monotone curve through the neutrals, on the cube root of light, where equal steps look about equal.
Beyond the darkest and the lightest it goes on in proportion, so that one neutral alone is a plain gain: the white
balance and exposure of a white paper.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats

ALIKE_FRAC: Final = 0.03
"""Neutrals whose light differs by less than this are one knot: two boxes on the same paper."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Tone:
    """A monotone curve for each channel; all arrays have shape (knots, 3), on the cube root of light."""

    at: Floats
    """Where the knots stand: as recorded."""
    value: Floats
    """What they stand for: as it truly is."""
    slope: Floats
    """Of the curve at each knot."""

    def __call__(self, light: ArrayLike) -> Floats:
        """True linear light for recorded linear light, below 0 as 0; shape (..., 3)."""
        root = np.cbrt(np.maximum(np.asarray(light, dtype=float), 0.0))
        return np.asarray(np.stack([self._channel(root[..., c], c) for c in range(3)], axis=-1) ** 3)

    def _channel(self, root: Floats, c: int) -> Floats:
        at, value, slope = self.at[:, c], self.value[:, c], self.slope[:, c]
        below, above = root * value[0] / at[0], root * value[-1] / at[-1]
        if len(at) == 1:
            return np.asarray(below)
        inside = hermite(np.clip(root, at[0], at[-1]), at=at, values=value, slope=slope)
        return np.where(root < at[0], below, np.where(root > at[-1], above, inside))


def fit_tone(light: ArrayLike, linear: ArrayLike, *, where: str = "neutrals") -> Tone:
    """The curve through neutrals: `light` as recorded and `linear` as they truly are, shape (n, 3), in any order.

    Raises InputError at `where` if one is black to the camera, or a darker one is recorded as lighter.
    """
    seen, true = np.atleast_2d(np.asarray(light, dtype=float)), np.atleast_2d(np.asarray(linear, dtype=float))
    order = np.argsort(true[:, 1])
    seen, true = _merged(seen[order], true[order])
    if np.any(seen <= 0) or np.any(true <= 0):
        raise InputError(
            where=where, what="one of them is wholly black in the picture", right="leave it out, or give more light"
        )
    if np.any(np.diff(seen, axis=0) <= 0) or np.any(np.diff(true, axis=0) <= 0):
        raise InputError(
            where=where,
            what="a darker one looks lighter in the picture than a lighter one",
            right="check which box stands for which, and that no shadow or shine lies on them",
        )
    at, value = np.cbrt(seen), np.cbrt(true)
    slopes = [monotone_slope(at[:, c], value[:, c]) for c in range(3)]
    return Tone(at=at, value=value, slope=np.stack(slopes, axis=1))


def monotone_slope(at: Floats, values: Floats) -> Floats:
    """Slopes at the knots of the monotone piecewise cubic, shape (n,).

    Inside the weighted harmonic mean of the slopes on both sides, 0 at a turn (Fritsch and Butland 1984); at the ends
    the three-point formula, held back so that it neither turns nor overshoots.
    """
    if len(at) == 1:
        return np.zeros(1)
    step, rise = np.diff(at), np.diff(values) / np.diff(at)
    if len(at) == 2:
        return np.repeat(rise, 2)
    before, after = 2 * step[1:] + step[:-1], step[1:] + 2 * step[:-1]
    turns = rise[:-1] * rise[1:] <= 0
    safe = np.where(turns, 1.0, rise[:-1]), np.where(turns, 1.0, rise[1:])
    inner = np.where(turns, 0.0, (before + after) / (before / safe[0] + after / safe[1]))
    ends = [_end_slope(step[:2], rise[:2]), _end_slope(step[:-3:-1], rise[:-3:-1])]
    return np.concatenate([[ends[0]], inner, [ends[1]]])


def hermite(x: ArrayLike, *, at: Floats, values: Floats, slope: Floats) -> Floats:
    """The piecewise cubic through (at, values) with these slopes, at `x` within the knots; the shape of `x`."""
    x = np.asarray(x, dtype=float)
    k = np.clip(np.searchsorted(at, x, side="right") - 1, 0, len(at) - 2)
    width = at[k + 1] - at[k]
    t = (x - at[k]) / width
    return np.asarray(
        (1 + 2 * t) * (1 - t) ** 2 * values[k]
        + t * (1 - t) ** 2 * width * slope[k]
        + t**2 * (3 - 2 * t) * values[k + 1]
        + t**2 * (t - 1) * width * slope[k + 1]
    )


def _end_slope(step: Floats, rise: Floats) -> float:
    slope = ((2 * step[0] + step[1]) * rise[0] - step[0] * rise[1]) / (step[0] + step[1])
    if slope * rise[0] <= 0:
        return 0.0
    if rise[0] * rise[1] < 0 and abs(slope) > 3 * abs(rise[0]):
        return float(3 * rise[0])
    return float(slope)


def _merged(seen: Floats, true: Floats) -> tuple[Floats, Floats]:
    """Neutrals of nearly the same true light, which stand in rising order, as their mean."""
    first = np.concatenate([[True], np.diff(true[:, 1]) > ALIKE_FRAC * true[1:, 1]])
    group = np.cumsum(first) - 1
    size = np.bincount(group)[:, None]
    means = [np.stack([np.bincount(group, each[:, c]) for c in range(3)], axis=1) / size for each in (seen, true)]
    return means[0], means[1]
