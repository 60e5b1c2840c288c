"""What fibre takes from liquor in one dip: its isotherm, what the bath has to give, and how far a dip gets.

What an earlier dip left in the fibre has turned to indigo, which no longer stands against more leuco going on: each dip
begins afresh. Formulas: C = K c^n (cellulose, wool), C = K c / (1 + K c / S) (silk, Langmuir), with c = c0 - C m / V.
"""

from __future__ import annotations

import math
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.sourced import Floats
from bluewright.science.base.units import KELVIN_OFFSET
from bluewright.science.dyeing.priors import (
    ACID_OF_MONO,
    DI_OF_MONO,
    HEAT_KCAL_PER_MOL,
    SILK_FULL_G_PER_KG,
    USUAL_C,
    USUAL_PH,
)
from bluewright.science.media.cloth import PROTEIN, Fibre
from bluewright.science.media.leuco import leuco_forms

GAS_KCAL_PER_MOL_K: Final = 1.987204e-3
"""The gas constant, 8.314463 J/(mol K) at 4184 J in a kilocalorie."""
STEPS: Final = 12
CLOSE: Final = 1e-10
"""Newton's method ends after so many steps, or with one so small: the next is its square."""


def temp_factor(temp_c: float, *, fibre: Fibre) -> float:
    """By which a fibre's affinity differs from that at its usual warmth: exp(-dH/R (1/T - 1/T0))."""
    usual_k, now_k = USUAL_C[fibre].value + KELVIN_OFFSET, temp_c + KELVIN_OFFSET
    heat = HEAT_KCAL_PER_MOL[fibre].value
    return math.exp(-heat / GAS_KCAL_PER_MOL_K * (1.0 / now_k - 1.0 / usual_k))


def ph_factor(ph: float, *, fibre: Fibre) -> float:
    """By which the forms of reduced indigo at a pH are taken more or less than at the fibre's usual one."""

    def liking(at: float) -> float:
        forms = leuco_forms(at)
        acid = ACID_OF_MONO.value if fibre in PROTEIN else 0.0
        return float(forms.mono_frac + DI_OF_MONO.value * forms.di_frac + acid * forms.acid_frac)

    return liking(ph) / liking(USUAL_PH[fibre].value)


def isotherm_g_per_kg(c_g_per_l: Floats, *, affinity_l_per_kg: Floats, exponent: Floats, fibre: Fibre) -> Floats:
    """Indigo on fibre at equilibrium with liquor of a strength; `affinity` is what it is at 1 g/L."""
    if fibre == "silk":
        straight = affinity_l_per_kg * c_g_per_l
        return np.asarray(straight / (1.0 + straight / SILK_FULL_G_PER_KG.value))
    return np.asarray(affinity_l_per_kg * c_g_per_l**exponent)


def equilibrium_g_per_kg(
    c_g_per_l: ArrayLike, *, affinity_l_per_kg: ArrayLike, exponent: ArrayLike, liquor_l_per_kg: ArrayLike, fibre: Fibre
) -> Floats:
    """What a dip without end puts on the fibre, from a bath of so many litres to a kilogram that nothing is added to.

    With exponent 1 the fibre takes the share K / (K + R) of what the bath holds. Arrays are broadcast.
    """
    c, k, n, r = np.broadcast_arrays(
        *(np.asarray(one, dtype=float) for one in (c_g_per_l, affinity_l_per_kg, exponent, liquor_l_per_kg))
    )
    if fibre == "silk":
        return _langmuir(c, k, r)
    return np.where(c > 0.0, r * c * (1.0 - _left_frac(k * np.where(c > 0.0, c, 1.0) ** (n - 1.0) / r, n)), 0.0)


def _left_frac(pull: Floats, exponent: Floats) -> Floats:
    """The share x of the bath's strength that is left: pull x^n = 1 - x.

    Newton's method on n y + ln(pull) - ln(1 - e^y), y = ln x, which bends one way: from above the root it falls to it.
    """
    straight = 1.0 / (1.0 + pull)
    begun = np.where(exponent <= 1.0, straight, 1.0 - pull * straight**exponent)
    y, pull_log = np.log(begun), np.log(pull)
    for _ in range(STEPS):
        left = np.exp(y)
        step = (exponent * y + pull_log - np.log1p(-left)) / (exponent + left / (1.0 - left))
        y = y - step
        if np.all(np.abs(step) < CLOSE):
            break
    return np.asarray(np.exp(y))


def _langmuir(c: Floats, k: Floats, r: Floats) -> Floats:
    """The lower root of q^2 k/(S r) - q (1 + k/r + k c/S) + k c = 0, without cancelling."""
    full = SILK_FULL_G_PER_KG.value
    a, b, d = k / (full * r), 1.0 + k / r + k * c / full, k * c
    return np.asarray(2.0 * d / (b + np.sqrt(b * b - 4.0 * a * d)))
