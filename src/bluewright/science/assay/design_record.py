"""The record that plans a test dyeing, and its answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.records import answer, record


@record
class DesignRecord:
    """How sure you want to be, and what is known of your dyeing."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for it, given back with the answer."""
    wanted_pct: Annotated[float, Field(ge=1, le=200)]
    """Half the width of the interval that you want, per cent of the strength itself: 15 is give or take 15%."""
    scatter_sd: Annotated[float, Field(ge=0.005, le=1)] | None = None
    """Scatter of ln(K/S) from swatch to swatch of one amount; default about 0.1, a tenth, usual with care."""
    slope: Annotated[float, Field(ge=0.2, le=2)] | None = None
    """K/S rises with the mass of pigment to this power; default about 0.85."""
    guess_factor: Annotated[float, Field(ge=0.005, le=2)] = 0.40
    """How strong you expect the sample to be beside the standard."""
    step_factor: Annotated[float, Field(ge=1.2, le=5)] = 2.0
    """Each amount is so many times the one before."""
    matched: bool = True
    """Whether more of the weaker one is taken, so that both dye to the same depths."""
    most_swatches: Annotated[int, Field(ge=6, le=200)] = 48
    """The most swatches that you care to dye."""
    least_mg: Annotated[float, Field(ge=0.1, le=100_000)] = 20.0
    """The smallest amount of the standard: as much as your scale can tell."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""


@answer
class Design:
    """One plan."""

    amounts: int
    """Amounts of each pigment."""
    repeats: int
    """Swatches of each amount."""
    swatches: int
    """Swatches in all, of both pigments."""
    half_range_pct: Band
    """Half the width of the interval (95 in 100) that such a study will tell, per cent of the strength: of many such
    studies the middle, and the range."""
    spread_pct: float
    """1.96 standard deviations of the strength itself: what the interval would be, were the scatter known."""


@answer
class DesignAnswer:
    """Plans from few swatches to many, and the first that is good enough."""

    version: Literal[1] = 1
    id: str
    designs: tuple[Design, ...]
    """In the order of their number of swatches."""
    advised: Design | None
    """The one of fewest swatches that is as sure as wanted; absent if none within the most is."""
    standard_mg: tuple[float, ...]
    """Amounts of the standard for the advised (else the largest) plan."""
    sample_mg: tuple[float, ...]
    """Amounts of the sample for it."""
    basis: Literal["prior"]
    """Always what you expect."""
    inputs: DesignRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
