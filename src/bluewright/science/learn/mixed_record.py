"""The record of many batches with what was noted of them, and what it says of each cause."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.learn.trial_record import Name, Outcome
from bluewright.science.media.basket import Plant

Luck = Literal["season", "bed", "day", "rest"]
MOST_BATCHES: Final = 1000
LEAST_BATCHES: Final = 4


@record
class NotedBatch:
    """One batch and what was noted of it; what is left out is not known."""

    name: Annotated[str, Field(max_length=60)] = ""
    """What it is called."""
    way: Name
    """How it was made, as far as that is the question."""
    value: Annotated[float, Field(ge=LEAST, le=1e9)] | None = None
    """What was measured, in the unit of the outcome."""
    assay: Annotated[str, Field(max_length=60)] = ""
    """Which assay its purity comes from; batches that name the same one share its error."""
    assay_sd_frac: Annotated[float, Field(ge=0, le=1)] = 0.0
    """How far that assay may be off, as a share of the result (standard deviation)."""
    day: date | None = None
    """The day of picking; batches of one day share its luck."""
    season: Annotated[str, Field(max_length=60)] = ""
    """Its season; left out, the year of the day."""
    bed: Annotated[str, Field(max_length=60)] = ""
    """The bed that the leaf came from."""
    temp_c: Annotated[float, Field(ge=0, le=100)] | None = None
    """Mean temperature of the tub."""
    steep_h: Annotated[float, Field(ge=0, le=1000)] | None = None
    """How long it steeped."""
    held_h: Annotated[float, Field(ge=0, le=500)] | None = None
    """From picking to water."""
    damaged_frac: Annotated[float, Field(ge=0, le=1)] | None = None
    """Share of the leaf that was spotted or eaten."""
    plant: Plant | None = None
    """`woad`, `japanese_indigo` or `indigofera`."""
    leaf_age: Literal["young", "mixed", "old"] | None = None
    """Age of the leaf."""
    alkali: Annotated[str, Field(max_length=60)] = ""
    """Which alkali."""
    water: Annotated[str, Field(max_length=60)] = ""
    """Which water."""
    spoilt: Annotated[str, Field(max_length=200)] = ""
    """Why it does not count, in your words. It stays visible."""


@record
class BatchesRecord:
    """Batches of one garden, or of several."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the question, given back with the answer."""
    question: Annotated[str, Field(max_length=200)] = ""
    """What you want to know, in your words."""
    outcome: Outcome = "pure_blue"
    """What is measured."""
    usual: Annotated[str, Field(max_length=60)] = ""
    """The way that the others are compared with; left out, the one with most batches."""
    batches: Annotated[tuple[NotedBatch, ...], Field(min_length=LEAST_BATCHES, max_length=MOST_BATCHES)]
    """Every batch, also the spoilt ones."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.usual and self.usual not in {batch.way for batch in self.batches}:
            raise InputError(where="usual", what=f"no batch was made by {self.usual!r}", right="use one of their ways")
        if sum(batch.value is not None and not batch.spoilt for batch in self.batches) < LEAST_BATCHES:
            raise InputError(
                where="batches",
                what=f"fewer than {LEAST_BATCHES} have a value",
                right="give the value of more, or wait",
            )
        errors: dict[str, float] = {}
        for place, batch in enumerate(self.batches):
            if batch.assay and errors.setdefault(batch.assay, batch.assay_sd_frac) != batch.assay_sd_frac:
                raise InputError(
                    where=f"batches[{place}].assay_sd_frac", what=f"the assay {batch.assay!r} has two errors",
                    right="give it the same one wherever it is named",
                )  # fmt: skip


@answer
class CauseFound:
    """What one cause does, everything else that was noted being equal."""

    cause: str
    """The field it stands in: `way`, `temp_c`, `alkali` ..."""
    is_: str
    """Which way or kind; for a number by how much it is more."""
    beside: str
    """Beside which; empty for a number."""
    ratio_factor: Band
    """So many times as much."""
    more_chance: float
    """Chance that it is more."""
    plain_factor: float | None = None
    """The same as a bare ratio of means, nothing else taken into account; absent for a number."""
    batches: int
    """Batches of that kind; for a number, those in which it was noted."""


@answer
class SpreadFound:
    """How unlike batches are from one kind of luck."""

    of: Luck
    """From season to season, bed to bed, day to day; or what is left."""
    log_sd: Band
    """Standard deviation of the logarithm."""


@answer
class BatchesAnswer:
    """What many batches say of their causes."""

    version: Literal[1] = 1
    id: str
    counted: int
    """Batches that count."""
    causes: tuple[CauseFound, ...]
    """Ways first, then what else was noted."""
    spreads: tuple[SpreadFound, ...]
    """How unlike batches are besides."""
    not_used: tuple[str, ...]
    """Fields that were noted too rarely, or are the same for all."""
    ess: float
    """Effective sample size of the draws of the spreads."""
    basis: Literal["readings"]
    """Your own batches, with guesses of how large differences and spreads are."""
    inputs: BatchesRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
