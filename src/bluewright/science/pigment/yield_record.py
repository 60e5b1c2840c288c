"""The jar record and its answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.media.alkali_kind import UsedAlkali
from bluewright.science.media.basket import Plant
from bluewright.science.media.purity import Known
from bluewright.science.pigment.priors import Step

NextReading = Literal["purity", "potential", "steep", "strain", "conversion", "wash"]


@record
class Potential:
    """The most pure indigo that the basket could give."""

    median_g: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """The middle, in grams for the whole basket."""
    log_sd: Annotated[float, Field(ge=0.03, le=4)]
    """Standard deviation of its natural logarithm: 0.7 means times or over two; of leaf picked
    out of season it may be two and more."""


@record
class Conversion:
    """How the liquor was made alkaline and aired."""

    ph: Annotated[float, Field(ge=0, le=14)] | None = None
    """pH reached with the alkali."""
    temp_c: Annotated[float, Field(ge=0, le=90)] = 20.0
    """Temperature while it was aired."""
    air_done: bool | None = None
    """Whether it was aired to the end (foam white, liquor no longer green); left out if not known."""


@record
class YieldRecord:
    """A weighed jar of dry pigment and what is known of its making."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the jar, given back with the answer."""
    plant: Plant
    """`woad`, `japanese_indigo` or `indigofera`."""
    leaf_kg: Annotated[float, Field(ge=LEAST, le=100_000)]
    """Fresh leaf that was put in, weighed before washing."""
    pigment_g: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Pigment in the jar, without the jar."""
    scale_sd_g: Annotated[float, Field(ge=LEAST, le=1000)] = 0.5
    """How far that weighing may be off (standard deviation)."""
    moisture_frac: Annotated[float, Field(ge=0, lt=0.95)] | None = None
    """Water in it, as a share of its mass; default that of air-dry pigment, 0.05 give or take 0.01."""
    purity: Known | None = None
    """Indigo in the dry pigment as measured; without it a range by plant, alkali and acid wash."""
    alkali: UsedAlkali = "unknown"
    """What made the liquor alkaline; lime stays in the pigment as weight."""
    acid_washed: bool = False
    """Whether lime was washed out with acid."""
    potential: Potential | None = None
    """What the basket could give; default a wide range for the plant (woad 3.3 g/kg, times or over two)."""
    steep: Known | None = None
    """Share of the potential that was in the liquor at straining, if the strain call gave one."""
    blue_out: Known | None = None
    """Share of the liquor's blue that ran out at straining, if the strain balance gave one."""
    conversion: Conversion | None = None
    """Alkali and air."""
    blue_in_decant: Annotated[int, Field(ge=0, le=3)] | None = None
    """How blue the decanted liquor and washes were, 0 (clear) to 3 (dark)."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.pigment_g > 1000 * self.leaf_kg:
            raise InputError(
                where="pigment_g",
                what=f"{self.pigment_g:g} g is more than the leaf it came from",
                right=f"at most {1000 * self.leaf_kg:g} g; is leaf_kg in kilograms and pigment_g in grams?",
            )
        if self.acid_washed and self.alkali == "none":
            raise InputError(
                where="acid_washed",
                what="there was no alkali, so no lime to wash out",
                right="give the alkali, or leave acid_washed out",
            )


@answer
class StepLoss:
    """One step of the way from leaf to jar."""

    step: Step
    """`steep`, `strain`, `conversion`, `wash` or `dry`."""
    kept_frac: Band
    """Share of the blue that came through this step."""
    typical_frac: float
    """Geometric mean of that share: the typical shares multiply out exactly to the typical jar."""
    lost_g: Band
    """Pure indigo lost in it."""
    left_g: Band
    """Pure indigo left after it."""
    lost_most_frac: float
    """Chance that this was the step that lost most."""
    basis: Literal["prior", "readings"]
    """Whether something seen at this step moved its prior."""


@answer
class YieldAnswer:
    """What the jar holds and where the rest probably went."""

    version: Literal[1] = 1
    id: str
    crude_g: Band
    """Pigment without its water."""
    pure_g: Band
    """Pure indigo in it."""
    purity_frac: Band
    """Indigo in the dry pigment, with all that was seen."""
    crude_g_per_kg: Band
    """Dry pigment from each kilogram of fresh leaf."""
    pure_g_per_kg: Band
    """Pure indigo from each kilogram of fresh leaf."""
    potential_prior_g: Band
    """What the basket could give, as believed before the jar was weighed."""
    potential_g: Band
    """The same with all that was seen."""
    potential_typical_g: float
    """Geometric mean of the potential."""
    pure_typical_g: float
    """Geometric mean of the pure indigo: the typical potential times the typical shares kept."""
    of_potential_frac: Band
    """Pure indigo in the jar as a share of what the leaf could give."""
    steps: tuple[StepLoss, ...]
    """From leaf to jar, in order."""
    worst: Step
    """The step that most probably lost most."""
    chance_poor_leaf_frac: float
    """Chance that the leaf held less than two thirds of what was expected: then no step is to blame for that part."""
    next_reading: NextReading | None
    """What would narrow the share of the potential most, if it were known; absent when all has been seen."""
    next_gain_frac: float
    """About how much of the doubt (variance of the logarithm) in that share it would take away."""
    ess: float
    """Effective sample size of the fit."""
    basis: Literal["prior", "readings"]
    """`readings` if purity was measured or something was seen at a step; the jar's mass is always read."""
    inputs: YieldRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
