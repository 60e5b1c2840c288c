"""Speed of small things sinking in water: Stokes' law, where it holds, and crowding."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.records import answer
from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.media.water import density_kg_per_m3, viscosity_pa_s

GRAVITY_M_PER_S2: Final = Sourced(
    value=9.80665, unit="m/s2", source="bipm-si", low=9.78, high=9.83, grade="exact", note="standard gravity",
)  # fmt: skip
INDIGO_KG_PER_M3: Final = Sourced(
    value=1475.0, unit="kg/m3", source="susse-indigo", low=1450.0, high=1500.0, grade="memory",
    note="from the unit cells of the two crystal forms, 1.50 and 1.45 g/cm3",
)  # fmt: skip
STOKES_REYNOLDS: Final = Sourced(
    value=0.2, unit="1", source="clift-particles", low=0.1, high=0.5, grade="memory",
    note="above it the drag is more than about 4 % over Stokes'",
)  # fmt: skip
CROWDING: Final = Sourced(
    value=4.65, unit="1", source="richardson-zaki", low=4.6, high=4.8, grade="memory",
    note="exponent for Reynolds numbers below 0.2",
)  # fmt: skip
MM_PER_H = 3.6e6
"""Millimetres an hour in one metre a second (exact)."""


@answer
class Sinking:
    """How fast one grain sinks by Stokes' law, and whether the law holds."""

    fall_mm_per_h: float
    """Speed, alone in still water."""
    reynolds: float
    """Reynolds number of the sinking grain."""
    valid: bool
    """Whether the Reynolds number is small enough for Stokes' law."""


def stokes(*, size_um: float, grain_kg_per_m3: float, temp_c: float) -> Sinking:
    """One round grain alone in still water.

    Formula: v = (rho_grain - rho_water) g d^2 / (18 mu); Re = rho_water v d / mu, valid below 0.2. A grain lighter
    than water gives a negative speed (it rises). `size_um` is the diameter d; rho and mu of water at `temp_c`, which
    raises InputError outside its range. Source: G. G. Stokes, Trans. Cambridge Philos. Soc. 9 (1851) 8.
    """
    water, viscosity = density_kg_per_m3(temp_c), viscosity_pa_s(temp_c)
    size_m = size_um * 1e-6
    fall = (grain_kg_per_m3 - water) * GRAVITY_M_PER_S2.value * size_m**2 / (18 * viscosity)
    reynolds = water * abs(fall) * size_m / viscosity
    return Sinking(fall_mm_per_h=fall * MM_PER_H, reynolds=reynolds, valid=reynolds < STOKES_REYNOLDS.value)


def crowding_factor(solids_frac: Floats) -> Floats:
    """By how much a crowd sinks slower than one grain alone, at the volume share `solids_frac` (any shape).

    Formula: (1 - phi)^4.65. Source: J. F. Richardson and W. N. Zaki, Trans. Inst. Chem. Eng. 32 (1954) 35.
    """
    return (1 - solids_frac) ** CROWDING.value


def grain_um(fall_mm_per_h: Floats, *, temp_c: float) -> Floats:
    """Diameter of the single indigo grain that Stokes' law gives the speed `fall_mm_per_h` (any shape).

    Formula: d = sqrt(18 mu v / ((rho_indigo - rho_water) g)). Loose flocs of the same speed are many times larger.
    """
    excess = INDIGO_KG_PER_M3.value - density_kg_per_m3(temp_c)
    return 1e6 * np.sqrt(18 * viscosity_pa_s(temp_c) * fall_mm_per_h / MM_PER_H / (excess * GRAVITY_M_PER_S2.value))


def cold_factor(temp_c: float) -> float:
    """Sinking speed at `temp_c` over that at 20 C: the ratio of the viscosities."""
    return viscosity_pa_s(20.0) / viscosity_pa_s(temp_c)
