"""The record of a season to be planned."""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, record
from bluewright.science.bed.growth_record import Cut, LongestLeaves, Season, Start
from bluewright.science.media.basket import Plant
from bluewright.science.media.own_yield import LearnedBlue
from bluewright.science.media.weather.record import Weather

Name = Annotated[str, Field(min_length=1, max_length=120)]
HoursFree = Annotated[float, Field(ge=0, le=24)]
DaysLong = Annotated[int, Field(ge=0, le=60)]
MOST_DAYS: Final = 366
WEEK: Final = 7


@record
class SeasonBed:
    """A bed with its season up to now."""

    id: Name
    """Your name for it."""
    plant: Plant
    """`woad`, `japanese_indigo` or `indigofera`."""
    area_m2: Annotated[float, Field(ge=0.1, le=1_000_000)]
    """Its area."""
    start: Start = "sown"
    """How its season began: `sown`, `planted` out, or `overwintered` (woad in its second year)."""
    began: date | None = None
    """Day of sowing or planting out, after a winter the day on which growth began; it may lie ahead. May be left out
    once there is a cut."""
    cuts: Annotated[tuple[Cut, ...], Field(max_length=12)] = ()
    """Cuts of this season that are done, in order."""
    lengths: Annotated[tuple[LongestLeaves, ...], Field(max_length=60)] = ()
    """Marked plants of this season, each with its longest leaf, in order."""
    blue: LearnedBlue | None = None
    """What the garden's memory believes a kilogram of its leaf gives, on a day of its season that is not known (`blue`
    of the answer of `bluewright learned`); the plan puts the course of the season to it."""
    earlier: Annotated[tuple[Season, ...], Field(max_length=10)] = ()
    """Seasons of this bed, or of one like it, that are over: the plan learns from them."""
    most_cuts: Annotated[int, Field(ge=1, le=12)] | None = None
    """Cuts of the whole year, with those done; 4 if left out."""
    between_d: Annotated[int, Field(ge=1, le=200)] = 14
    """Days that lie between two cuts at least, however warm it is."""
    parts: Annotated[int, Field(ge=1, le=6)] = 1
    """In how many parts it may be cut, each on a day of its own."""


@record
class TubSize:
    """Tubs of one size."""

    volume_l: Annotated[float, Field(ge=1, le=1_000_000)]
    """What one holds."""
    count: Annotated[int, Field(ge=1, le=60)]
    """How many there are."""
    leaf_kg: Annotated[float, Field(ge=LEAST, le=100_000)] | None = None
    """Leaf that one takes; a tenth of a kilogram for each litre if left out."""


@record
class Away:
    """Days on which nothing can be done."""

    first: date
    """The first of them."""
    last: date
    """The last; the same for a single day."""

    def __post_init__(self) -> None:
        if self.last < self.first:
            raise InputError(where="last", what="it is before the first day", right="give the later day as last")


@record
class Work:
    """Hours of each work; what is left out is a guess, and your own figures are better."""

    cut_h_per_kg: Annotated[float, Field(ge=0, le=10)] | None = None
    """Cutting and stripping a kilogram of leaf."""
    fill_h: HoursFree | None = None
    """Filling a tub."""
    look_h: HoursFree | None = None
    """A look at a tub, once a day."""
    strain_h: HoursFree | None = None
    """Straining a tub, with alkali and air."""
    wash_h: HoursFree | None = None
    """Washing, filtering, spreading and weighing the blue of one tub, all together."""
    rest_d: DaysLong | None = None
    """Days that a tub stays taken after straining."""
    wash_d: DaysLong | None = None
    """Days from straining to the tray."""


@record
class TrayRoom:
    """Room to dry, and how long drying takes."""

    tubs: Annotated[float, Field(ge=0, le=1000)] | None = None
    """How many tubs' blue can lie drying at once; left out: as many as you like."""
    tray_m2: Annotated[float, Field(ge=0, le=10_000)] | None = None
    """Tray that there is, instead of a number of tubs."""
    m2_per_leaf_kg: Annotated[float, Field(ge=LEAST, le=10)] | None = None
    """Tray for the blue of a kilogram of leaf."""
    days: Annotated[int, Field(ge=1, le=90)] | None = None
    """Days on the tray; 6 if left out."""

    def __post_init__(self) -> None:
        if self.tubs is not None and self.tray_m2 is not None:
            raise InputError(
                where="tray_m2", what="both tubs and tray_m2 are given", right="give the one that limits you"
            )


