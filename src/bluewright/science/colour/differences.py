"""How far apart two colours are: CIEDE2000, CIE76, CMC(l:c), and the signed parts of a difference.

Everything is L*, a*, b* under D65 seen by the 2 degree observer. CIEDE2000 and CIE76 do not ask which of the two is the
standard; CMC does, and gives another number when they are swapped.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.sourced import Floats
from bluewright.science.colour.spaces import chroma_of_lab, hue_deg_of_lab

_TWENTY_FIVE_7: Final = 25.0**7


@dataclass(frozen=True, slots=True, kw_only=True)
class Parts:
    """The signed parts of a difference, sample minus standard; all of one shape."""

    lightness: Floats
    """Above 0 the sample is lighter."""
    chroma: Floats
    """Above 0 the sample has more colour: it is brighter, further from grey."""
    hue: Floats
    """Above 0 the sample's hue lies further along red, yellow, green, blue; in units of chroma, not degrees."""


def cie76(lab: ArrayLike, other: ArrayLike) -> Floats:
    """The plain distance in L*, a*, b* (CIE 15:2004, 8.2.1); shapes (..., 3) to (...)."""
    apart = np.asarray(lab, dtype=float) - np.asarray(other, dtype=float)
    return np.asarray(np.sqrt(np.sum(apart**2, axis=-1)))


def parts(lab: ArrayLike, standard: ArrayLike) -> Parts:
    """Differences of lightness, chroma and hue in CIELAB (CIE 15:2004, 8.2.3); without hue where one is grey."""
    lab, standard = np.asarray(lab, dtype=float), np.asarray(standard, dtype=float)
    chroma, other = chroma_of_lab(lab), chroma_of_lab(standard)
    turned_deg = _turned_deg(hue_deg_of_lab(standard), hue_deg_of_lab(lab))
    return Parts(
        lightness=lab[..., 0] - standard[..., 0],
        chroma=chroma - other,
        hue=2.0 * np.sqrt(chroma * other) * np.sin(np.radians(turned_deg / 2.0)),
    )


def weighted_parts(lab: ArrayLike, standard: ArrayLike) -> Parts:
    """The same, each divided by its weight in CIEDE2000, so that 1 is about as much to the eye in each of them."""
    return _steps(lab, standard)[0]


def ciede2000(lab: ArrayLike, other: ArrayLike) -> Floats:
    """The difference CIEDE2000 with all factors 1 (ISO/CIE 11664-6:2022); shapes (..., 3) to (...).

    Source: Sharma, Wu and Dalal 2005, whose 34 pairs test each turn of the hue, the branch for greys included.
    """
    apart, turn = _steps(lab, other)
    squared = apart.lightness**2 + apart.chroma**2 + apart.hue**2 + turn * apart.chroma * apart.hue
    return np.asarray(np.sqrt(np.maximum(squared, 0.0)))


def cmc(lab: ArrayLike, standard: ArrayLike, *, l_factor: float = 2.0, c_factor: float = 1.0) -> Floats:
    """The difference CMC(l:c) of a sample from a standard (ISO 105-J03:2009); 2:1 for whether cloth is acceptable.

    Not symmetric: the weights are those of the standard. Source: formula from memory, held against two libraries.
    """
    standard = np.asarray(standard, dtype=float)
    light, chroma, hue_deg = standard[..., 0], chroma_of_lab(standard), hue_deg_of_lab(standard)
    apart = parts(lab, standard)
    s_light = np.where(light < 16.0, 0.511, 0.040975 * light / (1.0 + 0.01765 * light))
    s_chroma = 0.0638 * chroma / (1.0 + 0.0131 * chroma) + 0.638
    bluish = (hue_deg >= 164.0) & (hue_deg <= 345.0)
    t = np.where(
        bluish,
        0.56 + np.abs(0.2 * np.cos(np.radians(hue_deg + 168.0))),
        0.36 + np.abs(0.4 * np.cos(np.radians(hue_deg + 35.0))),
    )
    f = np.sqrt(chroma**4 / (chroma**4 + 1900.0))
    s_hue = s_chroma * (t * f + 1.0 - f)
    return np.asarray(
        np.sqrt(
            (apart.lightness / (l_factor * s_light)) ** 2
            + (apart.chroma / (c_factor * s_chroma)) ** 2
            + (apart.hue / s_hue) ** 2
        )
    )


def mean_hue_deg(lab: ArrayLike, other: ArrayLike) -> Floats:
    """The hue half way between two colours, the short way round; that of the other where one is grey; shape (...)."""
    one, two = hue_deg_of_lab(lab), hue_deg_of_lab(other)
    total, far = one + two, np.abs(one - two) > 180.0
    half = np.where(far, np.where(total < 360.0, total + 360.0, total - 360.0), total) / 2.0
    return np.where(chroma_of_lab(lab) * chroma_of_lab(other) == 0.0, total, half)


def _turned_deg(from_deg: Floats, to_deg: Floats) -> Floats:
    """By how much a hue turned, from -180 to 180 degrees."""
    turned = to_deg - from_deg
    return np.where(turned > 180.0, turned - 360.0, np.where(turned < -180.0, turned + 360.0, turned))


def _steps(lab: ArrayLike, standard: ArrayLike) -> tuple[Parts, Floats]:
    """The weighted parts of CIEDE2000, and its term R_T that turns blues."""
    sample, standard = np.broadcast_arrays(np.asarray(lab, dtype=float), np.asarray(standard, dtype=float))
    chroma_7 = ((chroma_of_lab(sample) + chroma_of_lab(standard)) / 2.0) ** 7
    stretch = 1.5 - 0.5 * np.sqrt(chroma_7 / (chroma_7 + _TWENTY_FIVE_7))
    sample, standard = _stretched(sample, stretch), _stretched(standard, stretch)
    apart = parts(sample, standard)
    light = (standard[..., 0] + sample[..., 0]) / 2.0
    chroma = (chroma_of_lab(standard) + chroma_of_lab(sample)) / 2.0
    hue_deg = mean_hue_deg(standard, sample)
    hue = np.radians(hue_deg)
    t = (
        1.0 - 0.17 * np.cos(hue - np.radians(30.0)) + 0.24 * np.cos(2.0 * hue)
        + 0.32 * np.cos(3.0 * hue + np.radians(6.0)) - 0.20 * np.cos(4.0 * hue - np.radians(63.0))
    )  # fmt: skip
    above = (light - 50.0) ** 2
    theta = np.radians(30.0 * np.exp(-(((hue_deg - 275.0) / 25.0) ** 2)))
    turn = -2.0 * np.sqrt(chroma**7 / (chroma**7 + _TWENTY_FIVE_7)) * np.sin(2.0 * theta)
    weighted = Parts(
        lightness=apart.lightness / (1.0 + 0.015 * above / np.sqrt(20.0 + above)),
        chroma=apart.chroma / (1.0 + 0.045 * chroma),
        hue=apart.hue / (1.0 + 0.015 * chroma * t),
    )
    return weighted, np.asarray(turn)


def _stretched(lab: Floats, factor: Floats) -> Floats:
    return np.stack([lab[..., 0], lab[..., 1] * factor, lab[..., 2]], axis=-1)
