"""The basket record and its answer."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.published import Figure
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.media.basket import LeafState, Plant


@record
class PotentialRecord:
    """One basket of leaf."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the basket, given back with the answer."""
    plant: Plant
    """`woad`, `japanese_indigo` or `indigofera`."""
    leaf_kg: Annotated[float, Field(ge=LEAST, le=100_000)]
    """Fresh leaf, weighed before washing (a wash adds 5 to 15 % of water)."""
    leaf: LeafState = LeafState()
    """Age, cut, damage and hours held."""
    picked_on: date | None = None
    """Day of picking, like 2026-07-03; left out, any day of the season."""
    hemisphere: Literal["north", "south"] = "north"
    """Which half of the earth: seasons are half a year apart."""
    held_temp_c: Annotated[float, Field(ge=-30, le=100)] = 20.0
    """Temperature of the leaf between picking and water."""
    wilted: bool = False
    """Leaf that is wilted, bruised, or was heaped until it warmed."""
    wanted_g: Annotated[float, Field(ge=LEAST, le=1_000_000)] | None = None
    """Pure indigo that you want; the answer then says how much such leaf it takes."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""


@answer
class Effect:
    """What one circumstance does to the potential."""

    name: Literal["age", "season", "damage", "held"]
    factor: Band
    """The potential is multiplied by this; 1 is no effect."""


@answer
class PotentialAnswer:
    """The most blue that the basket can give, and what bears on it."""

    version: Literal[1] = 1
    id: str
    potential_g: Band
    """Pure indigo if every molecule of precursor became indigo: an upper bound, never reached."""
    potential_g_per_kg: Band
    """The same for each kilogram of leaf."""
    precursor_mmol_per_kg: Band
    """Precursor in the leaf as it goes into the water, millimoles of indoxyl units a kilogram."""
    realistic_g: Band
    """Pure indigo that commonly ends in the jar: 20 to 60 % of the potential."""
    loss_per_h: Band
    """Share of what is there that another hour of waiting loses."""
    loss_next_h_g: Band
    """Grams of potential that the next hour of waiting loses."""
    damage_cost_frac: Band
    """Share of the potential that the damage costs; below 0 where damaged leaf would hold more."""
    leaf_for_wanted_kg: Band | None
    """Such leaf that it takes for `wanted_g` of pure indigo; absent where nothing is wanted, or the leaf
    may have lost all."""
    effects: tuple[Effect, ...]
    """What age, season, damage and waiting each do to the potential."""
    published_content: tuple[Figure, ...]
    """What single sources say of the precursor, mmol/kg fresh leaf: they disagree, and the range holds that."""
    published_yields: tuple[Figure, ...]
    """What others got, g of indigo for each kilogram of fresh leaf, not always pure."""
    basis: Literal["prior"]
    """Published and practice priors alone: no jar of yours is in this yet."""
    inputs: PotentialRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
