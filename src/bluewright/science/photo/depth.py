"""How deep and how level a blue is: Kubelka and Munk's K/S in the red channel, which indigo darkens most."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, band
from bluewright.science.colour.depth import PHOTO_DEPTH, k_over_s, red_k_over_s
from bluewright.science.colour.spaces import linear_of_xyz
from bluewright.science.photo.correction import Correction
from bluewright.science.photo.priors import VEIL_FRAC
from bluewright.science.photo.record import Part
from bluewright.science.photo.references import References
from bluewright.science.photo.region import Region

DRAWS: Final = 1000


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
    seen = known.mean(part)
    red = float(linear_of_xyz(correction.xyz(seen))[0])
    if k_over_s(red) > PHOTO_DEPTH.value:
        return None
    sd = np.sqrt(sum(each.lab_sd[0] ** 2 for each in parts if each.what in {"shots", "region"}))
    lightness = max(float(correction.lab(seen)[0]), 1.0)
    drawn = red * np.exp(3.0 * sd / (lightness + 16.0) * rng.standard_normal(DRAWS))  # dY/Y = 3 dL*/(L* + 16)
    if any(each.what == "veil" for each in parts):
        drawn = drawn - VEIL_FRAC.draw(rng, DRAWS)
    return band(k_over_s(drawn))


def uneven_frac(part: Region, known: References, correction: Correction | None) -> float:
    """Relative standard deviation over blocks: of K/S in red against a white, else of green light."""
    blocks = known.lightened(part)
    told = blocks[:, 1] if correction is None else red_k_over_s(linear_of_xyz(correction.xyz(blocks)))
    mean = float(np.average(told, weights=part.block_points))
    return float(np.sqrt(np.average((told - mean) ** 2, weights=part.block_points))) / mean if mean > 0 else 0.0