@record
class SeasonWant:
    """Pure blue that is wanted by a day."""

    name: Annotated[str, Field(max_length=120)] = ""
    """What for."""
    on: date
    """By the evening of this day it should be dry in the jar."""
    blue_g: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Pure blue, in grams."""


@record
class BestAfter:
    """When a tub is at its best, in days from filling, by what was seen of it: `best_h` of its strain call, in days."""

    p5_d: Annotated[float, Field(gt=0, le=100)]
    """Nineteen times in twenty it is later."""
    p50_d: Annotated[float, Field(gt=0, le=100)]
    """The middle."""
    p95_d: Annotated[float, Field(gt=0, le=100)]
    """Nineteen times in twenty it is sooner."""

    def __post_init__(self) -> None:
        if not self.p5_d <= self.p50_d <= self.p95_d:
            raise InputError(where="p50_d", what="the three are not in order", right="give the earliest first")


@record
class BestGrams:
    """Pure indigo that straining a tub at its best gives, with alkali and air done well: `recoverable_g.best` of its
    strain call. What washing and drying lose is still to come off."""

    p5_g: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Nineteen times in twenty it is more."""
    p50_g: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """The middle."""
    p95_g: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Nineteen times in twenty it is less."""

    def __post_init__(self) -> None:
        if not self.p5_g <= self.p50_g <= self.p95_g:
            raise InputError(where="p50_g", what="the three are not in order", right="give the least first")


@record
class RunningTub:
    """A tub that steeps now."""

    id: Annotated[str, Field(max_length=120)] = ""
    """Your name for it."""
    volume_l: Annotated[float, Field(ge=1, le=1_000_000)]
    """Its size; it is one of `tubs`."""
    plant: Plant
    """What steeps in it."""
    leaf_kg: Annotated[float, Field(ge=LEAST, le=100_000)]
    """Leaf in it."""
    filled: date
    """When it was filled."""
    best: BestAfter | None = None
    """When it is at its best by the looks at it; left out: as such tubs are in the season's weather."""
    best_g: BestGrams | None = None
    """What it gives then by its strain call; left out: as leaf of the season commonly gives."""
    planned: date | None = None
    """The day of straining in the plan before this one."""


@record
class DryingNow:
    """Blue that dries now."""

    until: date
    """The day on which its place is free again."""
    tubs: Annotated[float, Field(ge=0, le=1000)] = 1.0
    """Places that it takes."""
    tray_m2: Annotated[float, Field(ge=0, le=10_000)] = 0.0
    """Tray that it takes, if places are reckoned in square metres."""


@record
class FormerCut:
    """A cut of the plan before this one."""

    bed: Name
    """Which bed."""
    on: date
    """For which day it was planned."""


