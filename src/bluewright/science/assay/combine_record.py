"""The record of several results for one pigment, and its answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.records import answer, record


@record
class Result:
    """One result for the pigment."""

    method: Annotated[str, Field(min_length=1, max_length=80)]
    """How it was found; results of one name share that method's faults."""
    indigo_frac: Annotated[float, Field(ge=0.001, le=0.999)]
    """Indigo in the dry pigment."""
    sd_frac: Annotated[float, Field(ge=0.001, le=0.5)]
    """How far it may be off (standard deviation, as a share of the pigment)."""
    at_most: bool = False
    """Whether it is only an upper bound (ash, permanganate without a standard)."""


@record
class CombineRecord:
    """All that was found out about how much of one pigment is indigo."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the pigment, given back with the answer."""
    results: Annotated[tuple[Result, ...], Field(min_length=1, max_length=60)]
    """One or more results."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""


@answer
class ByMethod:
    """What one method says, its results put together."""

    method: str
    """Its name."""
    indigo_pct: Band
    """Indigo in the dry pigment."""
    at_most: bool
    """Whether it is only an upper bound."""
    results: int
    """How many results it has."""
    weight_frac: float
    """Its weight in the combined result; 0 for a bound, or where nothing is combined."""


@answer
class CombineAnswer:
    """What all results say together, if they agree."""

    version: Literal[1] = 1
    id: str
    agree: bool
    """Whether every two methods lie within two standard deviations of each other, and none above a bound."""
    indigo_pct: Band | None
    """Combined indigo in the dry pigment; absent where they disagree, or all are bounds."""
    methods: tuple[ByMethod, ...]
    """Each method by itself."""
    largest_z: float
    """The largest distance of two methods, in standard deviations of their difference."""
    between_sd: float
    """Spread among methods beyond their own doubts, on the logit scale, that the combined range allows for."""
    basis: Literal["readings"]
    """Always results."""
    inputs: CombineRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
