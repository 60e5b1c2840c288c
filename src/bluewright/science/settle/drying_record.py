"""The drying record and its answer."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band, BandAt
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record


@record
class Weighing:
    """What the dish with the paste weighed."""

    after_h: Annotated[float, Field(ge=0, le=10_000)]
    """Hours since it was put to dry."""
    total_g: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Dish and paste together."""


@record
class DryRecord:
    """A dish of paste put to dry."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the dish, given back with the answer."""
    dish_g: Annotated[float, Field(ge=0, le=1_000_000)]
    """The empty dish."""
    weighings: Annotated[tuple[Weighing, ...], Field(min_length=1, max_length=500)]
    """Dish and paste, in order of time; from the third on the curve is read rather than guessed."""
    scale_sd_g: Annotated[float, Field(ge=LEAST, le=1000)] = 0.5
    """How far one weighing may be off (standard deviation): kitchen scales 0.5 to 1, pocket scales 0.02."""
    layer_mm: Annotated[float, Field(ge=LEAST, le=200)] | None = None
    """How thick the wet paste lies; without it 5 mm, widely."""
    temp_c: Annotated[float, Field(ge=0, le=90)] = 20.0
    """Temperature of the air around it."""
    humidity_frac: Annotated[float, Field(ge=0, le=0.99)] = 0.55
    """Relative humidity of that air, 0 to 1."""
    wind_m_per_s: Annotated[float, Field(ge=0, le=15)] = 0.0
    """Air moving over it: 0 in a still room, about 1 before a fan."""
    end_moisture_frac: Annotated[float, Field(ge=0, le=0.3)] | None = None
    """Water that air-dry pigment still holds; default 0.05, give or take 0.01."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        for i, weighing in enumerate(self.weighings):
            if weighing.total_g <= self.dish_g:
                raise InputError(
                    where=f"weighings[{i}].total_g",
                    what=f"{weighing.total_g:g} g is not more than the empty dish",
                    right=f"dish and paste together weigh more than {self.dish_g:g} g",
                )
        for i, (before, after) in enumerate(pairwise(self.weighings), start=1):
            if after.after_h <= before.after_h:
                raise InputError(
                    where=f"weighings[{i}].after_h",
                    what=f"{after.after_h:g} h is not after {before.after_h:g} h",
                    right="give the weighings in order of time",
                )
            paste_g = before.total_g - self.dish_g
            if after.total_g > before.total_g + 4 * self.scale_sd_g + 0.05 * paste_g:
                raise InputError(
                    where=f"weighings[{i}].total_g",
                    what=f"it grew from {before.total_g:g} to {after.total_g:g} g",
                    right="drying paste loses mass; was something added, or another dish weighed?",
                )


@answer
class DryAnswer:
    """How dry it is, how long it still takes, and what will be left."""

    version: Literal[1] = 1
    id: str
    end_g: Band
    """Mass of the pigment once air-dry, without the dish."""
    dry_g: Band
    """Mass without any water: the air-dry mass times (1 - moisture)."""
    moisture_now_frac: Band
    """Water in the paste at the last weighing, as a share of its mass."""
    left_h: Band
    """Hours from the last weighing until less than a hundredth would be lost in a day."""
    mass_g_by_h: tuple[BandAt, ...]
    """Mass of the paste, without the dish, against hours from the first weighing."""
    rate_per_h: Band
    """Drying constant k of Lewis' and Page's law: one over the time to lose 63 % of the water."""
    exponent: Band
    """Exponent of Page's law: 1 is Lewis' law, more means a steadier loss at first."""
    rule_met: bool | None
    """Whether two weighings a day or more apart show less than a hundredth lost a day; absent if they can't."""
    open_water_kg_per_m2_h: float
    """What open water would lose in this air, kg for each square metre and hour."""
    ess: float
    """Effective sample size of the fit."""
    basis: Literal["prior", "readings"]
    """`readings` from the third weighing on; before, the forecast rests on evaporation and practice."""
    inputs: DryRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