@record
class SeasonRecord:
    """A season: beds, tubs, hours, places, wants, and what is done or planned already."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the plan, given back with the answer."""
    now: date
    """Today: the first day that can be planned."""
    last: date
    """The last day that can be planned."""
    beds: Annotated[tuple[SeasonBed, ...], Field(min_length=1, max_length=40)]
    """Every bed."""
    tubs: Annotated[tuple[TubSize, ...], Field(min_length=1, max_length=8)]
    """The tubs there are, by size."""
    method: Literal["cold", "warm"] = "cold"
    """`cold`: steeps are left to the weather; `warm`: kept at about 35 C."""
    free_h: Annotated[tuple[HoursFree, ...], Field(min_length=WEEK, max_length=WEEK)]
    """Hours free on each day of the week, Monday first; all hands together."""
    extra_h: HoursFree = 0.0
    """Hours a day that can be worked beyond those, at a small price, on days that have any."""
    away: Annotated[tuple[Away, ...], Field(max_length=60)] = ()
    """Days on which nothing can be done."""
    work: Work = Work()
    """Hours of each work."""
    drying: TrayRoom = TrayRoom()
    """Room to dry."""
    wants: Annotated[tuple[SeasonWant, ...], Field(max_length=60)] = ()
    """Blue wanted by dates; with none, as much blue as can be had."""
    ready_g: Annotated[float, Field(ge=0, le=1_000_000)] = 0.0
    """Pure blue that is there already for those wants, or dries."""
    running: Annotated[tuple[RunningTub, ...], Field(max_length=60)] = ()
    """Tubs that steep now."""
    drying_now: Annotated[tuple[DryingNow, ...], Field(max_length=60)] = ()
    """Blue that dries now."""
    former: Annotated[tuple[FormerCut, ...], Field(max_length=500)] = ()
    """The cuts of the plan before this one: those of the coming week are moved only where it pays."""
    clash_chance: Annotated[float, Field(ge=0.02, le=0.5)] | None = None
    """A tub is kept so long that a steep is slower than that with this chance; left out: to the planned straining."""
    weather: Weather
    """The place, its climate, and its days as far as they are known."""
    good_frac: Annotated[float, Field(ge=0.0001, le=0.5)] = 0.03
    """The search ends once no plan can be better by more than this share; leaf itself is far less certain."""
    limit_s: Annotated[float, Field(ge=0.1, le=60)] = 6.0
    """Seconds after which the search for a still better plan ends. Ended so, a slower machine may answer otherwise."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws."""

    def __post_init__(self) -> None:
        if not 1 <= (self.last - self.now).days < MOST_DAYS:
            raise InputError(
                where="last",
                what="it is not after today, or more than a year on",
                right="give the last day of the season",
            )
        names = [bed.id for bed in self.beds]
        for k, name in enumerate(names):
            if name in names[:k]:
                raise InputError(
                    where=f"beds[{k}].id", what=f"two beds are called {name!r}", right="give each its own name"
                )
        for k, bed in enumerate(self.beds):
            _check_bed(bed, self.now, self.last, where=f"beds[{k}]")
        for k, want in enumerate(self.wants):
            if want.on < self.now:
                raise InputError(where=f"wants[{k}].on", what="this day is over", right="leave the want out")
        if not any(self.free_h):
            raise InputError(
                where="free_h", what="no day of the week has any hours", right="give the hours that you have in a week"
            )
        _check_tubs(self)


def _check_bed(bed: SeasonBed, now: date, last: date, *, where: str) -> None:
    if bed.began is None and not bed.cuts:
        raise InputError(
            where=f"{where}.began", what="neither it nor a cut is given", right="say when it was sown or planted"
        )
    days = [*filter(None, [bed.began]), *(cut.on for cut in bed.cuts)]
    if any(after <= before for before, after in pairwise(days)):
        raise InputError(
            where=f"{where}.cuts", what="the days are not in order", right="give them in order, after began"
        )
    if days[0] > last:
        raise InputError(where=f"{where}.began", what="it begins after the last day", right="leave the bed out")
    if bed.cuts and bed.cuts[-1].on > now:
        raise InputError(where=f"{where}.cuts", what="a cut is still to come", right="give only cuts that are done")
    if (now - days[0]).days > MOST_DAYS:
        raise InputError(where=f"{where}.began", what="it is more than a year ago", right="give the present season")


def _check_tubs(found: SeasonRecord) -> None:
    sizes = [size.volume_l for size in found.tubs]
    if len(set(sizes)) < len(sizes):
        raise InputError(where="tubs", what="one size stands there twice", right="give each size once, with its count")
    for k, tub in enumerate(found.running):
        if tub.volume_l not in sizes:
            raise InputError(
                where=f"running[{k}].volume_l",
                what=f"no tub of {tub.volume_l:g} L is among yours",
                right="add it to tubs",
            )
        if tub.filled > found.now:
            raise InputError(
                where=f"running[{k}].filled", what="it is still to come", right="give the day it was filled"
            )
        if (found.now - tub.filled).days > 40:
            raise InputError(
                where=f"running[{k}].filled",
                what="it is more than forty days ago",
                right="a steep takes days; take it out",
            )
    for size in found.tubs:
        full = sum(tub.volume_l == size.volume_l for tub in found.running)
        if full > size.count:
            raise InputError(
                where="running", what=f"{full} tubs of {size.volume_l:g} L steep and you have {size.count}",
                right="correct one of them",
            )  # fmt: skip
