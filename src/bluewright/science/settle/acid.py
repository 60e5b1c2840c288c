"""The acid wash that frees limed pigment of lime and calcite: how much acid, and in which parts."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from bluewright.science.base.bands import NINETY_Z, Band, band, significant
from bluewright.science.base.cautions import Caution, those_that_hold
from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.base.units import GAS_CONSTANT_J_PER_MOL_K, kelvin
from bluewright.science.media.acids import FAMILIES
from bluewright.science.media.calcite import ACETIC_G_PER_MOL, CALCITE_G_PER_MOL, LIME_G_PER_MOL, VINEGAR_PERCENT
from bluewright.science.media.water import density_kg_per_m3
from bluewright.science.settle.acid_record import Acid, AcidAnswer, AcidPart, AcidRecord

DRAWS = 2000


HYDROCHLORIC_G_PER_MOL: Final = Sourced(
    value=36.458, unit="g/mol", source="iupac-atomic-weights-2021", low=36.45, high=36.47, grade="exact"
)
ACETIC_PK: Final = FAMILIES["acetic"].steps[0].at_25
"""It hardly moves between 0 and 40 C."""
HYDROCHLORIC_DENSITY_RISE: Final = Sourced(
    value=0.00495, unit="kg/L/%", source="laliberte-2009", low=0.0048, high=0.0051, grade="memory",
    note="kg/L gained for each percent by mass, at 20 C; within 0.3 % up to 37 %",
)  # fmt: skip
HYDROCHLORIC_DONE_PH: Final = Sourced(
    value=4.0, unit="pH", source="common-practice", low=3.0, high=4.5, grade="practice",
    note="stays below it for ten minutes",
)  # fmt: skip
STRENGTH_ERROR: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.06, unit="1", source="common-practice", grade="guess",
    note="true strength over the label's, with the measuring of it",
)  # fmt: skip
CALCITE_ERROR: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.25, unit="1", source="common-practice", grade="guess",
    note="where a mass of calcite is given without a range",
)  # fmt: skip
EXCESS: Final = (0.20, 0.35, 0.50)
"""Steps of excess over what is used up (common practice: a fifth to a half)."""


def acid_mol_per_l(acid: Acid) -> float:
    """Strength of the acid of a label, mol/L.

    Formula: vinegar 10 p / 60.05 (p grams in 100 mL); hydrochloric 10 p rho / 36.46 (p percent by mass, rho kg/L).
    """
    if acid.kind == "vinegar":
        return 10 * (acid.percent_w_v or VINEGAR_PERCENT.value) / ACETIC_G_PER_MOL.value
    percent = acid.percent_w_w or 0.0
    density = density_kg_per_m3(20.0) / 1000.0 + HYDROCHLORIC_DENSITY_RISE.value * percent
    return 10 * percent * density / HYDROCHLORIC_G_PER_MOL.value


def acid_demand_mmol(*, calcite_g: Floats | float, lime_g: Floats | float) -> Floats:
    """Acid used up, mmol of H+ (shapes broadcast): two for each CaCO3 and each Ca(OH)2; 20.0 and 27.0 mmol/g."""
    return np.asarray(2000 * (calcite_g / CALCITE_G_PER_MOL.value + lime_g / LIME_G_PER_MOL.value))


def acid_wash(record: AcidRecord, *, rng: np.random.Generator) -> AcidAnswer:
    """Acid in parts for the calcite and lime of a pigment, its gas, and what pigment is left.

    Formula: CaCO3 + 2 H+ -> Ca2+ + CO2 + H2O; Ca(OH)2 + 2 H+ -> Ca2+ + 2 H2O. Raises InputError (from the
    record). Source: stoichiometry; the excess and the parts are common practice.
    """
    calcite_g, lime_g = _minerals_g(record, rng)
    strength = acid_mol_per_l(record.acid) * STRENGTH_ERROR.draw(rng, DRAWS)
    exact = band(acid_demand_mmol(calcite_g=calcite_g, lime_g=lime_g) / strength)
    litres_per_mol = GAS_CONSTANT_J_PER_MOL_K * kelvin(20.0) / 101.325
    co2 = band(calcite_g / CALCITE_G_PER_MOL.value * litres_per_mol)
    after_g, purity = _pigment_after(record, calcite_g + lime_g)
    return AcidAnswer(
        id=record.id,
        acid_mol_per_l=band(strength),
        exact_ml=exact,
        total_low_ml=significant((1 + EXCESS[0]) * exact.p50, 3),
        total_high_ml=significant((1 + EXCESS[-1]) * exact.p50, 3),
        parts=_parts(exact.p50),
        done_below_ph=_done_below_ph(record.acid),
        co2_l=co2,
        pigment_after_g=after_g,
        indigo_after_frac=purity,
        basis="prior",
        inputs=record,
        cautions=_cautions(record, exact, co2),
        sources=(CALCITE_G_PER_MOL.source, _strength_source(record.acid), STRENGTH_ERROR.source),
    )


def _minerals_g(record: AcidRecord, rng: np.random.Generator) -> tuple[Floats, Floats]:
    """Draws of calcite and lime; a stated range is read as 5 and 95 % points with the middle between, log by log."""
    z = rng.standard_normal(DRAWS)
    spread = np.full(DRAWS, CALCITE_ERROR.spread)
    for end_g, side in ((record.calcite_low_g, z < 0), (record.calcite_high_g, z >= 0)):
        if end_g is not None and record.calcite_g > 0:
            gap = abs(math.log(max(end_g, 1e-3 * record.calcite_g) / record.calcite_g)) / NINETY_Z
            spread = np.where(side, gap, spread)
    return record.calcite_g * np.exp(spread * z), record.lime_g * CALCITE_ERROR.draw(rng, DRAWS)


def _parts(exact_ml: float) -> tuple[AcidPart, ...]:
    """Four quarters of what is used up, then the excess in three steps."""
    totals = [0.25, 0.5, 0.75, 1.0, *(1 + extra for extra in EXCESS)]
    fizz = "pour slowly, stir, wait until the fizz has gone"
    end = "stir; if it fizzes or the pH climbs back within ten minutes, go on; if not, it is done: wash"
    made, before = [], 0.0
    for share in totals:
        total = significant(share * exact_ml, 3)
        made.append(AcidPart(add_ml=significant(total - before, 3), total_ml=total, then=fizz if share < 1 else end))
        before = total
    return tuple(made)


def _strength_source(acid: Acid) -> str:
    return ACETIC_PK.source if acid.kind == "vinegar" else HYDROCHLORIC_DENSITY_RISE.source


def _done_below_ph(acid: Acid) -> float:
    """The pH that shows acid left over: vinegar among its own salt reads pK - log10(excess), far above 4."""
    if acid.kind == "vinegar":
        return round(ACETIC_PK.value - math.log10(EXCESS[1]), 1)
    return HYDROCHLORIC_DONE_PH.value


def _pigment_after(record: AcidRecord, minerals_g: Floats) -> tuple[Band | None, Band | None]:
    """Dry mass and purity once the minerals are gone; draws that hold more mineral than the jar holds are left out."""
    if record.pigment_g is None:
        return None, None
    blue_g = (record.indigo_frac or 0.0) * record.pigment_g
    left_g = record.pigment_g - minerals_g
    left_g = left_g[left_g > max(blue_g, 0.01 * record.pigment_g)]
    if left_g.size < DRAWS // 20:
        return None, None
    return band(left_g), band(blue_g / left_g) if record.indigo_frac is not None else None


def _cautions(record: AcidRecord, exact: Band, co2: Band) -> tuple[Caution, ...]:
    acid = record.acid
    strong = acid.kind == "hydrochloric" or (acid.percent_w_v or 0) > 10
    minerals_g = record.calcite_g + record.lime_g
    said = {
        ("never-bleach", "Never let acid meet bleach or anything with chlorine: it gives off chlorine gas."): True,
        (
            "strong-acid",
            f"{exact.p50:.3g} mL of this acid burns eyes and skin, and its fumes the lungs: goggles, gloves, outdoors. "
            "Thin it first: acid into water, never water into acid. The label and local rules go first.",
        ): strong,
        (
            "fizz",
            f"About {co2.p50:.2g} L of carbon dioxide will foam up: a vessel at most half full, outdoors or with the "
            "windows open, the acid slowly into the pigment.",
        ): record.calcite_g > 0,
        ("eyes", "Goggles: splashing vinegar and lime both hurt eyes. Rinse with water for 15 minutes."): not strong,
        (
            "acids-that-stay",
            "Not citric, oxalic or sulfuric acid: their calcium salts do not dissolve and stay as weight.",
        ): True,
        ("outside-range", "Over nine tenths of this pigment would be mineral: check the masses."): (
            record.pigment_g is not None and minerals_g > 0.9 * record.pigment_g
        ),
    }
    return those_that_hold(said)
