"""How heavy a solution of an alkali is, so that per cent by mass on a label becomes moles in a millilitre."""

from __future__ import annotations

import math
from typing import Final, Literal

from bluewright.science.base.sourced import Sourced
from bluewright.science.base.validity import Studied
from bluewright.science.media.water import density_kg_per_m3

Solute = Literal["ammonia", "sodium_hydroxide", "potassium_hydroxide"]


def _terms(*values: float) -> tuple[Sourced, ...]:
    units = ("kg/m3", "kg/m3", "1", "1/C", "C")
    return tuple(
        Sourced(value=v, unit=u, source="laliberte-2009", low=v, high=v, grade="measured")
        for v, u in zip(values, units, strict=True)
    )


APPARENT: Final[dict[Solute, tuple[Sourced, ...]]] = {
    "ammonia": _terms(
        0.0637631725924523, 0.0681799828976475, 1.23759952767397, -0.00599852493721479, -3078.57767189507
    ),
    "sodium_hydroxide": _terms(
        319.020509469838, 528.592358475315, -0.102197896602724, 0.000350420706415566, 765.970470238438
    ),
    "potassium_hydroxide": _terms(
        821.119043254761, 1043.20173374381, 0.112873330222752, 0.00124023636407386, 539.630388368877
    ),
}  # fmt: skip
"""Coefficients c0 to c4 of the apparent density of each solute."""

STUDIED_FRAC: Final[dict[Solute, Studied]] = {
    "ammonia": Studied(low=0.0, high=0.52, unit="1", source="laliberte-2009"),
    "sodium_hydroxide": Studied(low=0.0, high=0.50, unit="1", source="laliberte-2009"),
    "potassium_hydroxide": Studied(low=0.0, high=0.52, unit="1", source="laliberte-2009"),
}
"""Mass fractions over which the densities were fitted."""


def density_kg_per_l(solute_frac: float, *, solute: Solute, temp_c: float) -> float:
    """Density of a solution of one alkali, kg/L, from its mass fraction.

    Formula: 1/rho = (1 - w)/rho_water + w (w + c2 + c3 t) / ((c0 w + c1) exp(1e-6 (t + c4)^2)).
    Studied over `STUDIED_FRAC`, from about 0 to 60 C. Raises InputError where water is not liquid.
    Source: Laliberte 2009, J. Chem. Eng. Data 54, 1725, equations 5 and 6.
    """
    c0, c1, c2, c3, c4 = (term.value for term in APPARENT[solute])
    w = solute_frac
    apparent = (c0 * w + c1) * math.exp(1e-6 * (temp_c + c4) ** 2) / (w + c2 + c3 * temp_c)
    return 1.0 / (1000.0 * (1.0 - w) / density_kg_per_m3(temp_c) + 1000.0 * w / apparent)
