"""What a redox meter's electrode stands at itself, so that millivolts of two meters can be compared."""

from __future__ import annotations

from typing import Final, Literal

from bluewright.science.base.sourced import Sourced

Electrode = Literal["she", "calomel", "silver_sat_kcl", "silver_3m_kcl"]


def _offset(value: float, low: float, high: float, note: str) -> Sourced:
    return Sourced(value=value, unit="mV", source="crc-potentials", low=low, high=high, grade="memory", note=note)


OFFSET_MV: Final[dict[Electrode, Sourced]] = {
    "she": _offset(0.0, 0.0, 0.0, "the standard hydrogen electrode itself"),
    "calomel": _offset(244.0, 241.0, 245.0, "saturated calomel, 25 C"),
    "silver_sat_kcl": _offset(197.0, 195.0, 199.0, "silver chloride in saturated potassium chloride, 25 C"),
    "silver_3m_kcl": _offset(210.0, 205.0, 213.0, "silver chloride in 3 mol/L potassium chloride, 25 C"),
}
"""To be added to what the meter shows."""


def to_she_mv(read_mv: float, *, electrode: Electrode) -> float:
    """The potential against the standard hydrogen electrode, mV: what the meter shows + what its electrode stands
    at."""
    return read_mv + OFFSET_MV[electrode].value
