"""One day of the root zone: what it gains, what it gives, what overflows.

Source: FAO Irrigation and Drainage Paper 56 (1998), chapter 8, equations 82 to 86, in millimetres (litres on each
square metre). Shapes broadcast throughout.
"""

from __future__ import annotations

import numpy as np

from bluewright.science.base.sourced import Floats

Number = Floats | float


def store(*, available_frac: Number, root_m: Number) -> Floats:
    """Water that the root zone holds between drained and wilting, mm (equation 82)."""
    return np.asarray(1000.0 * np.asarray(available_frac) * root_m)


def thirst(depletion_mm: Number, *, store_mm: Number, easy_frac: Number) -> Floats:
    """Share of its wish that a plant still gets, 1 down to 0, once more than the easy share is gone (equation 84)."""
    left = np.asarray(store_mm) - depletion_mm
    return np.clip(left / np.maximum((1 - np.asarray(easy_frac)) * store_mm, 1e-9), 0.0, 1.0)


def next_depletion(
    depletion_mm: Number, *, wanted_mm: Number, gained_mm: Number, store_mm: Number, easy_frac: Number
) -> Floats:
    """What is missing in the evening, mm: 0 where the store is full, at most the store (equations 85 and 86).

    `wanted_mm` is what the bed would give to the air if it lacked nothing; `gained_mm` rain and watering that reach the
    roots. What comes beyond full runs below the roots.
    """
    used = thirst(depletion_mm, store_mm=store_mm, easy_frac=easy_frac) * wanted_mm
    return np.clip(np.asarray(depletion_mm) + used - gained_mm, 0.0, store_mm)
