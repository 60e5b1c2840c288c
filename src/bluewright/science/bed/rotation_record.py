"""The record of what grew in a bed, and whether a plant may follow."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.records import answer, record
from bluewright.science.media.basket import Plant

Advice = Literal["fits", "wait", "not_here"]
Year = Annotated[int, Field(ge=1900, le=2200)]


@record
class Grown:
    """What stood in the bed in one year."""

    year: Year
    """Like 2024."""
    family: Literal["cabbage", "other"]
    """`cabbage` for cabbages, radish, rape, mustard, rocket and woad itself, self-sown too; `other` for all else."""
    clubroot: bool = False
    """Whether roots were found swollen."""


@record
class RotationRecord:
    """What grew in one bed, and what is to be sown."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the bed, given back with the answer."""
    plant: Plant
    """What is to be sown: `woad`, `japanese_indigo` or `indigofera`."""
    sow_year: Year
    """The year of sowing."""
    grown: Annotated[tuple[Grown, ...], Field(max_length=100)] = ()
    """What grew there, as far back as you know; a year that is left out is taken as free of the cabbage family."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""


@answer
class RotationAnswer:
    """Whether the plant may follow in this bed."""

    version: Literal[1] = 1
    id: str
    advice: Advice
    """It `fits`; `wait` some years; or `not_here` where clubroot was seen too lately."""
    last_year: int | None = None
    """The last year of the cabbage family before sowing; absent where there was none, or it does not matter."""
    wait_years: int
    """Years still to wait; 0 where it fits."""
    spores_left_frac: Band | None = None
    """Share of the clubroot spores of that year that would still be alive at sowing, if there were any."""
    basis: Literal["prior"]
    """Published half-lives and practice alone."""
    inputs: RotationRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
