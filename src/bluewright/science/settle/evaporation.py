"""What open water loses to the air."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Sourced
from bluewright.science.media.water import vapour_pressure_kpa

STILL_AIR: Final = Sourced(
    value=0.089, unit="W/m2/Pa", source="smith-1998", low=0.065, high=0.095, grade="measured",
    note="over still water; 95 Btu/h/ft2/inHg in the source, whose own undisturbed pools lost 74 % of it",
)  # fmt: skip
MOVING_AIR: Final = Sourced(
    value=0.0782, unit="W/m2/Pa/(m/s)", source="smith-1998", low=0.065, high=0.09, grade="measured",
    note="for each m/s of air over the water; 0.425 for each ft/min in the source",
)  # fmt: skip
LATENT_KJ_PER_KG: Final = Sourced(
    value=2454.0, unit="kJ/kg", source="smith-1998", low=2400.0, high=2501.0, grade="memory", note="Y, water at 20 C",
)  # fmt: skip


def evaporation_kg_per_m2_h(*, temp_c: float, humidity_frac: float, wind_m_per_s: float) -> float:
    """Water lost by an open surface as warm as the air, kg for each square metre and hour.

    Formula: W = 3600 (pw - pa) (0.089 + 0.0782 v) / 2454, pressures in kPa; pa is `humidity_frac` times pw. Studied
    for indoor pools, air from 0 to about 2 m/s. Raises InputError where water is not liquid. Source: W. H. Carrier
    1918, as printed by C. C. Smith, G. O. G. Lof and R. W. Jones, ASHRAE Transactions 104 (1998).
    """
    deficit_kpa = (1 - humidity_frac) * vapour_pressure_kpa(temp_c)
    return 3600 * deficit_kpa * (STILL_AIR.value + MOVING_AIR.value * wind_m_per_s) / LATENT_KJ_PER_KG.value
