"""The schedule of a season as an answer."""

from __future__ import annotations

from datetime import date
from typing import Literal

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.records import answer
from bluewright.science.media.basket import Plant
from bluewright.science.season.record import SeasonRecord

Reason = Literal["best", "tubs", "hours", "drying", "wants", "kept", "others"]


@answer
class PlannedCut:
    """A cut of a bed."""

    bed: str
    plant: Plant
    on: date
    """The day."""
    share_frac: float
    """Part of the bed that is cut on it."""
    leaf_kg: Band
    """Leaf that the bed, or its part, gives then."""
    taken_kg: float
    """Of it, what is planned into tubs."""
    standing_kg: float
    """What is left standing for want of room."""
    blue_g: Band
    """Pure blue from it."""
    best_on: date
    """The day that the bed alone would have it, were there no limits and no dates."""
    reason: Reason
    """Why this day: it is the `best`, or within two days of it; or on that `tubs`, `hours` or `drying` places are
    taken; or dates of `wants`, the plan before (`kept`) or room for `others` speak for another."""


@answer
class PlannedSteep:
    """One tub filled, strained, its blue dried."""

    id: str = ""
    """Your name for a tub that steeps already."""
    volume_l: float
    tub: int
    """Which of the tubs of this size, from 1."""
    plant: Plant
    beds: tuple[str, ...]
    """Whose leaf; empty for a tub that steeps already."""
    fill_on: date
    strain_on: date
    leaf_kg: float
    """Leaf planned into it."""
    kept_frac: float
    """Of the blue that straining on the best day gives: below 1 where that day is not to be had."""
    dry_from: date
    """On the tray from this day on."""
    ready_on: date
    """In the jar."""
    next_fill_on: date | None = None
    """When this tub is to be filled again."""
    slow_chance: float
    """Chance that it is not yet at its best on the day of straining."""
    clash_chance: float
    """Chance that it is not at its best when the tub is due to be filled again."""


@answer
class PlannedWant:
    """A want, and whether it is met in time."""

    name: str
    on: date
    wanted_g: float
    in_time_g: Band
    """Pure blue that it gets in time; earlier wants take theirs first."""
    met_chance: float
    """Chance that it gets all of it."""


@answer
class WorkDay:
    """Hours of one day."""

    on: date
    free_h: float
    cut_h: float
    """Cutting and filling."""
    strain_h: float
    """Looks, straining, alkali and air."""
    wash_h: float
    """Washing, filtering, weighing."""


@answer
class Limit:
    """What one limit costs."""

    limit: Literal["tub", "hour", "drying"]
    volume_l: float | None = None
    """Of a tub: its size."""
    more_g: float
    """More blue, in grams that come in time, from one tub more; one free hour more on each working day; room for one
    more tub's blue to dry. Reckoned with cuts and tubs that need not be whole."""


@answer
class Change:
    """A cut that differs from the plan before."""

    bed: str
    was: date | None = None
    now: date | None = None
    """None: it is given up."""


@answer
class Moved:
    """A straining of a tub that steeps, on another day than in the plan before."""

    tub: str
    """Your name for it, or its number among those of its size."""
    was: date
    now: date
    looked: bool
    """Whether looks at it say when it is at its best."""


@answer
class SeasonAnswer:
    """What to cut, fill and strain on which day, what it gives, and what was given up."""

    version: Literal[1] = 1
    id: str
    blue_g: Band
    """Pure blue of the whole plan."""
    plan_g: float
    """What was planned with: its mean over what is believed, which few large harvests pull above the middle."""
    alone_g: float
    """The same mean, if tubs, hours and places had no limits."""
    standing_kg: float
    """Leaf left standing on days of cutting."""
    cuts: tuple[PlannedCut, ...]
    """In order of days."""
    steeps: tuple[PlannedSteep, ...]
    """In order of days."""
    wants: tuple[PlannedWant, ...]
    """What is wanted by a day, the earliest first, and what of it comes in time."""
    days: tuple[WorkDay, ...]
    """Days on which there is work."""
    uncut: tuple[str, ...]
    """Beds for which no cut is planned."""
    limits: tuple[Limit, ...]
    """What limits cost, the dearest first."""
    changes: tuple[Change, ...]
    """Against the plan before."""
    moved: tuple[Moved, ...] = ()
    """Strainings of tubs that steep, against the plan before."""
    worst_clash_chance: float
    """The largest chance of a clash of all tubs."""
    gap_frac: float
    """The plan is at most this share worse than the best possible one on the days looked at."""
    every_d: int
    """Beyond three weeks only every so many working days were looked at for cuts."""
    basis: Literal["prior", "garden"]
    """Published and practice priors alone, or your own cuts too."""
    inputs: SeasonRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
