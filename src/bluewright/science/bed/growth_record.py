"""The record of a bed's season, and the forecast of its next cut."""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.published import Figure
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.media.basket import Plant
from bluewright.science.media.own_yield import LearnedBlue
from bluewright.science.media.weather.record import BandOnDay, DayBand, Weather, check_span

Start = Literal["sown", "planted", "overwintered"]
State = Literal["early", "right", "late"]


@record
class Cut:
    """One cut or picking of the whole bed."""

    on: date
    """The day; of a picking over several days the middle one."""
    leaf_kg: Annotated[float, Field(ge=LEAST, le=100_000)] | None = None
    """Fresh leaf that it gave, from the whole bed."""
    state: State | None = None
    """Whether it was cut `early`, at the `right` time, or `late`, as you judged it then."""
    blue_g: Annotated[float, Field(ge=LEAST, le=100_000)] | None = None
    """Pure indigo that was got from it in the end."""


@record
class LongestLeaves:
    """The longest leaf of each of a few marked plants on one day; where shoots are cut, their longest new shoot."""

    on: date
    """When they were measured."""
    longest_mm: Annotated[tuple[Annotated[float, Field(ge=1, le=5000)], ...], Field(min_length=1, max_length=100)]
    """Of each marked plant, from where it grows to its tip: of woad the leaf, of the others the shoot since the cut.
    Ten plants, the same each time."""


@record
class Season:
    """One season of the bed that is over."""

    start: Start = "sown"
    """`sown`, `planted` out, or `overwintered`."""
    began: date | None = None
    """Day of sowing or planting out; after a winter the day on which growth began again. Left out: its first cut
    teaches nothing, since nobody knows how long the leaf had grown."""
    cuts: Annotated[tuple[Cut, ...], Field(min_length=1, max_length=12)]
    """Its cuts in order."""

    def __post_init__(self) -> None:
        check_cuts(self.began, self.cuts)


@record
class GrowthRecord:
    """A bed of one plant in its present season."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the bed, given back with the answer."""
    plant: Plant
    """`woad`, `japanese_indigo` or `indigofera`."""
    start: Start = "sown"
    """How this season began: `sown`, `planted` out, or `overwintered` (woad in its second year)."""
    began: date | None = None
    """Day of sowing or planting out; after a winter the day on which growth began again. It may be left out once there
    is a cut."""
    now: date
    """Today."""
    cuts: Annotated[tuple[Cut, ...], Field(max_length=12)] = ()
    """Cuts of this season so far, in order."""
    lengths: Annotated[tuple[LongestLeaves, ...], Field(max_length=60)] = ()
    """Marked plants of this season, in order of days: once a week they tell how far the leaf is, without a cut."""
    blue: LearnedBlue | None = None
    """What the garden's memory believes a kilogram of this bed's leaf gives (`blue` of the answer of `bluewright
    learned`); it stands in for the blue of single cuts, which it has joined."""
    spotted_frac: Annotated[float, Field(ge=0, le=1)] = 0.0
    """Share of the leaf's area that is spotted or mildewed now, as scored; it changes the blue by a factor that nobody
    has measured."""
    earlier: Annotated[tuple[Season, ...], Field(max_length=10)] = ()
    """Seasons of this bed, or of one like it, that are over: the forecast learns from them."""
    bed_m2: Annotated[float, Field(ge=0.1, le=1_000_000)] | None = None
    """Area of the bed; needed where leaf was weighed."""
    weather: Weather
    """The place, its climate, and its days as far as they are known."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.began is None and not self.cuts:
            raise InputError(
                where="began", what="neither it nor a cut is given", right="say when it was sown or planted"
            )
        check_cuts(self.began, self.cuts)
        last = self.cuts[-1].on if self.cuts else self.since
        if self.now < last:
            raise InputError(where="now", what="it is before the last cut or the beginning", right="give today's date")
        check_span(self.since, self.now, where="now")
        check_lengths(self)
        weighed = any(cut.leaf_kg is not None for cuts in (self.cuts, *(s.cuts for s in self.earlier)) for cut in cuts)
        if weighed and self.bed_m2 is None:
            raise InputError(
                where="bed_m2", what="leaf was weighed and the area is missing", right="give the area of the bed"
            )

    @property
    def since(self) -> date:
        """The first day that is known of."""
        return self.began or self.cuts[0].on


def check_cuts(began: date | None, cuts: tuple[Cut, ...]) -> None:
    """Cuts follow the beginning and each other, within a season."""
    days = [*filter(None, [began]), *(cut.on for cut in cuts)]
    for k, (before, after) in enumerate(pairwise(days), start=0 if began else 1):
        if after <= before:
            raise InputError(
                where=f"cuts[{k}].on",
                what=f"{after.isoformat()} does not come after {before.isoformat()}",
                right="give the cuts in order, after the beginning",
            )
    if cuts:
        check_span(days[0], cuts[-1].on, where=f"cuts[{len(cuts) - 1}].on")


def check_lengths(record: GrowthRecord) -> None:
    """Marked plants are measured one day after another, between the beginning and today."""
    days = [record.since, *(row.on for row in record.lengths)]
    for k, (before, after) in enumerate(pairwise(days)):
        if after <= before or after > record.now:
            raise InputError(
                where=f"lengths[{k}].on",
                what=f"{after.isoformat()} does not lie between {before.isoformat()} and {record.now.isoformat()}",
                right="give them in order of days, after the beginning or the first cut, up to today",
            )


@answer
class Taking:
    """How much to take from each plant, and what to leave."""

    usual_frac: Figure
    """Share of a plant's leaves to take at one picking."""
    most_frac: Figure
    """Share never to go beyond."""
    stubble_mm: Figure
    """Height to cut at, above the ground; of woad above the crown."""


