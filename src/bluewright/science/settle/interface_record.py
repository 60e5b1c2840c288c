"""The settling record and its answer."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import AwareDatetime, Field

from bluewright.science.base.bands import Band, BandAt
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.media.alkali_kind import UsedAlkali


@record
class EdgeReading:
    """Where the edge between clear and blue stood."""

    after_h: Annotated[float, Field(ge=0, le=10_000)]
    """Hours since the liquor was left to stand."""
    interface_mm: Annotated[float, Field(ge=0, le=20_000)]
    """Height of the edge above the bottom of the vessel."""


@record
class SettleRecord:
    """A vessel of blued liquor left to stand."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the tub, given back with the answer."""
    depth_mm: Annotated[float, Field(ge=LEAST, le=20_000)]
    """Height of the liquor's surface above the bottom."""
    liquor_l: Annotated[float, Field(ge=LEAST, le=1_000_000)] | None = None
    """Liquor in the vessel; with it the answer says how many litres may be decanted."""
    temp_c: Annotated[float, Field(ge=0, le=90)] = 18.0
    """Temperature of the liquor; cold liquor is thicker and settles slower."""
    alkali: UsedAlkali = "unknown"
    """What made it alkaline, as in the liquor record, or `none`; lime settles fastest, ammonia slowest."""
    hard_water: bool = False
    """Hard water: its calcium helps the blue to settle."""
    readings: Annotated[tuple[EdgeReading, ...], Field(max_length=500)] = ()
    """Heights of the edge, in order of time."""
    height_sd_mm: Annotated[float, Field(ge=0.5, le=500)] = 4.0
    """How far one reading of the edge may be off (standard deviation)."""
    started: AwareDatetime | None = None
    """When the liquor was left to stand; with it the answer also gives clock times."""
    now_h: Annotated[float, Field(ge=0, le=10_000)] | None = None
    """Hours since it was left to stand, now; default: the last reading."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        for i, reading in enumerate(self.readings):
            if reading.interface_mm > self.depth_mm:
                raise InputError(
                    where=f"readings[{i}].interface_mm",
                    what=f"{reading.interface_mm:g} mm is above the surface of the liquor",
                    right=f"at most depth_mm ({self.depth_mm:g}); measure both from the bottom",
                )
        for i, (before, after) in enumerate(pairwise(self.readings), start=1):
            if after.after_h <= before.after_h:
                raise InputError(
                    where=f"readings[{i}].after_h",
                    what=f"{after.after_h:g} h is not after {before.after_h:g} h",
                    right="give the readings in order of time",
                )
            if after.interface_mm > before.interface_mm + 3 * self.height_sd_mm:
                raise InputError(
                    where=f"readings[{i}].interface_mm",
                    what=f"the edge rises from {before.interface_mm:g} to {after.interface_mm:g} mm",
                    right="a settling edge only falls; if it was stirred again, start a new record from there",
                )
        if self.readings and self.now_h is not None and self.now_h < self.readings[-1].after_h:
            raise InputError(
                where="now_h",
                what=f"{self.now_h:g} h is before the last reading",
                right=f"at least {self.readings[-1].after_h:g}, or leave it out",
            )


@answer
class SettleAnswer:
    """When to look and decant, and how much clear liquor there is."""

    version: Literal[1] = 1
    id: str
    decant_after_h: Band
    """Hours of standing until the top third is clear and nothing has changed for two hours."""
    wait_h: Band
    """Hours from now until then; 0 when it is already so."""
    decant_from: AwareDatetime | None
    """Clock time of the 5 % point: no use to look before."""
    decant_by: AwareDatetime | None
    """Clock time of the 95 % point: nearly surely ready."""
    chance_ready_frac: float | None
    """Chance that it is ready now; absent when the record does not say how long it has stood."""
    fall_mm_per_h: Band
    """Speed of the edge before it slows."""
    sediment_mm: Band
    """Height of the sediment once packed."""
    clear_frac: Band
    """Share of the liquor that may be decanted then, with some left over the sediment."""
    clear_l: Band | None
    """The same in litres."""
    clear_now_l: Band | None
    """Litres that may be decanted now; absent without `liquor_l` or without a time."""
    edge_mm_by_h: tuple[BandAt, ...]
    """Height of the edge against hours of standing, to well past the moment of decanting."""
    grain_um: Band
    """Diameter of single indigo grains that would sink at this speed; flocs of that speed are many times larger."""
    rule_met: bool | None
    """Whether the readings themselves show a clear top third and no change over two hours; absent if they can't."""
    ess: float
    """Effective sample size of the fit."""
    basis: Literal["prior", "readings"]
    """What the answer rests on: practice priors alone, or your own readings too."""
    inputs: SettleRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
