"""How deep and how level a blue is: Kubelka and Munk's K/S in the red channel, which indigo darkens most."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.bands import Band, band
from bluewright.science.base.sourced import Floats
from bluewright.science.photo.correction import Correction
from bluewright.science.photo.priors import MOST_K_OVER_S, VEIL_FRAC
from bluewright.science.photo.record import Part
from bluewright.science.photo.references import References
from bluewright.science.photo.region import Region

DRAWS: Final = 1000
LEAST_FRAC: Final = 1e-3
"""Reflected red below which nothing is told of depth."""


def k_over_s(reflected_frac: ArrayLike) -> Floats:
    """K/S of a reflectance, 0 to 1 (Kubelka and Munk 1931); the same shape."""
    share = np.clip(np.asarray(reflected_frac, dtype=float), LEAST_FRAC, 1.0)
    return np.asarray((1.0 - share) ** 2 / (2.0 * share))


def depth_of(
    part: Region,
    known: References,
    correction: Correction | None,
    parts: Sequence[Part],
    *,
    rng: np.random.Generator,
) -> Band | None:
    """K/S of the sample's red, with the spread that another photo would have and that of stray light.

    None without a white to hold it against, and where it is deeper than a photo can tell.
    """
    if correction is None:
        return None
    red = float(correction.tone(known.mean(part))[0])
    if k_over_s(red) > MOST_K_OVER_S.value:
        return None
    sd = np.sqrt(sum(each.lab_sd[0] ** 2 for each in parts if each.what in {"shots", "region"}))
    lightness = max(float(correction.lab(known.mean(part))[0]), 1.0)
    drawn = red * np.exp(3.0 * sd / (lightness + 16.0) * rng.standard_normal(DRAWS))  # dY/Y = 3 dL*/(L* + 16)
    if any(each.what == "veil" for each in parts):
        drawn = drawn - VEIL_FRAC.draw(rng, DRAWS)
    return band(k_over_s(drawn))


def uneven_frac(part: Region, known: References, correction: Correction | None) -> float:
    """Relative standard deviation over blocks: of K/S in red against a white, else of green light."""
    blocks = known.lightened(part)
    told = blocks[:, 1] if correction is None else k_over_s(correction.tone(blocks)[:, 0])
    mean = float(np.average(told, weights=part.block_points))
    return float(np.sqrt(np.average((told - mean) ** 2, weights=part.block_points))) / mean if mean > 0 else 0.0
