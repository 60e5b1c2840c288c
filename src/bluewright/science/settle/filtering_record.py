"""The filtering record and its answer."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record


@record
class FilterReading:
    """What had run through by when."""

    after_min: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Minutes since the filter was filled."""
    filtrate_l: Annotated[float, Field(ge=LEAST, le=100_000)]
    """All that has run through by then."""


@record
class FilterRecord:
    """A filter at work under its own head."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the batch, given back with the answer."""
    total_l: Annotated[float, Field(ge=LEAST, le=100_000)]
    """All that is to run through, counted from the start."""
    readings: Annotated[tuple[FilterReading, ...], Field(min_length=1, max_length=500)]
    """What had run through, in order of time; two well apart tell much more than one."""
    volume_sd_frac: Annotated[float, Field(ge=0.002, le=1)] = 0.04
    """How far a measured volume may be off, as a share of it (standard deviation)."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        for i, (before, after) in enumerate(pairwise(self.readings), start=1):
            if after.after_min <= before.after_min:
                raise InputError(
                    where=f"readings[{i}].after_min",
                    what=f"{after.after_min:g} min is not after {before.after_min:g} min",
                    right="give the readings in order of time",
                )
            if after.filtrate_l < before.filtrate_l:
                raise InputError(
                    where=f"readings[{i}].filtrate_l",
                    what=f"the filtrate falls from {before.filtrate_l:g} to {after.filtrate_l:g} L",
                    right="give all that has run through so far, not the part since the last reading",
                )
        if self.readings[-1].filtrate_l >= self.total_l:
            raise InputError(
                where="total_l",
                what=f"{self.readings[-1].filtrate_l:g} L have run through already, of {self.total_l:g} L",
                right="give all that is to run through, counted from the start",
            )


@answer
class FilterAnswer:
    """How long the rest takes."""

    version: Literal[1] = 1
    id: str
    left_h: Band
    """Hours from the last reading until all has run through."""
    total_h: Band
    """Hours from the start until all has run through."""
    rate_now_l_per_h: Band
    """How fast it runs at the last reading."""
    rate_end_l_per_h: Band
    """How fast it runs at the end, if nothing is changed."""
    cake_share_frac: Band
    """Share of the resistance at the last reading that is the cake's, the rest the cloth's or paper's."""
    ess: float
    """Effective sample size of the fit."""
    basis: Literal["readings"]
    """It rests on your own readings."""
    inputs: FilterRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
