"""How much less active an ion is than its concentration says: the Davies equation.

A meter reads the activity of the hydrogen ion; what reacts and balances charge are concentrations. In steeped
liquor (ionic strength 0.01 to 0.05 mol/L) leaving this out costs about a twentieth of the dose.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.sourced import Sourced
from bluewright.science.base.units import KELVIN_OFFSET
from bluewright.science.base.validity import Studied
from bluewright.science.media.water import FloatOrArray, density_kg_per_m3

DIELECTRIC: Final = tuple(
    Sourced(
        value=value, unit=f"1/C^{power}", source="malmberg-maryott-1956", low=value, high=value, grade="memory"
    )
    for power, value in enumerate((87.740, -0.40008, 9.398e-4, -1.410e-6))
)  # fmt: skip
"""Coefficients of t^0 to t^3 of the dielectric constant of water, 0 to 100 C."""

SLOPE: Final = Sourced(
    value=1.82483e6, unit="K^1.5 (L/mol)^0.5", source="davies-1962", low=1.8246e6, high=1.8250e6, grade="memory",
    note="the Debye-Hueckel limiting slope from fundamental constants, for log10",
)  # fmt: skip

LINEAR: Final = Sourced(
    value=0.3, unit="L/mol", source="davies-1962", low=0.2, high=0.3, grade="memory",
    note="0.2 in the paper of 1938, 0.3 in the book of 1962",
)  # fmt: skip

STUDIED_IONIC_MOL_PER_L: Final = Studied(low=0.0, high=0.5, unit="mol/L", source="davies-1962")
"""Up to here Davies is within about 3 %; a brine of soda lies beyond."""


def dielectric(temp_c: FloatOrArray) -> FloatOrArray:
    """Dielectric constant of water (no unit), from 0 to 100 C.

    Formula: sum of a_i t^i. Shapes: as `temp_c`. Source: Malmberg & Maryott 1956, J. Res. NBS 56, 1.
    """
    a, b, c, d = (term.value for term in DIELECTRIC)
    return a + temp_c * (b + temp_c * (c + temp_c * d))


def debye_slope(temp_c: FloatOrArray) -> FloatOrArray:
    """The slope A of log10 of the activity coefficient, (L/mol)^0.5: 0.495 at 5 C, 0.511 at 25 C.

    Formula: 1.82483e6 sqrt(rho) / (eps T)^1.5, rho in kg/L. Shapes: as `temp_c`. Source: Davies 1962.
    """
    product = dielectric(temp_c) * (temp_c + KELVIN_OFFSET)
    found: FloatOrArray = SLOPE.value * np.sqrt(density_kg_per_m3(temp_c) / 1000.0) / product**1.5
    return found


def davies(ionic_mol_per_l: FloatOrArray, *, slope: FloatOrArray) -> FloatOrArray:
    """-log10 of the activity coefficient of a singly charged ion; that of charge z is z^2 times this.

    Formula: A (sqrt(I) / (1 + sqrt(I)) - 0.3 I), A from `debye_slope`. Shapes: those of the arguments together.
    Source: Davies 1962, Ion Association.
    """
    root = np.sqrt(ionic_mol_per_l)
    found: FloatOrArray = slope * (root / (1.0 + root) - LINEAR.value * ionic_mol_per_l)
    return found