@answer
class GrowthAnswer:
    """When the next cut is ready, and what it will give."""

    version: Literal[1] = 1
    id: str
    ready_on: DayBand
    """The day on which four fifths of the leaf of a full regrowth stand: the cut is ready."""
    past_on: DayBand
    """The day from which leaf is past it: half as much warmth again."""
    ready_now_chance: float
    """Chance that the cut is ready today."""
    in_season_chance: float
    """Chance that it is ready before the season ends."""
    further_cuts: Band
    """How many cuts this season may still give, this one counted."""
    ripe_degree_d: Band
    """Degree-days above `base_c` from the last cut, or the beginning, until it is ready."""
    gone_degree_d: Band
    """Degree-days since then until today."""
    base_c: float
    """Degree-days are counted above this."""
    leaf_kg_per_m2: Band
    """Fresh leaf of a square metre on the day when it is ready."""
    leaf_kg: Band | None = None
    """Fresh leaf of the bed on that day; absent where its area is not given."""
    blue_g_per_kg: Band
    """Pure indigo that a kilogram of that leaf commonly gives."""
    blue_g_per_m2: Band
    """Pure indigo from a square metre."""
    blue_g: Band | None = None
    """Pure indigo from the bed."""
    leaf_kg_per_m2_by_day: tuple[BandOnDay, ...]
    """Leaf that stands on each day, from today on."""
    bolting_chance: float | None = None
    """Chance that woad has had cold enough to flower; absent for the others."""
    bolts_on: DayBand | None = None
    """The day on which flower stems rise, in plants that have had cold enough; absent where that is unlikely."""
    pods_black_on: DayBand | None = None
    """The day on which pods blacken and begin to drop."""
    frost_on: DayBand | None = None
    """The day of the first night that kills or scorches the leaf; absent where none is likely in the days shown."""
    taking: Taking
    """Which share to take and what to leave."""
    cuts_learned: int
    """Cuts of yours that it has learned from."""
    lengths_learned: int = 0
    """Days on which marked plants were measured that it has learned from."""
    basis: Literal["prior", "garden"]
    """Published and practice priors alone, or your own cuts too."""
    inputs: GrowthRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
