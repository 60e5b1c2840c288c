"""Grey-scale grades in the manner of ISO 105 A02 to A05: estimates of ours, never a test report.

A grade tells how much a colour changed (A02, A05) or how much white cloth beside it was stained (A03, A04), from 5,
nothing, to 1. A report of a test needs the standard's own procedure, lamps and instruments.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.sourced import Floats
from bluewright.science.colour.differences import cie76, mean_hue_deg, parts
from bluewright.science.colour.spaces import chroma_of_lab

GRADES: Final = (5.0, 4.5, 4.0, 3.5, 3.0, 2.5, 2.0, 1.5, 1.0)
CHANGE_DE76: Final = (0.0, 0.8, 1.7, 2.5, 3.4, 4.8, 6.8, 9.6, 13.6)
"""CIE76 of the pairs of greys that stand for each grade of change (EN 20105-A02:1994)."""
STAIN_DE76: Final = (0.0, 2.2, 4.3, 6.0, 8.5, 12.0, 16.9, 24.0, 34.1)
"""The same for staining (ISO 105-A03), from memory."""


def change_grade_by_eye(de76: ArrayLike) -> Floats:
    """The half grade whose pair of greys is the nearest to a CIE76 (manner of ISO 105-A02); the same shape."""
    return _nearest(de76, CHANGE_DE76)


def stain_grade_by_eye(de76: ArrayLike) -> Floats:
    """The same for staining (manner of ISO 105-A03)."""
    return _nearest(de76, STAIN_DE76)


def change_grade(lab: ArrayLike, original: ArrayLike) -> Floats:
    """Grade of a change of colour, 1 to 5 without steps, in the manner of ISO 105-A05; shapes (..., 3) to (...).

    The term x turns blues: around h = 280 a change of chroma and one of hue are told as one. Grades below 1 are 1: the
    scale ends there. Source: formula partly from memory (EN ISO 105-A05:1997).
    """
    lab, original = np.asarray(lab, dtype=float), np.asarray(original, dtype=float)
    apart = parts(lab, original)
    chroma = (chroma_of_lab(lab) + chroma_of_lab(original)) / 2.0
    from_blue = np.abs(mean_hue_deg(lab, original) - 280.0)
    x = (np.minimum(from_blue, 360.0 - from_blue) / 30.0) ** 2
    turn = apart.chroma * chroma * np.exp(-x) / 100.0
    d_chroma = (apart.chroma - turn) / (1.0 + (20.0 * chroma / 1000.0) ** 2)
    d_hue = (apart.hue - turn) / (1.0 + (10.0 * chroma / 1000.0) ** 2)
    changed = np.sqrt(apart.lightness**2 + d_chroma**2 + d_hue**2)
    steep = 5.0 - np.log2(np.maximum(changed, 3.4) / 0.85)
    return np.asarray(np.maximum(np.where(changed <= 3.4, 5.0 - changed / 1.7, steep), 1.0))


def stain_grade(lab: ArrayLike, unstained: ArrayLike) -> Floats:
    """Grade of staining, 1 to 5 without steps, in the manner of ISO 105-A04; shapes (..., 3) to (...)."""
    de76 = cie76(lab, unstained)
    return stain_grade_of(de76, lightness=parts(lab, unstained).lightness)


def stain_grade_of(de76: ArrayLike, *, lightness: ArrayLike) -> Floats:
    """The same from CIE76 and the difference of lightness in it. Source: ISO 105-A04:1999, the line from memory."""
    total, light = np.asarray(de76, dtype=float), np.asarray(lightness, dtype=float)
    stained = total - 0.4 * np.sqrt(np.maximum(total**2 - light**2, 0.0))
    far = 6.1 - 1.45 * np.log(np.maximum(stained, 4.0))
    return np.asarray(np.clip(np.where(stained > 4.0, far, 5.0 - 0.23 * stained), 1.0, 5.0))


def half_grade(grade: ArrayLike) -> Floats:
    """The half grade that a grade without steps is reported as: 4.25 to under 4.75 is 4-5, told as 4.5."""
    return np.clip(np.floor(2.0 * np.asarray(grade, dtype=float) + 0.5) / 2.0, 1.0, 5.0)


def _nearest(de76: ArrayLike, scale: tuple[float, ...]) -> Floats:
    far = np.abs(np.asarray(de76, dtype=float)[..., None] - np.array(scale))
    return np.asarray(np.array(GRADES)[np.argmin(far, axis=-1)])
