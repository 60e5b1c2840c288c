"""What is wanted, what is at hand, how it is worked; and what that takes."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.media.basket import Plant
from bluewright.science.media.cloth import Basis, Depth, Fibre
from bluewright.science.media.own_yield import LearnedBlue
from bluewright.science.media.weather.record import DayBand, Weather

VatKind = Literal["quick", "ferment"]
SteepKind = Literal["hot", "cold"]
Start = Literal["sown", "planted"]
Unknown = Literal[
    "fixed", "drawn", "reduces", "jars", "assay", "blue", "blue_batch", "leaf", "leaf_season", "leaf_cut", "cuts"
]
"""What is not known: what the depth takes; the share fixed; the share that reduces; what the jars hold; what all assays
are off; the garden's blue in a kilogram; its scatter from batch to batch; the garden's leaf; the season's; its scatter
from cut to cut; how many cuts."""
Step = Literal["cut", "steep", "wash", "dry", "vat", "dye", "finish"]
"""What is done in order: the last cut, steep, settle and wash, dry, start the vat, dye, finish."""

Share = Annotated[float, Field(ge=LEAST, lt=1)]
Name = Annotated[str, Field(max_length=200)]
MassG = Annotated[float, Field(ge=LEAST, le=1_000_000)]


@record
class ClothWant:
    """Cloth to be dyed."""

    name: Name = ""
    """What it is for."""
    fibre: Fibre
    """`wool`, `silk`, `cotton`, `linen`, or `other_cellulose` (viscose and the like)."""
    mass_kg: Annotated[float, Field(ge=LEAST, le=10_000)]
    """The cloth, undyed."""
    basis: Basis = "conditioned"
    """`conditioned`: weighed as it hangs in a room; `dry`: from the oven."""
    depth: Depth | None = None
    """`pale_sky`, `light`, `medium`, `deep` or `navy`."""
    fixed_frac: Annotated[float, Field(ge=0.00001, le=0.2)] | None = None
    """Instead of a depth: pure indigo to be fixed, as a share of the dry fibre."""
    by: date | None = None
    """The day on which it must be ready; left out: some time."""

    def __post_init__(self) -> None:
        if (self.depth is None) == (self.fixed_frac is None):
            raise InputError(where="depth", what="one of depth and fixed_frac is needed", right="give one of the two")


@record
class PigmentWant:
    """Pigment to sell or give away."""

    name: Name = ""
    """What it is for."""
    mass_g: MassG
    """Of the powder, if its purity is given; else of pure indigo in it."""
    purity_frac: Share | None = None
    """Pure indigo in the powder that is promised, as a share of its mass; left out: `mass_g` is pure indigo."""
    by: date | None = None
    """The day on which it must be ready; left out: some time."""


@record
class JarAtHand:
    """A jar that is there: it is used before anything is grown."""

    name: Name = ""
    """Your own name for it."""
    pure_g: MassG
    """Pure indigo in it, the middle of what is believed."""
    sd_frac: Annotated[float, Field(ge=0, le=1)] = 0.2
    """How far that may be off (standard deviation), as a share of it."""
    assayed: bool = False
    """Whether it rests on an assay of yours: what all your assays are off together, it is too."""


@record
class StandingBed:
    """A bed of the plant that stands: its leaf is used before anything is sown."""

    name: Name = ""
    """Your own name for it."""
    leaf_kg: Annotated[float, Field(ge=LEAST, le=100_000)]
    """Fresh leaf that its next cut will give, the middle; as the forecast of its growth says."""
    spread_factor: Annotated[float, Field(ge=1, le=10)] = 1.6
    """That leaf may be so many times more or less, two times in three."""
    cuts: Annotated[int, Field(ge=1, le=8)] = 1
    """Cuts that it will still give this season, the middle, the next one counted."""
    least_cuts: Annotated[int, Field(ge=0, le=8)] | None = None
    """Cuts that it gives at least, nineteen times in twenty; left out: as many."""
    next_on: date | None = None
    """The day of the next cut, the middle; left out: in time for everything."""
    again_d: Annotated[float, Field(ge=7, le=200)] = 42.0
    """Days from one cut to the next."""
    second_year: bool = False
    """Whether it stood over a winter: such woad has less blue in its leaf."""


@record
class Vat:
    """The vat: what must stand in it before it dyes is stock, and stays there."""

    vat_l: Annotated[float, Field(ge=LEAST, le=100_000)]
    """Litres in it."""
    working_g_per_l: Annotated[float, Field(ge=LEAST, le=50)] | None = None
    """The lowest strength at which you still dye, reduced pure indigo in a litre; left out: the low end of what the
    deepest depth wanted is usually dyed at."""
    in_it_g: Annotated[float, Field(ge=0, le=1_000_000)] = 0.0
    """Reduced pure indigo that is in it now."""


@record
class OwnFigures:
    """What you know of your own work; each stands in for what is published, as far as it weighs."""

    blue_g_per_kg: Annotated[tuple[Annotated[float, Field(ge=0.001, le=20)], ...], Field(max_length=100)] = ()
    """Pure indigo in the jar from a kilogram of fresh leaf, one figure a batch."""
    blue: LearnedBlue | None = None
    """The same as a garden's memory believes it (`blue` of the answer of `bluewright learned`); it stands in for the
    figures of single batches, which it has joined."""
    assay_sd_frac: Annotated[float, Field(ge=0, le=1)] = 0.1
    """How far all your assays may be off together (standard deviation), as a share."""
    leaf_kg_per_m2: Annotated[tuple[Annotated[float, Field(ge=0.001, le=50)], ...], Field(max_length=100)] = ()
    """Fresh leaf from a square metre, one figure a cut."""
    cuts: Annotated[int, Field(ge=1, le=8)] | None = None
    """Cuts that the area will give in time; left out: by the weather from today on, or as is usual."""
    fixed_of_drawn_frac: Share | None = None
    """Share fixed of what the cloth takes from the vat."""
    reduces_frac: Share | None = None
    """Share of the pure indigo put into the vat that really reduces."""
    purity_frac: Share | None = None
    """Pure indigo in your dry pigment."""


@record
class ClothPlanRecord:
    """What is wanted, and what there is to do it with."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Name = ""
    """Your own name for the plan, given back with the answer."""
    plant: Plant
    """`woad`, `japanese_indigo` or `indigofera`."""
    cloth: Annotated[tuple[ClothWant, ...], Field(max_length=50)] = ()
    """Cloth that is wanted."""
    pigment: Annotated[tuple[PigmentWant, ...], Field(max_length=50)] = ()
    """Pigment that is wanted."""
    jars: Annotated[tuple[JarAtHand, ...], Field(max_length=200)] = ()
    """Jars at hand."""
    beds: Annotated[tuple[StandingBed, ...], Field(max_length=60)] = ()
    """Beds of the plant that stand."""
    vat: Vat | None = None
    """The vat; left out: what stays in it is not counted."""
    vat_kind: VatKind = "quick"
    """`quick`, ready in a day, or `ferment`, in one to four weeks."""
    steep_kind: SteepKind = "cold"
    """`cold` or `hot` steep."""
    own: OwnFigures | None = None
    """Your own figures, as far as you have them."""
    tub_l: Annotated[float, Field(ge=LEAST, le=100_000)] | None = None
    """Water in a tub."""
    leaf_kg_per_l: Annotated[float, Field(ge=0.005, le=2)] | None = None
    """Leaf in a litre of it; left out: 0.15."""
    bed_width_m: Annotated[float, Field(ge=0.1, le=1000)] | None = None
    """How wide the beds are."""
    area_m2: Annotated[float, Field(ge=0.01, le=1_000_000)] | None = None
    """An area that you think of: how likely is it enough?"""
    wanted_chance: Annotated[float, Field(ge=0.5, le=0.99)] = 0.8
    """How sure it shall be: 0.8 is four times in five."""
    start: Start = "sown"
    """`sown` where it grows, or `planted` out."""
    now: date | None = None
    """Today; needed with days and with the weather."""
    weather: Weather | None = None
    """The place and its climate; left out: no day for sowing is told."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if not (self.cloth or self.pigment or self.jars or self.beds):
            what = "nothing is wanted and nothing is at hand"
            raise InputError(where="cloth", what=what, right="give a want, a jar or a bed")
        dated = [want.by for want in self.wants if want.by is not None]
        if self.now is None and (dated or self.weather is not None):
            raise InputError(where="now", what="days are given and today is missing", right="give today's date")
        if self.now is not None and any(by < self.now for by in dated):
            raise InputError(where="now", what="a want is due before it", right="give today's date, or a later day")

    @property
    def wants(self) -> tuple[ClothWant | PigmentWant, ...]:
        """Everything that is wanted."""
        return (*self.cloth, *self.pigment)


@answer
class Taken:
    """What one want takes, or all of them."""

    name: str
    """Its name; empty for all of them."""
    kind: Literal["cloth", "pigment", "vat", "all"]
    """`cloth`, `pigment`, the `vat` (what must stand in it and stays there), or `all`."""
    by: date | None = None
    """The day on which it must be ready."""
    on_cloth_g: Band
    """Pure indigo fixed on the cloth."""
    drawn_g: Band
    """Pure indigo taken from the vat for it: with what is loose or rinsed away; of the vat, what stays in it."""
    needed_g: Band
    """Pure indigo that must be put in, with what does not reduce; of pigment, what the jar must hold."""
    from_jars_g: Band
    """Of that, from jars at hand: the earliest want first."""
    to_make_g: Band
    """Pure indigo still to be made."""
    pigment_g: Band
    """Air-dry pigment of your purity that holds it."""
    leaf_kg: Band
    """Fresh leaf for it."""
    from_beds_kg: Band
    """Of that, from beds that stand, as far as they give it in time: the earliest want first."""
    area_m2: Band
    """Area to sow for the rest of the leaf, over all cuts in time."""


@answer
class Gives:
    """What a bed that stands will probably give until the season ends, or all of them."""

    name: str
    """Its name; empty for all of them."""
    leaf_kg: Band
    """Fresh leaf."""
    blue_g: Band
    """Pure indigo from it."""
    pigment_g: Band
    """Air-dry pigment of your purity that holds it."""


@answer
class Matters:
    """One thing that is not known, and what knowing it would do."""

    what: Unknown
    """Which."""
    share_frac: float
    """About how much of the doubt in the area it makes: 1 less what is left of the variance of its logarithm."""
    narrower_frac: float
    """By how much narrower the range of the area would be, were it known: 0.5 is half; below 0 only by chance."""


@answer
class CanDye:
    """What the jars at hand are enough for."""

    fibre: Fibre
    """Of this fibre."""
    depth: Depth
    """To this depth."""
    cloth_kg: Band
    """So much cloth, weighed as it hangs in a room, if nothing else is dyed."""


@answer
class StepDay:
    """One step of the work and the last day to begin it."""

    step: Step
    """Which."""
    takes_d: Band
    """Days that it takes."""
    begin_by: date
    """Begun by this day, it is ready in time with the chance asked for, as far as the days after it go."""
    latest: DayBand
    """The last day to begin it, with its range."""


@answer
class SowBy:
    """The last day to sow or plant for so many cuts in time."""

    cuts: int
    """So many cuts."""
    begin_by: date | None = None
    """Sown by this day, they come in time with the chance asked for; absent where it would have been before today."""
    latest: DayBand
    """The last day, with its range; an end before today is absent."""


@answer
class DaysBack:
    """The days back from one want."""

    name: str
    """Which want."""
    by: date
    """When it must be ready."""
    steps: tuple[StepDay, ...]
    """From first to last; the last cut is absent where leaf was worth cutting only long ago."""
    sow: tuple[SowBy, ...]
    """For one cut, two and three; empty where jars or beds that stand are enough, or no weather is given."""
    slack_d: int | None = None
    """Days between today, or when the ground can be sown, and the last day to begin: below 0 it is late; absent where
    that day was long ago."""
    critical: Step | None = None
    """The step whose doubt costs most days: begin it early, or find out how long it takes with you; absent where
    nothing is left to be done."""
    from_jars: bool
    """Whether the jars at hand are enough for it, with the chance asked for."""
    from_beds: bool = False
    """Whether jars and beds that stand are enough for it, with the chance asked for: nothing need be sown for it."""


@answer
class ClothPlanAnswer:
    """What the wants take, back to the bed."""

    version: Literal[1] = 1
    id: str
    wants: tuple[Taken, ...]
    """What each want takes, in the order in which jars are given out: by day, the vat before the first cloth."""
    total: Taken
    """All of them."""
    jars_enough_chance: float
    """Chance that the jars at hand are enough for everything."""
    enough_chance: float
    """Chance that the jars at hand and the beds that stand are enough for everything."""
    area_for_chance_m2: float
    """Area to sow beside what stands, enough with the chance asked for; wants that nothing sown now reaches in time are
    not in it, and it is 0 where there are no others."""
    area_enough_chance: float | None = None
    """Chance that the area you think of is enough."""
    bed_m: Band | None = None
    """Length of bed for the area, the middle and its range."""
    bed_for_chance_m: float | None = None
    """Length of bed that is enough with the chance asked for."""
    plants_for_chance: int
    """Plants on that area, as thick as is usual for leaf."""
    tub_fills: Band | None = None
    """Times that a tub is filled with leaf."""
    tub_fills_for_chance: int | None = None
    """Times that are enough with the chance asked for."""
    cuts: Band
    """Cuts in time that this rests on, over the season."""
    in_time_chance: float
    """Chance that there is a cut in time at all; 1 where no weather is given."""
    blue_g_per_kg: Band
    """Pure indigo that a kilogram of leaf gives over the batches of a season."""
    leaf_kg_per_m2: Band
    """Fresh leaf of a square metre at a cut, the mean of the season's cuts."""
    own_blue_frac: float
    """How far your own batches count in the blue of a kilogram against what is published, 0 to near 1."""
    own_leaf_frac: float
    """How far your own cuts count in the leaf of a square metre."""
    beds: tuple[Gives, ...]
    """What each bed that stands will probably give."""
    all_beds: Gives | None = None
    """What they give together: they share garden, season and plant, so that their doubts do not average out."""
    matters: tuple[Matters, ...]
    """What is not known, that which matters most first."""
    can_dye: tuple[CanDye, ...]
    """What the jars at hand are enough for, once the vat stands."""
    days: tuple[DaysBack, ...]
    """The days back from each want that has one."""
    basis: Literal["prior", "garden"]
    """Published and practice priors alone, or your own figures too."""
    inputs: ClothPlanRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
