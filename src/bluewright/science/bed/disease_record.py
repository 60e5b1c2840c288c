"""The record of scored leaves, and what their damage costs."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.media.basket import Plant

Cause = Literal[
    "powdery_mildew", "white_rust", "downy_mildew", "black_spot", "clubroot", "flea_beetle", "caterpillars", "slugs"
]
Grade = Literal["clean", "touch", "light", "clear", "heavy", "half", "ruined"]
"""Grades of our own, by the share of the leaf's area: see `disease.GRADE_TOPS`."""
Percent = Annotated[float, Field(ge=0, le=100)]


@record
class DiseaseRecord:
    """Leaves taken blindly from all over one bed, each scored by how much of its area is damaged."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the bed, given back with the answer."""
    plant: Plant
    """`woad`, `japanese_indigo` or `indigofera`."""
    spotted_pct: Annotated[tuple[Percent, ...], Field(max_length=500)] = ()
    """For each leaf the percent of its area that is spotted, mildewed, rusty or dead; 0 for a clean leaf."""
    eaten_pct: Annotated[tuple[Percent, ...], Field(max_length=500)] = ()
    """For each leaf the percent of its area that is missing: holes and bitten edges."""
    with_key: bool = True
    """Whether the leaves were held against drawn ones; by eye alone most people see too much."""
    cause: Cause | None = None
    """What it is, if you know: `powdery_mildew`, `white_rust`, `downy_mildew`, `black_spot`, `clubroot`, `flea_beetle`,
    `caterpillars` or `slugs`."""
    leaf_kg: Annotated[float, Field(ge=LEAST, le=100_000)] | None = None
    """Leaf that would be picked now; the answer then says the cost in grams of blue."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if not self.spotted_pct and not self.eaten_pct:
            raise InputError(
                where="spotted_pct", what="no leaf was scored", right="give a percent for each leaf, 0 for a clean one"
            )


@answer
class GradeCount:
    """How many leaves fell into a grade of damage."""

    grade: Grade
    up_to_frac: float
    """The upper end of the grade, as share of the leaf's area."""
    spotted: int
    eaten: int


@answer
class DiseaseAnswer:
    """How much of the leaf is damaged in the bed, and what that costs in blue."""

    version: Literal[1] = 1
    id: str
    spotted_frac: Band | None = None
    """Share of the leaf area that is spotted, as a mean over the leaves of the bed; absent where it was not scored."""
    eaten_frac: Band | None = None
    """Share of the leaf area that is missing."""
    touched_frac: Band
    """Share of the leaves with any damage."""
    grades: tuple[GradeCount, ...]
    """The scored leaves by grade of damage."""
    cost_per_kg_frac: Band
    """Share of the blue that a kilogram of such leaf has less than sound leaf; below 0 where it would have more."""
    cost_per_m2_frac: Band
    """Share of the blue that a square metre has less: what is eaten is gone, what is spotted holds less."""
    cost_g: Band | None = None
    """Pure blue that the spots cost in the leaf to be picked, grams; absent where no leaf was given."""
    basis: Literal["readings"]
    """Your own scores, and a judgement of what damage does to the precursor."""
    inputs: DiseaseRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
