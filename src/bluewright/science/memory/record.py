"""The record of a garden's finished batches, and what they have taught."""

from __future__ import annotations

from datetime import date, datetime
from typing import Annotated, Final, Literal

from pydantic import AwareDatetime, Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.media.basket import Age, Plant
from bluewright.science.media.own_yield import LearnedBlue
from bluewright.science.media.purity import Known
from bluewright.science.memory.pool_record import Prepared
from bluewright.science.steep.record import Garden, SteepRecord

MAX_BATCHES: Final = 2000
Key = Annotated[str, Field(max_length=200)]


@record
class Batch:
    """One finished batch of one tub."""

    steep: SteepRecord
    """The tub, with every look at it; its `garden` is not looked at, for a batch must not be counted twice."""
    strained: AwareDatetime
    """When it was strained."""
    pure_g: Annotated[float, Field(ge=LEAST, le=1_000_000)] | None = None
    """Pure indigo in its jar, grams; left out while it is not known."""
    pure_log_sd: Annotated[float, Field(ge=0.01, le=2)] = 0.3
    """How well those grams are known: standard deviation of their natural logarithm (0.1 is a tenth)."""
    kept: Known | None = None
    """Share of the pigment that washing and drying kept, if it was reckoned."""
    known_at: AwareDatetime | None = None
    """When all this was known, however late; when it was strained, if left out."""
    bed: Key = ""
    """Your name for the bed; empty if it came from several or is not known."""
    tub: Key = ""
    """Your name for the vessel."""
    reader: Key = ""
    """Who read the signs."""
    left_out: Annotated[str, Field(max_length=200)] | None = None
    """Why it is not to be learned from, if so."""

    def __post_init__(self) -> None:
        if self.strained <= self.steep.started:
            raise InputError(
                where="strained",
                what=f"{self.strained.isoformat()} is not after the steep started",
                right="check both times",
            )
        if self.known_at is not None and self.known_at < self.strained:
            raise InputError(
                where="known_at",
                what=f"{self.known_at.isoformat()} is before it was strained",
                right="it must be the same time or later",
            )

    @property
    def known(self) -> datetime:
        """When it could first be learned from."""
        return self.known_at or self.strained


@record
class NextBatch:
    """The batch for which the garden's beliefs are wanted."""

    plant: Plant
    """`woad`, `japanese_indigo` or `indigofera`."""
    on: date | None = None
    """Day of picking; left out, that of the last batch."""
    age: Age = "mixed"
    """Age of its leaf."""
    bed: Key = ""
    """Its bed, as named in the batches."""
    tub: Key = ""
    """Its vessel."""
    reader: Key = ""
    """Who will read its signs."""


@record
class GardenRecord:
    """A garden's finished batches."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Key = ""
    """Your own name for the garden, given back with the answer."""
    batches: Annotated[tuple[Batch, ...], Field(min_length=1, max_length=MAX_BATCHES)]
    """Every finished batch, in any order."""
    for_next: NextBatch
    """For which batch the beliefs are wanted."""
    prior: Prepared | None = None
    """What other gardens have taught, as `bluewright pool` wrote it."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""


@answer
class Lesson:
    """What is believed of one quantity, before and after the batches."""

    name: str
    """Name of the parameter, sign or instrument."""
    unit: str
    """Its unit; `level` for the slant of a sign, `sd` for that of an instrument in its usual error."""
    before: Band
    """As believed of any garden's next batch."""
    now: Band
    """As believed of this garden's next batch."""
    own: Band
    """As believed of the garden itself: without the scatter from batch to batch."""
    told_frac: float
    """Share of the doubt in the garden's own value that its batches took away, 0 to 1."""


