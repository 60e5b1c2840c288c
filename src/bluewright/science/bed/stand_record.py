"""The record of counted frames in a bed, and its answer."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.published import Figure
from bluewright.science.base.records import answer, record
from bluewright.science.media.basket import Plant

Origin = Literal["sown", "transplanted", "self_sown"]
Purpose = Literal["leaf", "seed"]


@record
class StandRecord:
    """Plants counted in a frame that was laid down here and there in one bed."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the bed, given back with the answer."""
    plant: Plant
    """`woad`, `japanese_indigo` or `indigofera`."""
    origin: Origin = "sown"
    """`sown`, `transplanted` or `self_sown`: self-sown plants stand in clumps."""
    purpose: Purpose = "leaf"
    """What the bed is for: `leaf` or `seed`."""
    frame_m2: Annotated[float, Field(ge=0.01, le=25)]
    """Area inside the frame; half a metre by half a metre is 0.25."""
    counts: Annotated[tuple[Annotated[int, Field(ge=0, le=10_000)], ...], Field(min_length=1, max_length=500)]
    """Plants with at least two true leaves in each frame, in any order; empty frames count, as 0."""
    bolting: Annotated[int, Field(ge=0, le=1_000_000)] | None = None
    """How many of all the counted plants have a flower stem; left out where nobody looked."""
    bed_m2: Annotated[float, Field(ge=0.1, le=1_000_000)] | None = None
    """Area of the bed; the answer then says how many plants stand in it."""
    wanted_error_frac: Annotated[float, Field(ge=0.02, le=1)] = 0.2
    """How far off the density may be; the answer says how many more frames that takes."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        counted = sum(self.counts)
        if self.bolting is not None and self.bolting > counted:
            raise InputError(
                where="bolting",
                what=f"{self.bolting} is more than the {counted} plants that were counted",
                right="give how many of the counted plants have a flower stem",
            )


@answer
class StandAnswer:
    """How many plants stand on a square metre, and whether to thin them."""

    version: Literal[1] = 1
    id: str
    density_per_m2: Band
    """Plants on a square metre, as a mean over the bed."""
    in_bed_plants: Band | None = None
    """Plants in the whole bed; absent where its area is not given."""
    leafy_per_m2: Band | None = None
    """Plants without a flower stem on a square metre; absent where stems were not looked for."""
    bolting_frac: Band | None = None
    """Share of the plants with a flower stem."""
    clumping_factor: Band
    """Variance of a frame's count over its mean: 1 where plants stand as if thrown at random, more in clumps."""
    more_frames: Band
    """Frames to be counted beside these until the range is as narrow as wanted; 0 if it is already."""
    target: Figure
    """Plants on a square metre to aim at, with the range in which the yield of an area hardly changes."""
    sparse_chance: float
    """Chance that the stand is thinner than that range."""
    dense_chance: float
    """Chance that it is thicker."""
    advice: Literal["leave", "thin", "fill", "count_more"]
    """`leave` it, `thin` it, `fill` gaps, or `count_more` before doing either."""
    keep_frac: Band
    """Share of the plants to keep to come down to the middle of the range; 1 keeps all."""
    spacing_mm: float
    """Distance from plant to plant, each way, at the middle of the range."""
    basis: Literal["readings"]
    """Your own counts, and a guess at how such a stand clumps."""
    inputs: StandRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
