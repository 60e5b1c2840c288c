"""Ammonia: how strong a bottle is, how much of it is free gas in the liquor, and what the air above takes up."""

from __future__ import annotations

from typing import Final, Literal

import numpy as np

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.base.units import GAS_CONSTANT_J_PER_MOL_K, KELVIN_OFFSET
from bluewright.science.base.validity import Studied
from bluewright.science.media.acids import pk
from bluewright.science.media.solutions import density_kg_per_l
from bluewright.science.media.water import FloatOrArray, liquid

Label = Literal["nh3", "nh4oh"]
"""What the percentage on a label counts: ammonia itself, or the old name ammonium hydroxide."""

AMMONIA_G_PER_MOL: Final = Sourced(
    value=17.031, unit="g/mol", source="iupac-atomic-weights-2021", low=17.030, high=17.032, grade="exact"
)
HYDROXIDE_G_PER_MOL: Final = Sourced(
    value=35.046, unit="g/mol", source="iupac-atomic-weights-2021", low=35.045, high=35.047, grade="exact",
    note="NH4OH: ammonia and one water",
)  # fmt: skip

STRENGTH: Final[dict[str, Prior]] = {
    "sealed": Prior(
        kind="lognormal", centre=1.0, spread=0.05, unit="1", source="common-practice", grade="practice",
        note="a fresh bottle against its label",
    ),
    "opened": Prior(
        kind="lognormal", centre=0.90, spread=0.15, unit="1", source="common-practice", grade="practice",
        note="an opened bottle loses strength; titrate it to know",
    ),
}  # fmt: skip
"""True strength over the strength on the label."""

HENRY: Final = Sourced(
    value=0.59, unit="mol/(m3 Pa)", source="sander-2023", low=0.55, high=0.62, grade="measured", note="at 25 C"
)
HENRY_WARMTH: Final = Sourced(
    value=4200.0, unit="K", source="sander-2023", low=4000.0, high=4400.0, grade="measured",
    note="d ln H / d(1/T)",
)  # fmt: skip

GAS_FILM_MM_PER_S: Final = Prior(
    kind="lognormal", centre=5.0, spread=0.4, unit="mm/s", source="ni-1999", grade="memory",
    note="how fast still indoor air takes ammonia off a surface: 3 to 10 mm/s",
)  # fmt: skip

STUDIED_C: Final = Studied(low=0.0, high=60.0, unit="C", source="sander-2023")

EXPOSURE_PPM: Final[dict[str, Sourced]] = {
    "eight_hours": Sourced(
        value=25.0, unit="ppm", source="niosh-ammonia", low=20.0, high=50.0, grade="measured",
        note="NIOSH and ACGIH 25; European Union 20; OSHA 50",
    ),
    "fifteen_minutes": Sourced(
        value=35.0, unit="ppm", source="niosh-ammonia", low=35.0, high=50.0, grade="measured",
        note="NIOSH and ACGIH 35; European Union 50",
    ),
    "danger_to_life": Sourced(
        value=300.0, unit="ppm", source="niosh-ammonia", low=300.0, high=300.0, grade="measured", note="NIOSH IDLH"
    ),
    "smell": Sourced(
        value=5.0, unit="ppm", source="niosh-ammonia", low=0.04, high=57.0, grade="memory",
        note="where most people begin to smell it; the nose tires",
    ),
}  # fmt: skip
"""Limits for ammonia in workplace air. Local law may be stricter and goes first."""


def ammonia_mol_per_l(percent_w_w: float, *, temp_c: float = 20.0, label_as: Label = "nh3") -> float:
    """Strength of an ammonia solution in mol/L from the percentage by mass on its label.

    Formula: 10 w rho / 17.031, w the percentage as NH3 (a label in NH4OH counts 17.031/35.046 = 0.486 of it), rho in
    kg/L at `temp_c`. Studied up to 30 % and from 0 to 40 C. Raises InputError outside 0 to 35 %.
    Source: density of Laliberte 2009 (`solutions`).
    """
    if not 0 < percent_w_w <= 35:
        raise InputError(
            where="percent_w_w",
            what=f"{percent_w_w:g} % is not a strength of ammonia solution",
            right="more than 0 and at most 35 % by mass; household ammonia is 2 to 10 %",
        )
    share = AMMONIA_G_PER_MOL.value / HYDROXIDE_G_PER_MOL.value if label_as == "nh4oh" else 1.0
    true_frac = percent_w_w / 100.0 * share
    return 1000.0 * true_frac * density_kg_per_l(true_frac, solute="ammonia", temp_c=temp_c) / AMMONIA_G_PER_MOL.value


def free_frac(ph: FloatOrArray, *, temp_c: FloatOrArray) -> FloatOrArray:
    """Share of dissolved ammonia that is free NH3 (the rest is ammonium, which does not evaporate).

    Formula: 1 / (1 + 10^(pK(T) - pH)), activities left out (they move pK by less than 0.1 in liquor).
    Shapes: those of the arguments together. Studied from 0 to 60 C. Raises InputError where water is not liquid.
    Source: Bates & Pinching 1949.
    """
    found: FloatOrArray = 1.0 / (1.0 + 10.0 ** (pk("ammonia", temp_c=temp_c) - ph))
    return found


def air_water_ratio(temp_c: FloatOrArray) -> FloatOrArray:
    """Free NH3 in air over free NH3 in the water below it at balance, both in mol/m3 (no unit): K_aw.

    Formula: 1 / (H R T), H = 0.59 exp(4200 (1/T - 1/298.15)) mol/(m3 Pa). Shapes: as `temp_c`.
    Studied from 0 to 60 C. Raises InputError where water is not liquid. Source: Sander 2023, Atmos. Chem. Phys. 23.
    """
    absolute_k = liquid(temp_c) + KELVIN_OFFSET
    henry = HENRY.value * np.exp(HENRY_WARMTH.value * (1.0 / absolute_k - 1.0 / 298.15))
    found: FloatOrArray = 1.0 / (henry * GAS_CONSTANT_J_PER_MOL_K * absolute_k)
    return found


def gas_ppm(mol_per_m3: FloatOrArray, *, temp_c: FloatOrArray) -> FloatOrArray:
    """Parts per million by volume of a gas at one atmosphere from its moles in a cubic metre of air.

    Formula: 1e6 c R T / P. Shapes: those of the arguments together. Source: the ideal gas.
    """
    return 1e6 * mol_per_m3 * GAS_CONSTANT_J_PER_MOL_K * (temp_c + KELVIN_OFFSET) / 101_325.0
