"""The record of a trial: its question, its tubs, and what was laid down beforehand."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, record

Outcome = Literal["pure_blue", "powder", "purity", "depth", "hours", "other"]
"""What is measured: pure indigo or dry powder in g from a kg of leaf, share of indigo, K/S of a test swatch, hours of
work for a kilogram of leaf, or another number above 0."""
Assigned = Literal["lot", "leaf", "choice"]
"""Who decided which tub got which way: a drawn lot, the leaf itself (it was sorted), or somebody."""
Name = Annotated[str, Field(min_length=1, max_length=60)]
MOST_WAYS: Final = 6
MOST_TUBS: Final = 200
MOST_BLOCKS: Final = 100


@record
class Way:
    """One of the ways that are compared."""

    name: Name
    """What it is called: `clean leaf`, `soda ash`, `three days`."""
    work_h: Annotated[float, Field(ge=LEAST, le=1000)] | None = None
    """Work that a tub of it takes, hours of hands; the answer then tells grams for an hour."""


@record
class EarlierPairs:
    """Pairs of tubs that you treated alike before, or an earlier trial: how unlike tubs are in your hands."""

    pairs: Annotated[int, Field(ge=2, le=1000)]
    """How many."""
    pair_sd: Annotated[float, Field(ge=0.005, le=3)]
    """Standard deviation of the natural logarithm of their ratios."""


@record
class TrialTub:
    """One tub of the trial."""

    way: Name
    """Which of the ways it got."""
    value: Annotated[float, Field(ge=LEAST, le=1e9)] | None = None
    """What was measured, in the unit of the outcome; left out while it is not known."""
    block: Annotated[str, Field(max_length=60)] = ""
    """The picking that the tub shares with its rivals; tubs of one block are compared with each other. Left out: the
    tub stands alone."""
    sd_frac: Annotated[float, Field(ge=0, le=1)] = 0.0
    """How far the value may be off by weighing and measuring, as a share of it, by itself alone (standard
    deviation)."""
    assay: Annotated[str, Field(max_length=60)] = ""
    """Which assay its purity comes from; tubs that name the same one share its error."""
    assay_sd_frac: Annotated[float, Field(ge=0, le=1)] = 0.0
    """How far that assay may be off, as a share of the result (standard deviation)."""
    day: date | None = None
    """The day it was filled."""
    picking: Annotated[str, Field(max_length=200)] = ""
    """Which picking its leaf came from, in your words."""
    tub: Annotated[str, Field(max_length=60)] = ""
    """Which vessel."""
    spoilt: Annotated[str, Field(max_length=200)] = ""
    """Why it does not count, in your words: a leak, a frost. It stays visible."""


@record
class TrialRecord:
    """A trial as it stands."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the trial, given back with the answer."""
    question: Annotated[str, Field(max_length=200)] = ""
    """What you want to know, in your words."""
    outcome: Outcome = "pure_blue"
    """What is measured."""
    less_is_better: bool = False
    """Whether less of it is better, as of hours."""
    ways: Annotated[tuple[Way, ...], Field(min_length=2, max_length=MOST_WAYS)]
    """What is compared: the usual way first, the others beside it."""
    assigned: Assigned = "lot"
    """`lot` where lots were drawn, `leaf` where leaf was sorted, `choice` where somebody chose."""
    tubs: Annotated[tuple[TrialTub, ...], Field(min_length=1, max_length=MOST_TUBS)]
    """Every tub, also the spoilt ones and those not weighed yet."""
    planned_blocks: Annotated[int, Field(ge=1, le=MOST_BLOCKS)] | None = None
    """How many pairs, or sets of tubs, were laid down before the first; for tubs that stand alone, of each way."""
    looks: Annotated[int, Field(ge=1, le=100)] = 1
    """How many times the result has been looked at, this time included."""
    comparisons: Annotated[int, Field(ge=1, le=1000)] = 1
    """How many things you compared in these tubs, this one included: other outcomes, other ways to split them."""
    earlier: EarlierPairs | None = None
    """How unlike tubs were before; left out, a guess."""
    leaf_kg: Annotated[float, Field(ge=LEAST, le=100_000)] | None = None
    """Leaf in a tub, so that the answer tells grams."""
    least_gain_frac: Annotated[float, Field(ge=-0.95, le=10)] = 0.0
    """How much more it must give, as a share, to be worth changing; below 0, how much less you would put up with. Where
    less is better, 0.1 asks for 1.1 times less."""
    least_g_per_h: Annotated[float, Field(ge=LEAST, le=1e6)] | None = None
    """Pure blue that an hour of work must bring at least; with the work of each way this decides instead: of sorted
    leaf a tub of it by itself, else what each hour more brings, or each hour saved costs."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        check_names(tuple(way.name for way in self.ways))
        known = {way.name for way in self.ways}
        for place, tub in enumerate(self.tubs):
            if tub.way not in known:
                raise InputError(
                    where=f"tubs[{place}].way", what=f"{tub.way!r} is none of the ways that are compared",
                    right=f"use one of {', '.join(sorted(known))}",
                )  # fmt: skip
        check_assays(self.tubs)
        if self.least_g_per_h is not None and (self.leaf_kg is None or self.outcome != "pure_blue"):
            raise InputError(
                where="least_g_per_h", what="grams of blue are not known",
                right="give leaf_kg and the outcome pure_blue, or leave it out",
            )  # fmt: skip


def check_names(names: tuple[str, ...]) -> None:
    """Raise InputError where two ways have one name."""
    for place, name in enumerate(names):
        if name in names[:place]:
            raise InputError(where=f"ways[{place}].name", what=f"{name!r} stands twice", right="give each its own name")


def check_assays(tubs: tuple[TrialTub, ...]) -> None:
    """Raise InputError where one assay has two errors, or an error has no assay."""
    errors: dict[str, float] = {}
    for place, tub in enumerate(tubs):
        if errors.setdefault(tub.assay, tub.assay_sd_frac) != tub.assay_sd_frac and tub.assay:
            raise InputError(
                where=f"tubs[{place}].assay_sd_frac", what=f"the assay {tub.assay!r} has two errors",
                right="give it the same one wherever it is named",
            )  # fmt: skip
        if tub.assay_sd_frac and not tub.assay:
            raise InputError(
                where=f"tubs[{place}].assay", what="its error is given, but not which assay it is",
                right="name the assay; tubs that name the same one share its error",
            )  # fmt: skip
