"""The possible liquors: from standard scores to solutions of acids, all of them with the pH that was read."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from statistics import NormalDist
from typing import Final

import numpy as np

from bluewright.science.alkali import priors
from bluewright.science.alkali.record import LiquorRecord
from bluewright.science.base.sourced import Floats
from bluewright.science.media.calcite import CALCITE_G_PER_MOL
from bluewright.science.media.charge import Constants, Liquid, constants, strong_at_ph

FAMILIES: Final = ("carbonic", "lactic", "acetic", "phosphate_middle", "phenolic_low", "phenolic_high", "ammonia")

SCORES: Final = (
    "lactic", "acetic", "carbonic", "phosphate_middle", "phenolic_low", "phenolic_high", "kept_co2", "alkalinity",
    "hardness", "calcite", "temp", "bias", "reading", "strength", "jar_strength", "jar_volume", "tub_volume",
    "transfer",
)  # fmt: skip
"""What is uncertain, each as a standard-normal score: one row of an array of shape (18, members)."""

LOWEST_PH, HIGHEST_PH = 1.0, 13.5
"""No liquor lies beyond; only a wild draw of an instrument's error would go there."""

ROW: Final = {name: row for row, name in enumerate(SCORES)}


@dataclass(frozen=True, slots=True, kw_only=True)
class Liquors:
    """Possible liquors at the temperature of the tub, and the temperature of each (shape (members,))."""

    liquid: Liquid
    temp_c: Floats
    bias_ph: Floats
    """How much the instrument reads too high."""


def latin_scores(rng: np.random.Generator, members: int) -> Floats:
    """Standard-normal scores, shape (18, members): each row is the same even set in its own random order."""
    even = _even_scores(members)
    return np.stack([even[rng.permutation(members)] for _ in SCORES])


@lru_cache(maxsize=4)
def _even_scores(members: int) -> Floats:
    normal = NormalDist()
    return np.array([normal.inv_cdf((k + 0.5) / members) for k in range(members)])


def reading_sds(record: LiquorRecord) -> tuple[float, float]:
    """Standard deviations of a pH reading: the part shared by all readings of the instrument, and each one's own."""
    share = priors.BIAS_SHARE.value
    own = record.ph_sd * (1.0 - share**2) ** 0.5
    return share * record.ph_sd, float(np.hypot(own, priors.MODEL_PH_SD.value))


def temp_draws(z: Floats, *, nominal_c: float | None) -> Floats:
    """Temperatures of the liquor, C: the reading and its thermometer's error, or the season's guess."""
    row: Floats = z[ROW["temp"]]
    if nominal_c is None:
        return priors.UNREAD_TEMP_C.from_z(row)
    return nominal_c + priors.THERMOMETER_SD_C.value * row


def liquors(record: LiquorRecord, z: Floats) -> Liquors:
    """The liquors at standard scores `z` (shape (18, members)).

    Totals are the leaf's acids and what is left of the water's carbonate; the strong ions follow from the pH read
    before any alkali (or its prior), less the instrument's bias.
    """
    shared_sd, own_sd = reading_sds(record)
    temp_c = temp_draws(z, nominal_c=record.temp_c)
    bias_ph = shared_sd * z[ROW["bias"]]
    if record.ph is None:
        start_ph = priors.START_PH.from_z(z[ROW["reading"]])
    else:
        start_ph = record.ph - bias_ph - own_sd * z[ROW["reading"]]
    start_ph = np.clip(start_ph, LOWEST_PH, HIGHEST_PH)
    calcium, carbonate = _from_water(record, z)
    totals = _from_leaf(record, z)
    totals["carbonic"] = totals["carbonic"] + carbonate
    nothing = np.zeros(z.shape[1])
    closed = Liquid(
        constants=constants(temp_c, families=FAMILIES),
        totals_mol_per_l=totals,
        strong_mol_per_l=nothing,
        calcium_mol_per_l=calcium,
        calcite_frac=nothing,
        spectator_mol_per_l=priors.SPECTATOR_MOL_PER_L.value,
    )
    liquid = Liquid(
        constants=closed.constants,
        totals_mol_per_l=totals,
        strong_mol_per_l=strong_at_ph(closed, ph=start_ph),
        calcium_mol_per_l=calcium,
        calcite_frac=priors.CALCITE_SHARE.from_z(z[ROW["calcite"]]),
        spectator_mol_per_l=closed.spectator_mol_per_l,
    )
    return Liquors(liquid=liquid, temp_c=temp_c, bias_ph=bias_ph)


def at_temperature(liquid: Liquid, found: Constants) -> Liquid:
    """The same liquor, warmer or colder."""
    return Liquid(
        constants=found,
        totals_mol_per_l=liquid.totals_mol_per_l,
        strong_mol_per_l=liquid.strong_mol_per_l,
        calcium_mol_per_l=liquid.calcium_mol_per_l,
        calcite_frac=liquid.calcite_frac,
        spectator_mol_per_l=liquid.spectator_mol_per_l,
    )


def _from_leaf(record: LiquorRecord, z: Floats) -> dict[str, Floats]:
    usual = priors.USUAL_LEAF_KG_PER_L.value
    stronger = 1.0 if record.leaf_kg is None else record.leaf_kg / record.liquor_l / usual
    return {name: stronger * prior.from_z(z[ROW[name]]) for name, prior in priors.LEAF_ACIDS.items()}


def _from_water(record: LiquorRecord, z: Floats) -> tuple[Floats, Floats]:
    """Calcium, and what the sour liquor has kept of the water's carbonate, mol/L."""
    water = record.water
    alkalinity, hardness = water.alkalinity_mg_caco3_l, water.hardness_mg_caco3_l
    chalk_mg_l = (
        priors.ALKALINITY_MG_CACO3_L.from_z(z[ROW["alkalinity"]])
        if alkalinity is None
        else np.full(z.shape[1], alkalinity)
    )
    if hardness is None:
        hard_mg_l = chalk_mg_l * priors.HARDNESS_PER_ALKALINITY.from_z(z[ROW["hardness"]])
    else:
        hard_mg_l = np.full(z.shape[1], hardness)
        if alkalinity is None:
            chalk_mg_l = hard_mg_l / priors.HARDNESS_PER_ALKALINITY.from_z(z[ROW["alkalinity"]])
    mg_per_mol = 1000.0 * CALCITE_G_PER_MOL.value
    kept = priors.KEPT_CO2.from_z(z[ROW["kept_co2"]])
    return priors.CALCIUM_SHARE.value * hard_mg_l / mg_per_mol, 2.0 * kept * chalk_mg_l / mg_per_mol
