"""The record of a vat to be made, and its recipe."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.published import Figure
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.media.basket import Plant
from bluewright.science.media.cloth import Depth, Fibre
from bluewright.science.media.purity import Known, Make
from bluewright.science.vat.kinds import KINDS, VatAlkali, VatKind
from bluewright.science.vat.redox import Opened

Substance = Literal[
    "powder", "dithionite", "thiourea_dioxide", "fructose", "ferrous_sulphate", "soda_ash", "potash", "lye",
    "slaked_lime", "bran", "madder",
]  # fmt: skip
Doing = Literal[
    "warm_water", "grind_paste", "alkali_first", "alkali_rest", "clear_oxygen", "add_powder", "add_reductant",
    "feed", "wait", "stir_and_settle", "keep_warm", "test_ph", "to_dye_temp",
]  # fmt: skip
Hazard = Literal[
    "eyes", "irritant", "swallowed", "lye_heat", "lime_dust", "fire", "thiourea_heat", "sulphur_gas", "powder_dust",
    "iron", "hot_water", "foul_air",
]  # fmt: skip


@record
class Pigment:
    """The jar of dry powder that the vat is made from. Powder is never counted as pure indigo."""

    mass_g: Annotated[float, Field(ge=LEAST, le=1_000_000)] | None = None
    """Powder in the jar; left out where there is enough."""
    purity: Known | None = None
    """Indigo in the dry powder as measured; without it a wide range by plant and making."""
    moisture_frac: Annotated[float, Field(ge=0, le=0.9)] | None = None
    """Water in it, as a share of its mass; default that of air-dry pigment. Paste is mostly water."""
    plant: Plant = "woad"
    """Where nothing was measured: `woad`, `japanese_indigo` or `indigofera`."""
    make: Make = "unknown"
    """Where nothing was measured: made without lime, with it, with lime and an acid wash, or not known."""


@record
class Heel:
    """What is in the vat already, from before."""

    volume_l: Annotated[float, Field(ge=LEAST, le=100_000)]
    """Litres of it."""
    pure_g: Annotated[float, Field(ge=0, le=1_000_000)]
    """Pure indigo still in it."""
    pure_sd_g: Annotated[float, Field(ge=0, le=1_000_000)] = 0.0
    """How far that may be off (standard deviation)."""
    reduced: bool = False
    """Whether it is clear and yellow: its indigo then needs no more reductant."""


@record
class VatWater:
    """The water that is drawn for it."""

    temp_c: Annotated[float, Field(ge=0, le=60)] = 12.0
    """As it comes: cold water holds more oxygen."""
    alkalinity_mg_caco3_l: Annotated[float, Field(ge=0, le=2000)] | None = None
    """Total alkalinity from a water report."""
    hardness_mg_caco3_l: Annotated[float, Field(ge=0, le=5000)] | None = None
    """Total hardness from a water report."""


@record
class VatRecipeRecord:
    """A vat that is to be made."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the vat, given back with the answer."""
    fibre: Fibre
    """`wool`, `silk`, `cotton`, `linen` or `other_cellulose`."""
    kind: VatKind
    """`dithionite`, `thiourea_dioxide`, `fructose` with lime, `iron` with lime, or `ferment`."""
    volume_l: Annotated[float, Field(ge=0.1, le=10_000)]
    """Litres of the vat when it is ready."""
    wanted_g_per_l: Annotated[float, Field(ge=0.02, le=20)] | None = None
    """Pure indigo wanted in a litre; or give a depth."""
    depth: Depth | None = None
    """Or: the depth to be dyed, `pale_sky`, `light`, `medium`, `deep` or `navy`; the vat is then made as strong as is
    usual."""
    cloth_kg: Annotated[float, Field(ge=LEAST, le=10_000)] | None = None
    """Cloth to be dyed to that depth, weighed as it hangs in a room; its indigo is then added to that of the vat."""
    pigment: Pigment = Pigment()
    """The jar."""
    heel: Heel | None = None
    """What is in the vat already."""
    water: VatWater = VatWater()
    """The water."""
    reductant_opened: Opened = "opened"
    """How the reductant was kept: `sealed`, `opened`, or `old` and damp."""
    reductant_purity_frac: Annotated[float, Field(ge=0.05, le=1)] | None = None
    """The share of it that reduces, if you tested it."""
    excess_factor: Annotated[float, Field(ge=0.5, le=30)] | None = None
    """Reductant over what the indigo alone takes; default what is usual for the kind. Below 1 some indigo is left."""
    alkali: VatAlkali | None = None
    """`soda_ash`, `potash`, `lye` or `slaked_lime`; default what is usual for the kind and the fibre."""
    target_ph: Annotated[float, Field(ge=7.5, le=13)] | None = None
    """pH wanted in a cooled sample; default that of the fibre."""
    stand_h: Annotated[float, Field(ge=0, le=1000)] | None = None
    """Hours that it stands, covered, before it is used; default until it is ready."""
    surface_m2: Annotated[float, Field(ge=LEAST, le=100)] | None = None
    """Open surface; default that of a vessel as deep as it is wide."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if (self.wanted_g_per_l is None) == (self.depth is None):
            raise InputError(
                where="wanted_g_per_l",
                what="neither or both of a strength and a depth were given",
                right="give either pure indigo in a litre or the depth to be dyed",
            )
        if self.cloth_kg is not None and self.depth is None:
            raise InputError(where="cloth_kg", what="no depth is given for the cloth", right="give the depth too")
        if self.alkali is not None and self.alkali not in KINDS[self.kind].alkalis:
            raise InputError(
                where="alkali",
                what=f"{self.alkali} does not go with a vat of {KINDS[self.kind].words}",
                right="use " + " or ".join(KINDS[self.kind].alkalis),
            )
        if self.heel is not None and self.heel.volume_l > self.volume_l:
            raise InputError(
                where="heel.volume_l",
                what=f"{self.heel.volume_l:g} L are in the vat already, more than it is to hold",
                right=f"give at most {self.volume_l:g} L, or a larger volume_l",
            )
        if self.kind == "ferment" and self.excess_factor is not None:
            raise InputError(
                where="excess_factor", what="what ferments is not weighed as a reductant", right="leave it out"
            )


@answer
class VatStep:
    """One step of the work, in its order."""

    do: Doing
    """What is done."""
    what: Substance | None = None
    """With what."""
    mass_g: Band | None = None
    """How much of it; the range is what the jar's purity, the reductant's age and the water leave open."""
    g_per_l: Band | None = None
    """The same for each litre of the vat: for a larger or smaller one."""
    temp_c: float | None = None
    """How warm."""
    wait_min: Band | None = None
    """How long then to wait."""
    hazards: tuple[Hazard, ...] = ()
    """What could hurt here; in words beside the step, and in the cautions."""


@answer
class Rung:
    """A strength that a depth is usually dyed at."""

    depth: Depth
    low_g_per_l: float
    """Reduced, dissolved indigo in a litre, at the lower end of what is usual."""
    high_g_per_l: float
    """At the upper end."""


@answer
class VatRecipeAnswer:
    """A recipe: what goes in, in which order, and how it is held."""

    version: Literal[1] = 1
    id: str
    powder_g: Band
    """Powder to weigh out: pure indigo wanted, over the jar's purity and dryness. Weigh the middle."""
    pure_g: Band
    """Pure indigo that is then in the vat, heel and all, if the middle of the powder is weighed."""
    pure_g_per_l: Band
    """The same in a litre."""
    active_g_per_l: Band
    """What of it reduces and dissolves: the strength that a dip sees."""
    for_cloth_g: Band | None = None
    """Pure indigo that the cloth takes with it, fixed and loose; what is left is the vat's heel, and is stock."""
    steps: tuple[VatStep, ...]
    """The work in its order."""
    excess_factor: float | None = None
    """Reductant over what the indigo alone takes, without what the oxygen takes; absent for a fermented vat."""
    reductant_mol_per_mol: Band | None = None
    """Moles of reductant that works to a mole of indigo, in all."""
    alkali_mol_per_mol: Band
    """Alkali to a mole of indigo: moles of lye, or twice the moles of soda, potash or lime."""
    oxygen_mg: Band
    """Oxygen in the fresh water, and what enters until the vat is used."""
    oxygen_share_frac: Band | None = None
    """Share of the reductant that only does away with that oxygen."""
    jar_enough_chance: float | None = None
    """Chance that the jar holds the powder; absent where its mass is not given."""
    jar_g_per_l: Band | None = None
    """Pure indigo in a litre if the whole jar went in."""
    set_ph: Figure
    """pH of a cooled sample to hold while dyeing."""
    target_ph: float
    """The pH that the alkali was reckoned for."""
    set_c: Figure
    """Warmth to hold while dyeing, °C."""
    reduce_c: Figure
    """Warmth at which it is set, °C."""
    dip_min: Figure
    """Minutes of a dip."""
    ready_after_h: Band
    """Hours until it is ready."""
    ladder: tuple[Rung, ...]
    """At which strength each depth is usually dyed."""
    basis: Literal["prior", "readings"]
    """`readings` where the jar's purity was measured."""
    inputs: VatRecipeRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
