"""The record of a one-band meter, and its answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.assay.common import Doubt, Milligrams, Moisture
from bluewright.science.assay.priors import Solvent
from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record

LEAST_STEPS = 4


@record
class Step:
    """One solution of your standard."""

    indigo_mg_per_l: Annotated[float, Field(ge=0, le=10_000)]
    """Indigo in it, the standard's own purity counted; 0 is the blank."""
    reading_absorbance: Annotated[float, Field(ge=-0.5, le=6)]
    """What the meter read."""


@record
class LedRecord:
    """A sample read with a simple meter of one lamp, beside your own standards read the same day."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the pigment, given back with the answer."""
    solvent: Solvent
    """What it is dissolved in; the standards too."""
    sample_mg: Milligrams
    """Pigment that was dissolved."""
    volume_ml: Annotated[float, Field(ge=LEAST, le=100_000)]
    """Volume of the first solution, made up to the mark."""
    dilution_factor: Annotated[float, Field(ge=1, le=1_000_000)] = 1.0
    """How many times that was thinned before it was read."""
    steps: Annotated[tuple[Step, ...], Field(min_length=LEAST_STEPS, max_length=60)]
    """The standards, four or more, from thin to strong."""
    readings_absorbance: Annotated[tuple[float, ...], Field(min_length=3, max_length=3)]
    """The sample read three times, the cuvette filled anew each time."""
    standard_sd_frac: Doubt = 0.03
    """How far the standards may all be off together: weighing, flask, stated purity."""
    moisture_frac: Moisture | None = None
    """Water in the sample as weighed; default that of air-dry pigment, 0.05; 0 after an oven."""
    scale_sd_mg: Annotated[float, Field(ge=0.0001, le=1000)] = 0.1
    """How far the weighing may be off (standard deviation)."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if len({step.indigo_mg_per_l for step in self.steps}) < 4:
            raise InputError(
                where="steps", what="they are of fewer than four strengths", right="a bent line needs four or more"
            )


@answer
class LedAnswer:
    """How much of the pigment is indigo, by a one-band meter."""

    version: Literal[1] = 1
    id: str
    indigo_pct: Band
    """Indigo in the dry pigment, per cent by mass."""
    indigo_mg_per_l: Band
    """Indigo in the solution that was read."""
    bend_pct: float
    """How much less than a straight line the calibration reads at its strongest standard, per cent."""
    fit_residual: float
    """Standard deviation of the standards about the bent line, in absorbance."""
    basis: Literal["readings"]
    """Always your own standards."""
    inputs: LedRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