@answer
class Place:
    """How one bed, age of leaf, part of the season, tub, reader or year differs from the garden's usual."""

    part: Literal["bed", "age", "season", "tub", "reader", "year"]
    """Of what kind it is."""
    key: str
    """Its name in the batches."""
    name: str
    """The parameter that differs most surely there."""
    factor: Band
    """By what factor its quantity differs; 1 is no difference. Of a sign: by how many levels, 0 is none."""
    batches: int
    """How many batches say so."""


@answer
class PastCall:
    """One batch as it would have been foretold, and what was got."""

    index: int
    """Its place in the record, from 0."""
    started: datetime
    """When it was begun."""
    got_g: float
    """Pure indigo got, grams."""
    before_g: Band
    """As foretold for any garden."""
    foretold_g: Band
    """As foretold by all batches known when it was begun."""
    rank_frac: float
    """Chance that was given to less than what was got: even between 0 and 1 where forecasts are honest."""
    batches_known: int
    """How many batches were known then."""


@answer
class Timing:
    """One batch's straining looked back at, with all that is known of it now."""

    index: int
    """Its place in the record, from 0."""
    share_frac: Band
    """What its straining gave, as a share of the best moment."""
    three_days_frac: Band
    """What straining after three days (72 h) would have given."""


@answer
class Score:
    """How good the calls were over some batches."""

    said: Literal["all", "early", "late"]
    """All batches with a yield, the first half of them, or the second."""
    batches: int
    """How many."""
    before_error_log: float
    """Mean absolute error of the logarithm of grams, forecasts for any garden."""
    foretold_error_log: float
    """The same, forecasts by what was known then."""
    before_width_factor: float
    """Mean width of the 90 % band, as a factor from its low to its high end."""
    foretold_width_factor: float
    """The same, forecasts by what was known then: sharpness."""
    held_half_frac: float
    """Share of batches within the foretold 50 % band: calibration."""
    held_ninety_frac: float
    """Share of batches within the foretold 90 % band."""


@answer
class LeftOut:
    """A batch that is not learned from."""

    index: int
    """Its place in the record, from 0."""
    started: datetime
    """When it was begun."""
    why: str
    """The reason given, or what is wrong with it."""


@answer
class GardenAnswer:
    """What the garden's batches have taught."""

    version: Literal[1] = 1
    """Version of this answer."""
    id: str
    """Your own name for the garden, from the record."""
    garden: Garden
    """For the field `garden` of a steep record: what is believed of the next batch."""
    batches: int
    """How many batches were learned from."""
    with_yield: int
    """How many of them have a yield."""
    left_out: tuple[LeftOut, ...]
    """Batches not learned from."""
    lessons: tuple[Lesson, ...]
    """What was learned, the most told first."""
    places: tuple[Place, ...]
    """Where beds, tubs, readers, years differ most surely."""
    pure_g_per_kg: Band
    """Pure indigo in the jar from a kilogram of leaf of the next batch, strained at the best moment."""
    blue: LearnedBlue
    """The same as plans and beds take it (their field `blue`): what is the garden's apart from what is a batch's."""
    before_g_per_kg: Band
    """The same as believed of any garden."""
    scatter_factor: Band
    """How much more (above 1) or less the yields of batches scatter than usual."""
    speed_scatter_factor: Band
    """The same of speed and signs."""
    calls: tuple[PastCall, ...]
    """Each batch with a yield as it would have been foretold, by when it was begun."""
    timings: tuple[Timing, ...]
    """Each straining looked back at."""
    strained_frac: Band
    """What the garden's strainings gave on the mean, as a share of each one's best moment."""
    three_days_frac: Band
    """What straining always after three days would have given instead."""
    scores: tuple[Score, ...]
    """How good the forecasts were; none with fewer than two yields."""
    basis: Literal["garden"]
    """Its own batches, beside the priors."""
    inputs: GardenRecord
    """The record that was answered, with its defaults."""
    cautions: tuple[Caution, ...]
    """What to be careful of."""
    sources: tuple[str, ...]
    """Keys of `sources.bib` that the answer rests on."""
