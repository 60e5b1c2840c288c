"""Conversions between units, each once and by name. Inside the science everything is in one canonical unit."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Sourced

KELVIN_OFFSET: Final = 273.15
GAS_CONSTANT_J_PER_MOL_K: Final = 8.314462618
"""Molar gas constant (CODATA 2018, exact since the 2019 SI)."""


def kelvin(temp_c: float) -> float:
    """Degrees Celsius to kelvin (exact)."""
    return temp_c + KELVIN_OFFSET


# --- other people's units: exact by definition ------------------------------------------------------------------


def _exact(value: float, unit: str, *, source: str, note: str = "") -> Sourced:
    return Sourced(value=value, unit=unit, source=source, low=value, high=value, grade="exact", note=note)


POUND_KG: Final = _exact(0.45359237, "kg", source="nist-sp-811", note="international pound of 1959, avoirdupois")
OUNCE_KG: Final = _exact(0.028349523125, "kg", source="nist-sp-811", note="1/16 lb")

INCH_M: Final = _exact(0.0254, "m", source="nist-sp-811", note="1/36 of the international yard of 1959")
FOOT_M: Final = _exact(0.3048, "m", source="nist-sp-811", note="12 in")
YARD_M: Final = _exact(0.9144, "m", source="nist-sp-811", note="36 in")
SQUARE_INCH_M2: Final = _exact(0.00064516, "m2", source="nist-sp-811")
SQUARE_FOOT_M2: Final = _exact(0.09290304, "m2", source="nist-sp-811", note="144 square inches")
SQUARE_YARD_M2: Final = _exact(0.83612736, "m2", source="nist-sp-811", note="9 square feet")

US_GALLON_L: Final = _exact(3.785411784, "L", source="nist-hb-44", note="231 cubic inches")
US_QUART_L: Final = _exact(0.946352946, "L", source="nist-hb-44", note="liquid; 1/4 US gallon")
US_PINT_L: Final = _exact(0.473176473, "L", source="nist-hb-44", note="liquid; 1/8 US gallon")
US_CUP_L: Final = _exact(0.2365882365, "L", source="nist-sp-811", note="1/16 US gallon")
US_FLUID_OUNCE_L: Final = _exact(0.0295735295625, "L", source="nist-hb-44", note="1/128 US gallon")
US_TABLESPOON_L: Final = _exact(0.01478676478125, "L", source="nist-sp-811", note="1/2 US fluid ounce")
US_TEASPOON_L: Final = _exact(0.00492892159375, "L", source="nist-sp-811", note="1/6 US fluid ounce")

UK_GALLON_L: Final = _exact(4.54609, "L", source="weights-measures-1985")
UK_QUART_L: Final = _exact(1.1365225, "L", source="weights-measures-1985", note="1/4 UK gallon")
UK_PINT_L: Final = _exact(0.56826125, "L", source="weights-measures-1985", note="1/8 UK gallon")
UK_FLUID_OUNCE_L: Final = _exact(0.0284130625, "L", source="weights-measures-1985", note="1/20 UK pint")

GRAIN_MG: Final = _exact(64.79891, "mg", source="nist-sp-811", note="1/7000 lb")
GERMAN_DEGREE_MG_CACO3_L: Final = Sourced(
    value=17.848, unit="mg/L of CaCO3", source="iupac-atomic-weights-2021", low=17.847, high=17.849, grade="measured",
    note="10 mg of CaO in a litre, 56.077 g/mol, as CaCO3, 100.086 g/mol",
)  # fmt: skip

METRIC_CUP_L: Final = Sourced(
    value=0.25, unit="L", source="common-practice", low=0.25, high=0.25, grade="practice", note="a kitchen measure"
)

FAHRENHEIT_AT_0_C: Final = _exact(32.0, "degree Fahrenheit", source="nist-sp-811")
FAHRENHEIT_PER_CELSIUS: Final = _exact(1.8, "degree Fahrenheit in a degree Celsius", source="nist-sp-811")
