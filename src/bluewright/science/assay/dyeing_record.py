"""The record of comparative test dyeing, and its answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.assay.common import Moisture
from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record

Of = Literal["standard", "sample"]
Verdict = Literal["one_strength", "not_parallel", "flat"]


@record
class DyedSwatch:
    """One piece of cloth, dyed in its own little vat."""

    of: Of
    """Dyed with the `standard` or with your `sample`."""
    pigment_mg: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Pigment in its vat."""
    k_over_s: Annotated[float, Field(ge=0.001, le=100)]
    """Depth of the dyed cloth: Kubelka and Munk's K/S in the red, that of undyed cloth subtracted."""


@record
class DyeingRecord:
    """Swatches dyed with a standard and with the sample, at several amounts of each, all else alike."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the pigment, given back with the answer."""
    standard_frac: Annotated[float, Field(ge=0.01, le=1)] = 0.95
    """Indigo in the standard, as its seller states it."""
    standard_sd_frac: Annotated[float, Field(ge=0.001, le=0.3)] = 0.03
    """How far that may be off (standard deviation)."""
    swatches: Annotated[tuple[DyedSwatch, ...], Field(min_length=5, max_length=200)]
    """All swatches, measured in one photo or with one instrument."""
    moisture_frac: Moisture | None = None
    """Water in the sample as weighed; default that of air-dry pigment, 0.05; 0 after an oven."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        for of in ("standard", "sample"):
            levels = {one.pigment_mg for one in self.swatches if one.of == of}
            if len(levels) < 2:
                raise InputError(
                    where="swatches", what=f"the {of} has {len(levels)} amount{'' if len(levels) == 1 else 's'}",
                    right="dye with two or more amounts of each, better three or four",
                )  # fmt: skip


@answer
class Line:
    """The line of one pigment: ln(K/S) = level + slope ln(mg)."""

    of: Of
    """Whose."""
    swatches: int
    """How many."""
    slope: float
    """Of its own line, fitted apart."""
    level: float
    """ln(K/S) at 1 mg, of the parallel lines."""


@answer
class DyeingAnswer:
    """How strong the sample dyes beside the standard, and so how much of it is indigo."""

    version: Literal[1] = 1
    id: str
    verdict: Verdict
    """`one_strength` if the lines are parallel; `not_parallel` or `flat` if no one strength holds."""
    indigo_pct: Band | None
    """Indigo in the dry sample, per cent by mass; absent where no one strength holds."""
    strength_factor: Band | None
    """How many times as strong as the standard the sample dyes, as weighed."""
    strength_low_factor: float | None
    """The same: lower limit of Fieller's interval that holds 95 times in 100."""
    strength_high_factor: float | None
    """Its upper limit."""
    slope: float
    """Of the parallel lines: K/S rises with the mass to this power."""
    scatter_sd: float
    """Scatter of ln(K/S) about the parallel lines: 0.1 is a tenth."""
    parallel_chance: float
    """Chance of slopes as different as these, were the lines parallel."""
    straight_chance: float | None
    """Chance of a bend like this, were the lines straight; absent with two amounts."""
    lines: tuple[Line, ...]
    """Standard and sample."""
    basis: Literal["readings"]
    """Always your own swatches."""
    inputs: DyeingRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
