"""Oxygen: how much a litre holds in balance with the air above it, from temperature, pressure and salt."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Sourced
from bluewright.science.base.units import GAS_CONSTANT_J_PER_MOL_K, KELVIN_OFFSET
from bluewright.science.base.validity import Studied
from bluewright.science.media.water import FloatOrArray, liquid

ATMOSPHERE_KPA: Final = 101.325
OXYGEN_G_PER_MOL: Final = Sourced(
    value=31.998, unit="g/mol", source="iupac-atomic-weights-2021", low=31.998, high=31.999, grade="exact",
    note="twice the abridged atomic weight 15.999",
)  # fmt: skip

STUDIED: Final[dict[str, Studied]] = {
    "temp_c": Studied(low=0.0, high=40.0, unit="C", source="benson-krause-1984"),
    "salinity_g_per_kg": Studied(low=0.0, high=40.0, unit="g/kg", source="benson-krause-1984"),
    "pressure_kpa": Studied(low=50.0, high=112.0, unit="kPa", source="benson-krause-1984"),
    "altitude_m": Studied(low=-500.0, high=11_000.0, unit="m", source="iso-2533"),
}
"""What the solubility and the standard atmosphere were studied for; warmer liquor is an extrapolation."""


def _bk(value: float, unit: str) -> Sourced:
    return Sourced(value=value, unit=unit, source="benson-krause-1984", low=value, high=value, grade="measured")


FRESH: Final = (
    _bk(-139.34411, "1"),
    _bk(1.575701e5, "K"),
    _bk(-6.642308e7, "K2"),
    _bk(1.243800e10, "K3"),
    _bk(-8.621949e11, "K4"),
)
"""Coefficients of T^0, T^-1 ... T^-4 of ln C (mg/L) in fresh water."""

SALT: Final = (_bk(-0.017674, "kg/g"), _bk(10.754, "K kg/g"), _bk(-2140.7, "K2 kg/g"))
"""Coefficients of S T^0, S T^-1, S T^-2 of ln C, S in g/kg."""

VAPOUR: Final = (_bk(11.8571, "1"), _bk(-3840.70, "K"), _bk(-216961.0, "K2"))
"""Coefficients of T^0, T^-1, T^-2 of ln of the vapour pressure (atm) that goes with the pressure correction."""

SECOND_VIRIAL: Final = (_bk(0.000975, "1/atm"), _bk(-1.426e-5, "1/atm/C"), _bk(6.436e-8, "1/atm/C2"))
"""Coefficients of t^0, t^1, t^2 of theta, the small departure of oxygen from an ideal gas."""


def saturation_mg_per_l(
    temp_c: FloatOrArray, *, pressure_kpa: float = ATMOSPHERE_KPA, salinity_g_per_kg: float = 0.0
) -> FloatOrArray:
    """Dissolved oxygen in balance with moist air at `pressure_kpa`, mg/L.

    Formula: C = exp(sum a_i T^-i + S sum b_i T^-i) * P (1 - Pw/P)(1 - theta P) / ((1 - Pw)(1 - theta)),
    P in atm, T in K. Shapes: as `temp_c`. Studied from 0 to 40 C and 0 to 40 g/kg of salt (`STUDIED`), within 0.1 %.
    Raises InputError for a temperature or pressure at which the water is not liquid, or salinity below 0.
    Source: Benson & Krause 1984, Limnol. Oceanogr. 29, 620 (the equations in mg/L, fresh and salt water, pressure).
    """
    _check_salt(salinity_g_per_kg)
    kelvins = liquid(temp_c) + KELVIN_OFFSET
    log_c = _power_series(kelvins, FRESH) + salinity_g_per_kg * _power_series(kelvins, SALT)
    at_sea: FloatOrArray = np.exp(log_c)
    return at_sea * pressure_factor(temp_c, pressure_kpa=pressure_kpa)


def saturation_mmol_per_l(
    temp_c: FloatOrArray, *, pressure_kpa: float = ATMOSPHERE_KPA, salinity_g_per_kg: float = 0.0
) -> FloatOrArray:
    """Dissolved oxygen in balance with moist air, mmol/L: `saturation_mg_per_l` over the molar mass of oxygen."""
    found = saturation_mg_per_l(temp_c, pressure_kpa=pressure_kpa, salinity_g_per_kg=salinity_g_per_kg)
    return found / OXYGEN_G_PER_MOL.value


def pressure_factor(temp_c: FloatOrArray, *, pressure_kpa: float) -> FloatOrArray:
    """What a pressure does to the saturation: 1 at one atmosphere, 0 where the water boils; no unit.

    Formula: P (1 - Pw/P)(1 - theta P) / ((1 - Pw)(1 - theta)), P and Pw in atm. Shapes: as `temp_c`.
    Raises InputError if the water boils at this pressure. Source: Benson & Krause 1984.
    """
    pressure = pressure_kpa / ATMOSPHERE_KPA
    vapour: FloatOrArray = np.exp(_power_series(temp_c + KELVIN_OFFSET, VAPOUR))
    if not np.all(np.asarray(vapour) < min(pressure, 1.0)):
        raise InputError(
            where="temp_c",
            what=f"water boils at {float(np.max(temp_c)):g} C and {pressure_kpa:g} kPa",
            right="give a temperature below boiling, and the pressure in kPa (about 101 near the sea)",
        )
    theta = SECOND_VIRIAL[0].value + SECOND_VIRIAL[1].value * temp_c + SECOND_VIRIAL[2].value * temp_c * temp_c
    return (pressure - vapour) * (1.0 - theta * pressure) / ((1.0 - vapour) * (1.0 - theta))


# --- the standard atmosphere ---------------------------------------------------------------------------------------


def _iso(value: float, unit: str) -> Sourced:
    return Sourced(value=value, unit=unit, source="iso-2533", low=value, high=value, grade="exact")


SEA_LEVEL_K: Final = _iso(288.15, "K")
LAPSE_K_PER_M: Final = _iso(0.0065, "K/m")
GRAVITY_M_PER_S2: Final = _iso(9.80665, "m/s2")
AIR_KG_PER_MOL: Final = _iso(0.0289644, "kg/mol")


def pressure_at_kpa(altitude_m: float) -> float:
    """Mean air pressure at a height above the sea, kPa (the weather moves it by about 3 % either way).

    Formula: 101.325 (1 - L h / T0)^(g M / (R L)), T0 288.15 K, L 6.5 K/km. Studied from -500 to 11,000 m.
    Raises InputError outside that. Source: ISO 2533:1975 (standard atmosphere, troposphere).
    """
    if not STUDIED["altitude_m"].holds(altitude_m):
        raise InputError(
            where="altitude_m",
            what=f"{altitude_m:g} m is not a place to stand",
            right="give the height above the sea in metres, from -500 to 11000",
        )
    exponent = GRAVITY_M_PER_S2.value * AIR_KG_PER_MOL.value / (GAS_CONSTANT_J_PER_MOL_K * LAPSE_K_PER_M.value)
    return ATMOSPHERE_KPA * float((1.0 - LAPSE_K_PER_M.value * altitude_m / SEA_LEVEL_K.value) ** exponent)


def _power_series(kelvins: FloatOrArray, coefficients: tuple[Sourced, ...]) -> FloatOrArray:
    """Sum of c_i T^-i."""
    total: FloatOrArray = 0.0 * kelvins
    for coefficient in reversed(coefficients):
        total = total / kelvins + coefficient.value
    return total


def _check_salt(salinity_g_per_kg: float) -> None:
    if not 0.0 <= salinity_g_per_kg <= 300.0:
        raise InputError(
            where="salinity_g_per_kg",
            what=f"{salinity_g_per_kg:g} g/kg of salt is not possible here",
            right="give grams of dissolved salts in a kilogram of liquor, 0 to 300",
        )
