"""How fast microbes grow at a temperature: the cardinal temperature model with inflection."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats

FLORA_MIN_C: Final = 4.0
FLORA_BEST_C: Final = 34.0
FLORA_MAX_C: Final = 44.0
"""Cardinal temperatures of the steep's flora: between the sets of matejcekova-2019 for a lactic acid bacterium."""


def cardinal_frac(temp_c: Floats, *, min_c: float, best_c: float, max_c: float) -> Floats:
    """Growth rate at `temp_c` as a fraction of the rate at `best_c`; 0 outside `min_c` to `max_c`.

    gamma(T) = (T - Tmax)(T - Tmin)^2 /
               ((Topt - Tmin) [(Topt - Tmin)(T - Topt) - (Topt - Tmax)(Topt + Tmin - 2 T)])
    Source: Rosso, Lobry and Flandrois 1993, J. Theor. Biol. 162, 447 (key rosso-1993).
    """
    temp = np.clip(temp_c, min_c, max_c)
    above = (temp - max_c) * (temp - min_c) ** 2
    below = (best_c - min_c) * ((best_c - min_c) * (temp - best_c) - (best_c - max_c) * (best_c + min_c - 2 * temp))
    return np.asarray(above / below)


def flora_frac(temp_c: Floats) -> Floats:
    """`cardinal_frac` for the flora of a steep."""
    return cardinal_frac(temp_c, min_c=FLORA_MIN_C, best_c=FLORA_BEST_C, max_c=FLORA_MAX_C)
