"""Conversions between units, each once and by name. Inside the science everything is in one canonical unit."""

from __future__ import annotations

from typing import Final

KELVIN_OFFSET: Final = 273.15
GAS_CONSTANT_J_PER_MOL_K: Final = 8.314462618
"""Molar gas constant (CODATA 2018, exact since the 2019 SI)."""


def kelvin(temp_c: float) -> float:
    """Degrees Celsius to kelvin (exact)."""
    return temp_c + KELVIN_OFFSET
