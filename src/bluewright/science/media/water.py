"""Water itself: how heavy, how thick, and how hard it evaporates, from its temperature.

Liquor is taken as water here: at a few grams of solubles in a litre it is 0.1-0.3 % heavier and 1-2 % thicker,
which is less than what a kitchen thermometer leaves open.
"""

from __future__ import annotations

from typing import Final, TypeVar

import numpy as np

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.base.units import KELVIN_OFFSET
from bluewright.science.base.validity import Studied

FloatOrArray = TypeVar("FloatOrArray", float, Floats)

LIQUID_LOW_C: Final = -10.0
LIQUID_HIGH_C: Final = 110.0
"""Liquid water at about one atmosphere, with room for supercooling and salts; beyond these it is ice or steam."""

STUDIED_C: Final[dict[str, Studied]] = {
    "density": Studied(low=0.0, high=100.0, unit="C", source="kell-1975"),
    "viscosity": Studied(low=-20.0, high=110.0, unit="C", source="iapws-sr6-08"),
    "vapour_pressure": Studied(low=0.01, high=373.946, unit="C", source="wagner-pruss-1993"),
}
"""The temperatures over which each formula of this module was fitted (at 0.1 MPa)."""


def _kell(value: float, unit: str) -> Sourced:
    return Sourced(value=value, unit=unit, source="kell-1975", low=value, high=value, grade="measured")


DENSITY_ABOVE: Final = tuple(
    _kell(value, f"kg/m3/C^{power}")
    for power, value in enumerate(
        (999.83952, 16.945176, -7.9870401e-3, -46.170461e-6, 105.56302e-9, -280.54253e-12)
    )
)  # fmt: skip
"""Coefficients of t^0 to t^5 above the fraction bar of Kell's equation for the density at 1 atm."""

DENSITY_BELOW: Final = _kell(16.879850e-3, "1/C")
"""Coefficient of t below the fraction bar."""

_VISCOSITY_TERMS: Final = ((280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0))

VISCOSITY_UPA_S: Final = tuple(
    (
        Sourced(value=value, unit="uPa s", source="iapws-sr6-08", low=value, high=value, grade="measured"),
        power,
    )
    for value, power in _VISCOSITY_TERMS
)
"""(coefficient, exponent of T/300 K) of the viscosity of liquid water at 0.1 MPa; the release states 1 %."""

CRITICAL_K: Final = Sourced(
    value=647.096, unit="K", source="wagner-pruss-1993", low=646.996, high=647.196, grade="measured"
)
CRITICAL_KPA: Final = Sourced(
    value=22064.0, unit="kPa", source="wagner-pruss-1993", low=22037.0, high=22091.0, grade="measured"
)
_SATURATION_TERMS: Final = (
    (-7.85951783, 1.0),
    (1.84408259, 1.5),
    (-11.7866497, 3.0),
    (22.6807411, 3.5),
    (-15.9618719, 4.0),
    (1.80122502, 7.5),
)
SATURATION: Final = tuple(
    (Sourced(value=value, unit="1", source="wagner-pruss-1993", low=value, high=value, grade="measured"), power)
    for value, power in _SATURATION_TERMS
)
"""(coefficient, exponent of 1 - T/Tc) of the saturation pressure."""


def density_kg_per_m3(temp_c: FloatOrArray) -> FloatOrArray:
    """Density of water at 1 atm, kg/m3.

    Formula: (sum of a_i t^i) / (1 + b t), t in C. Shapes: as `temp_c`. Studied from 0 to 100 C (0.001 kg/m3 in the
    original; the modern standard lies within 0.01). Raises InputError where water is not liquid.
    Source: Kell 1975, J. Chem. Eng. Data 20, 97, equation 16.
    """
    t = liquid(temp_c)
    above: FloatOrArray = 0.0 * t
    for coefficient in reversed(DENSITY_ABOVE):
        above = above * t + coefficient.value
    return above / (1.0 + DENSITY_BELOW.value * t)


def viscosity_pa_s(temp_c: FloatOrArray) -> FloatOrArray:
    """Dynamic viscosity of water at 0.1 MPa, Pa s.

    Formula: 1e-6 * sum of a_i (T / 300 K)^b_i. Shapes: as `temp_c`. Studied from -20 to 110 C, within 1 %.
    Raises InputError where water is not liquid. Source: IAPWS SR6-08 (2011), the equation for the viscosity.
    """
    tau = (liquid(temp_c) + KELVIN_OFFSET) / 300.0
    total: FloatOrArray = 0.0 * tau
    for coefficient, power in VISCOSITY_UPA_S:
        total = total + coefficient.value * tau**power
    return 1e-6 * total


def vapour_pressure_kpa(temp_c: FloatOrArray) -> FloatOrArray:
    """Pressure of saturated water vapour over liquid water, kPa.

    Formula: pc exp(Tc/T * sum of a_i (1 - T/Tc)^b_i). Shapes: as `temp_c`. Studied from 0.01 C to the critical
    point, within 0.02 %. Raises InputError where water is not liquid.
    Source: Wagner & Pruss 1993, J. Phys. Chem. Ref. Data 22, 783, equation 1 (IAPWS SR1-86).
    """
    absolute_k = liquid(temp_c) + KELVIN_OFFSET
    theta = 1.0 - absolute_k / CRITICAL_K.value
    total: FloatOrArray = 0.0 * theta
    for coefficient, power in SATURATION:
        total = total + coefficient.value * theta**power
    found: FloatOrArray = CRITICAL_KPA.value * np.exp(CRITICAL_K.value / absolute_k * total)
    return found


def liquid(temp_c: FloatOrArray) -> FloatOrArray:
    """`temp_c` itself; raises InputError where water is not liquid, or where it is not a number."""
    given = np.atleast_1d(temp_c)
    liquid = (given >= LIQUID_LOW_C) & (given <= LIQUID_HIGH_C)
    if not liquid.all():
        raise InputError(
            where="temp_c",
            what=f"{given[~liquid][0]:g} C is not liquid water",
            right=f"give a temperature from {LIQUID_LOW_C:g} to {LIQUID_HIGH_C:g} C",
        )
    return temp_c
