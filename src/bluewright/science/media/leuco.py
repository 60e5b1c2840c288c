"""Reduced (leuco) indigo in water: which of its three forms, by pH.

The acid form is poorly soluble ("indigo white"); the ion of one charge goes onto fibre best; the ion of two charges
stays in the water. All is arithmetic on two acidity constants, which are known from memory only.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.sourced import Floats, Sourced

LEUCO_PKA_1: Final = Sourced(
    value=7.97, unit="1", source="blackburn-2009", low=7.7, high=8.3, grade="memory",
    note="measured by Etters in the 1990s; temperature dependence not known",
)  # fmt: skip
LEUCO_PKA_2: Final = Sourced(
    value=12.68, unit="1", source="blackburn-2009", low=12.4, high=13.0, grade="memory",
    note="measured by Etters in the 1990s; temperature dependence not known",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class LeucoForms:
    """Shares of reduced indigo, which add up to 1; all of one shape."""

    acid_frac: Floats
    """Without charge, poorly soluble."""
    mono_frac: Floats
    """With one charge."""
    di_frac: Floats
    """With two charges."""


def leuco_forms(ph: ArrayLike, *, pka_1: float = LEUCO_PKA_1.value, pka_2: float = LEUCO_PKA_2.value) -> LeucoForms:
    """The three forms at a pH: h^2/D, h K1/D and K1 K2/D with D = h^2 + h K1 + K1 K2. Activities are taken as 1."""
    h, k_1, k_2 = 10.0 ** -np.asarray(ph, dtype=float), 10.0**-pka_1, 10.0**-pka_2
    whole = h * h + h * k_1 + k_1 * k_2
    return LeucoForms(acid_frac=h * h / whole, mono_frac=h * k_1 / whole, di_frac=np.asarray(k_1 * k_2 / whole))
