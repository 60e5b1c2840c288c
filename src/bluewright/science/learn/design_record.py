"""The record of a trial that is to be laid down, and how it is laid out."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.learn.trial_record import (
    MOST_WAYS,
    Assigned,
    EarlierPairs,
    Name,
    Outcome,
    check_names,
)

Differs = Literal["leaf", "held", "cut", "hours", "warmth", "water", "alkali", "air", "wash", "other"]
"""What is different between the ways: the leaf itself, hours from picking to water, cutting, hours steeped, warmth,
water, alkali, airing, washing, or something else."""
Equal = Literal[
    "picking", "mixing", "mass", "held", "cut", "vessel", "water", "place", "start", "hours", "strain", "alkali", "air",
    "wash", "dry", "assay", "order",
]  # fmt: skip
"""What to keep equal."""
Layout = Literal["split_picking", "sorted_picking", "by_day"]


@record
class NamedWay:
    """One of the ways that are compared."""

    name: Name
    """What it is called."""


@record
class TrialPlanRecord:
    """A question, and the tubs and picking days that there are for it."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the trial, given back with the answer."""
    question: Annotated[str, Field(max_length=200)] = ""
    """What you want to know, in your words."""
    ways: Annotated[tuple[NamedWay, ...], Field(min_length=2, max_length=MOST_WAYS)]
    """What is compared: the usual way first."""
    differs: Differs = "other"
    """What is different between them."""
    outcome: Outcome = "pure_blue"
    """What is measured."""
    assigned: Assigned = "lot"
    """`lot` where any leaf can get either way, `leaf` where the leaf itself is the difference and is sorted."""
    tubs: Annotated[int, Field(ge=1, le=24)]
    """Tubs that can be filled on one day."""
    days: Annotated[int, Field(ge=1, le=60)]
    """Picking days that there are for it."""
    vessels_differ: bool = False
    """Whether the tubs are unlike in size, make or place: each way then comes into each of them equally often."""
    worth_finding_frac: Annotated[float, Field(ge=0.01, le=10)] = 0.2
    """The smallest difference that you would act upon, as a share of the usual way's yield."""
    earlier: EarlierPairs | None = None
    """How unlike tubs were before; left out, a guess."""
    leaf_kg: Annotated[float, Field(ge=LEAST, le=100_000)] | None = None
    """Leaf for a tub."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the lots: the same record and seed draw the same ones."""

    def __post_init__(self) -> None:
        check_names(tuple(way.name for way in self.ways))


@answer
class Setting:
    """One tub of the trial, in the order in which they are set."""

    number: int
    """Number of the envelope, from 1."""
    day: int
    """On which picking day, from 1."""
    block: str
    """The picking, or the part of one, that it shares with its rivals."""
    tub: int
    """Which vessel, from 1."""
    way: str
    """What it gets: not to be read before it is filled with leaf."""


@answer
class Power:
    """What so many blocks can show."""

    blocks: int
    """Pairs, or sets of tubs; of tubs that stand alone, how many of each way."""
    found_chance: float
    """Chance that a difference worth finding shows clearly (5 % test), if it is there."""
    least_factor: float | None
    """The smallest ratio that shows clearly four times in five; absent where only one beyond a hundredfold would."""
    either_way_factor: float | None
    """The likely range (9 of 10) to be expected runs from the result divided by this to so many times it; absent for
    a single block."""
    least_flip_chance: float | None
    """The least that drawing lots again can say; absent for tubs that stand alone."""


@answer
class TrialPlanAnswer:
    """The layout of a trial."""

    version: Literal[1] = 1
    id: str
    layout: Layout
    """`split_picking`: one picking is mixed and parted, lots are drawn. `sorted_picking`: one picking is sorted by
    kind. `by_day`: one tub a day, the weakest."""
    blocks: int
    """Pairs, or sets of tubs, that fit into the days; of tubs that stand alone, how many of each way."""
    pair_sd: Band
    """How unlike two tubs of a block are believed to be (standard deviation of the log ratio)."""
    found_chance: float
    """Chance that a difference worth finding shows clearly with all of them, if it is there."""
    blocks_for_chance: int | None
    """Blocks that it would take to be four in five; absent beyond a hundred."""
    table: tuple[Power, ...]
    """What fewer and more blocks can show."""
    settings: tuple[Setting, ...]
    """Which tub gets which way."""
    seal: str
    """A fingerprint of the lots: printed beforehand, it shows afterwards that nobody changed them."""
    keep_equal: tuple[Equal, ...]
    """What to keep equal in all tubs of a block."""
    leaf_needed_kg: float | None = None
    """Leaf for all tubs."""
    basis: Literal["prior", "readings"]
    """A guess of how unlike tubs are, or your earlier pairs with it."""
    inputs: TrialPlanRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
