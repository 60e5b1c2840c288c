"""How much of each a vat takes, over the possible jars, waters and tins."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.errors import ModelError
from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.media.alkalis import KINDS as ALKALIS
from bluewright.science.media.calcite import NEAR_LIME_PH, lime_water_ph
from bluewright.science.media.cloth import FIXED_FRAC, FIXED_OF_DRAWN_FRAC, REDUCES_FRAC, WORKING_G_PER_L, dry_kg
from bluewright.science.media.dosing import mol_for_ph
from bluewright.science.media.dry_pigment import MOISTURE_FRAC
from bluewright.science.media.oxygen import OXYGEN_G_PER_MOL, saturation_mg_per_l
from bluewright.science.media.purity import PURITY, known_share
from bluewright.science.media.stoichiometry import MOLAR_MASS_G_PER_MOL
from bluewright.science.media.tub import surface_m2
from bluewright.science.vat.balance import ROOM_C, Contents, liquid
from bluewright.science.vat.kinds import KINDS, VatAlkali, family
from bluewright.science.vat.priors import (
    AIR_FILM_M_PER_H,
    BRAN_ACID_MOL_PER_KG,
    COVERED_FRAC,
    FEED_G_PER_G,
    LIME_RESERVE,
    LOW_FEED_G_PER_L,
    SUGAR_ACIDS,
    WATER_ALKALINITY_MG_CACO3_L,
    WATER_HARDNESS_MG_CACO3_L,
)
from bluewright.science.vat.recipe_record import VatRecipeRecord
from bluewright.science.vat.redox import REDUCTANTS

DRAWS: Final = 600
LEAST_REACHED: Final = 0.9
"""Share of the possible vats that the alkali must bring to the pH; those beyond get what the worst other takes."""
HIGH_SODA_PH: Final = Sourced(
    value=10.3, unit="pH", source="plummer-busenberg-1982", low=10.0, high=11.0, grade="practice",
    note="from here on soda, which buffers here, takes so much that lye is the usual choice",
)  # fmt: skip
INDIGO_G_PER_MOL: Final = MOLAR_MASS_G_PER_MOL["indigo"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Amounts:
    """What a vat takes, for each member; arrays of shape (members,)."""

    powder_g: Floats
    """Powder that brings it, beyond the heel."""
    pure_g: Floats
    """Pure indigo in it if the middle of the powder is weighed."""
    reduces_frac: Floats
    for_cloth_g: Floats | None
    reductant_g: Floats
    reductant_mol: Floats
    oxygen_mg: Floats
    oxygen_share_frac: Floats
    alkali_g: Floats
    alkali_mol: Floats
    feed_g: float
    purity_frac: Floats


def alkali_of(record: VatRecipeRecord, *, target_ph: float) -> VatAlkali:
    """The alkali as chosen, or the usual one: lye where a high pH is wanted; for wool and silk no lime if soda does."""
    if record.alkali is not None:
        return record.alkali
    usual = KINDS[record.kind].alkalis
    if usual[0] == "slaked_lime" and "soda_ash" in usual and family(record.fibre) != "cellulose":
        return "soda_ash"
    return "lye" if usual[0] == "soda_ash" and "lye" in usual and target_ph > HIGH_SODA_PH.value else usual[0]


def amounts(record: VatRecipeRecord, *, alkali: VatAlkali, target_ph: float, rng: np.random.Generator) -> Amounts:
    """What the vat takes, over the possible jars, waters and tins; raises ModelError where
    the alkali cannot bring so strong a vat to the pH."""
    purity = _purity_frac(record, rng)
    reduces = REDUCES_FRAC.draw(rng, DRAWS)
    for_cloth = _for_cloth_g(record, rng)
    wanted = _wanted_g(record, reduces, for_cloth)
    heel = _heel_draws_g(record, rng)
    powder = np.maximum(wanted - heel, 0.0) / purity
    pure = heel + float(np.median(powder)) * purity
    oxygen = _oxygen_mg(record, rng)
    to_reduce = (
        np.maximum(pure - (heel if record.heel is not None and record.heel.reduced else 0.0), 0.0) / INDIGO_G_PER_MOL
    )
    excess = excess_of(record) or 1.0
    reduces = reduces * min(excess, 1.0)
    on_indigo, on_air = _reductant_mol(record, to_reduce, oxygen)
    beyond = on_indigo * max(excess - 1.0, 0.0)
    on_indigo = on_indigo * min(excess, 1.0)
    total = on_indigo + beyond + on_air
    feed = _feed_g(record, powder)
    # What is left over meets air in the end, and its acids must be borne too; of sugar they are counted apart.
    contents = Contents(
        leuco_mol_per_l=pure * reduces / INDIGO_G_PER_MOL / record.volume_l,
        on_indigo_mol_per_l=on_indigo / record.volume_l,
        on_air_mol_per_l=(on_air + (0.0 if record.kind == "fructose" else beyond)) / record.volume_l,
        acids_mol_per_l=_acids_mol(record, total, feed, rng) / record.volume_l,
        alkalinity_mg_caco3_l=_water(record.water.alkalinity_mg_caco3_l, WATER_ALKALINITY_MG_CACO3_L, rng),
        hardness_mg_caco3_l=_water(record.water.hardness_mg_caco3_l, WATER_HARDNESS_MG_CACO3_L, rng),
    )
    moles = _alkali_mol_per_l(record, contents, alkali, target_ph) * record.volume_l
    own = ALKALIS[alkali]
    return Amounts(
        powder_g=powder, pure_g=pure, reduces_frac=reduces, for_cloth_g=for_cloth,
        reductant_g=_as_sold_g(record, total, rng), reductant_mol=total, oxygen_mg=oxygen,
        oxygen_share_frac=on_air / np.maximum(total, 1e-12), alkali_mol=moles,
        alkali_g=moles * own.molar.value / own.purity.draw(rng, DRAWS), feed_g=feed, purity_frac=purity,
    )  # fmt: skip


def powder_frac(record: VatRecipeRecord) -> tuple[Prior, Prior]:
    """What is believed of the jar: indigo in its dry mass, and its moisture."""
    pigment = record.pigment
    purity = PURITY[pigment.make][pigment.plant] if pigment.purity is None else known_share(pigment.purity)
    if pigment.moisture_frac is None:
        return purity, MOISTURE_FRAC
    return purity, Prior(
        kind="normal", centre=pigment.moisture_frac, spread=0.0, unit="1", source="common-practice", grade="exact"
    )


def _purity_frac(record: VatRecipeRecord, rng: np.random.Generator) -> Floats:
    """Pure indigo in a gram of powder as weighed."""
    purity, moisture = powder_frac(record)
    return purity.draw(rng, DRAWS) * (1.0 - moisture.draw(rng, DRAWS))


def _for_cloth_g(record: VatRecipeRecord, rng: np.random.Generator) -> Floats | None:
    """Pure indigo that the cloth takes out of the vat: fixed / (fixed of drawn)."""
    if record.cloth_kg is None or record.depth is None:
        return None
    fixed = FIXED_FRAC[record.fibre][record.depth].draw(rng, DRAWS)
    drawn = fixed / FIXED_OF_DRAWN_FRAC[record.fibre].draw(rng, DRAWS)
    return 1000.0 * dry_kg(record.cloth_kg, fibre=record.fibre) * drawn


def _wanted_g(record: VatRecipeRecord, reduces: Floats, for_cloth: Floats | None) -> Floats:
    """Pure indigo in the vat: as typed, or the working strength of the depth and what the cloth takes, over what
    reduces."""
    if record.wanted_g_per_l is not None or record.depth is None:
        return np.full(DRAWS, (record.wanted_g_per_l or 0.0) * record.volume_l)
    standing = WORKING_G_PER_L[record.depth].centre * record.volume_l
    return (standing + (0.0 if for_cloth is None else for_cloth)) / reduces


def heel_g(record: VatRecipeRecord) -> float:
    """Pure indigo that is in the vat already, the middle."""
    return 0.0 if record.heel is None else record.heel.pure_g


def _heel_draws_g(record: VatRecipeRecord, rng: np.random.Generator) -> Floats:
    spread = 0.0 if record.heel is None else record.heel.pure_sd_g
    return np.maximum(heel_g(record) + spread * rng.standard_normal(DRAWS), 0.0)


def _oxygen_mg(record: VatRecipeRecord, rng: np.random.Generator) -> Floats:
    """Oxygen of the fresh water, and what the open surface lets in until the vat is used: film x saturation x area x
    time."""
    fresh_l = record.volume_l - (0.0 if record.heel is None else record.heel.volume_l)
    kind = KINDS[record.kind]
    stand_h = kind.ready_h.centre if record.stand_h is None else record.stand_h
    if record.kind == "ferment" and record.stand_h is None:
        stand_h = 0.0  # what ferments keeps the air out by itself
    area_m2 = record.surface_m2 or surface_m2(record.volume_l)
    warm_mg_l = saturation_mg_per_l(kind.reduce_c.value)
    entered = 1000.0 * COVERED_FRAC.value * AIR_FILM_M_PER_H.draw(rng, DRAWS) * warm_mg_l * area_m2 * stand_h
    return entered + saturation_mg_per_l(record.water.temp_c) * fresh_l


def _reductant_mol(record: VatRecipeRecord, to_reduce_mol: Floats, oxygen_mg: Floats) -> tuple[Floats, Floats]:
    """Moles that the indigo takes, and that the oxygen takes."""
    name = KINDS[record.kind].reductant
    if name is None:
        return np.zeros(DRAWS), np.zeros(DRAWS)
    own = REDUCTANTS[name]
    return own.mol_per_indigo * to_reduce_mol, own.mol_per_oxygen * oxygen_mg / 1000.0 / OXYGEN_G_PER_MOL.value


def excess_of(record: VatRecipeRecord) -> float | None:
    """Reductant over what the indigo alone takes: as typed, or usual for the kind; None for what ferments."""
    usual = KINDS[record.kind].excess
    return record.excess_factor if record.excess_factor is not None else None if usual is None else usual.value


def _as_sold_g(record: VatRecipeRecord, mol: Floats, rng: np.random.Generator) -> Floats:
    name = KINDS[record.kind].reductant
    if name is None:
        return np.zeros(DRAWS)
    own = REDUCTANTS[name]
    kept = record.reductant_purity_frac or own.kept[record.reductant_opened].draw(rng, DRAWS)
    return mol * own.molar_g_per_mol / kept


def _feed_g(record: VatRecipeRecord, powder: Floats) -> float:
    """Madder, and as much bran, that feeds a fermented vat."""
    if record.kind != "ferment":
        return 0.0
    return max(FEED_G_PER_G.value * float(np.median(powder)), LOW_FEED_G_PER_L.value * record.volume_l)


def _acids_mol(record: VatRecipeRecord, reductant_mol: Floats, feed_g: float, rng: np.random.Generator) -> Floats:
    """Acids beside those of the reduction itself: of sugar in hot alkali, of bran."""
    if record.kind == "fructose":
        return reductant_mol * SUGAR_ACIDS.draw(rng, DRAWS)
    return feed_g / 1000.0 * BRAN_ACID_MOL_PER_KG.draw(rng, DRAWS) if record.kind == "ferment" else np.zeros(DRAWS)


def _water(given: float | None, prior: Prior, rng: np.random.Generator) -> Floats:
    drawn = prior.draw(rng, DRAWS)
    return drawn if given is None else np.full(DRAWS, given)


def _alkali_mol_per_l(record: VatRecipeRecord, contents: Contents, alkali: VatAlkali, target_ph: float) -> Floats:
    """Moles of the alkali in a litre; of lime a quarter more, which stays in the sludge."""
    highest_ph = lime_water_ph(ROOM_C) - NEAR_LIME_PH
    if alkali == "slaked_lime" and target_ph > highest_ph:
        raise ModelError(
            f"slaked lime cannot reach pH {target_ph:g}: saturated lime water itself stands at about "
            f"{lime_water_ph(ROOM_C):.1f}; choose a lower target_ph"
        )
    made = liquid(contents, reductant=KINDS[record.kind].reductant)
    moles = np.maximum(mol_for_ph(made, kind=ALKALIS[alkali], ph=target_ph, litres_per_mol=0.0), 0.0)
    reached = np.isfinite(moles)
    if np.mean(reached) < LEAST_REACHED:
        raise ModelError(
            f"{ALKALIS[alkali].words} cannot bring so strong a vat to pH {target_ph:g}; choose a lower target_ph, "
            "another alkali, or a weaker vat"
        )
    moles = np.where(reached, moles, np.max(moles[reached]))
    return moles * (LIME_RESERVE.value if alkali == "slaked_lime" else 1.0)
