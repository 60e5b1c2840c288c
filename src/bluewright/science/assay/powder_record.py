"""The record of purity by the colour of the dry powder, and its answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import answer, record

LEAST_ASSAYS = 8
Lab = Annotated[tuple[float, ...], Field(min_length=3, max_length=3)]


@record
class KnownPowder:
    """A pigment of yours whose indigo was measured another way, and the colour of its powder."""

    lab: Lab
    """Colour of the dry, ground, flat powder: CIELAB, D65."""
    indigo_frac: Annotated[float, Field(ge=0.005, le=0.99)]
    """Indigo in it, dry, as it was measured."""


@record
class PowderRecord:
    """Your own assays with the colour of each powder, and the colour of a new one."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the pigment, given back with the answer."""
    lab: Lab
    """Colour of the new powder, taken in the same way: same card, same light, same grinding."""
    known: Annotated[tuple[KnownPowder, ...], Field(min_length=LEAST_ASSAYS, max_length=500)]
    """Eight or more pigments of your own that were assayed."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        for where, lab in [("lab", self.lab), *((f"known[{i}].lab", one.lab) for i, one in enumerate(self.known))]:
            if not (0 <= lab[0] <= 100 and all(abs(one) <= 130 for one in lab[1:])):
                raise InputError(where=where, what=f"{lab} is no colour", right="give L from 0 to 100, then a and b")


@answer
class PowderAnswer:
    """How much of the pigment is indigo, by the colour of its powder and your own rule."""

    version: Literal[1] = 1
    id: str
    indigo_pct: Band
    """Indigo in the dry pigment, per cent: where the next assay of such a powder is expected."""
    predictors: tuple[str, ...]
    """Which of L, a and b your rule goes by."""
    left_out_sd: float
    """Typical error, on the logit scale, when each assay in turn is told by the others."""
    explained_frac: float
    """Share of the variance among your assays that the rule explains when each is left out; 0 if it explains none."""
    assays: int
    """How many the rule rests on."""
    basis: Literal["readings"]
    """Always your own assays."""
    inputs: PowderRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
