"""The steep record: what was put in, when, how warm, and what was noticed since."""

from __future__ import annotations

import re
from typing import Annotated, Final, Literal

from pydantic import AwareDatetime, Field

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import record
from bluewright.science.media.basket import LeafState, Plant
from bluewright.science.media.tub import Tub
from bluewright.science.steep.priors import priors_of

Method = Literal["cold", "warm", "hot"]
Level = Annotated[int, Field(ge=0, le=3)]

MAX_READINGS: Final = 200
MAX_TEMPS: Final = 5000


@record
class Temp:
    """A temperature, seen or forecast."""

    time: AwareDatetime
    where: Literal["tub", "air"]
    """In the liquor, or in the air beside the tub (in the shade)."""
    temp_c: Annotated[float, Field(ge=-40, le=105)]
    forecast: bool = False
    """True for a weather forecast of a time to come."""


@record
class Signs:
    """What eye, nose and hand notice, each on a scale of 0 (none) to 3 (strong)."""

    bubbles: Level | None = None
    scum: Level | None = None
    blue_cast: Level | None = None
    """A blue cast in bright reflected light."""
    limpness: Level | None = None
    darkness: Level | None = None
    smell: Level | None = None
    alkali_green: Level | None = None
    """How green a little liquor turns when alkali is added to it in a jar."""


@record
class Reading:
    """One look at the tub."""

    time: AwareDatetime
    signs: Signs = Signs()
    ph: Annotated[float, Field(ge=0, le=14)] | None = None
    ph_sd: Annotated[float, Field(gt=0, le=3)] | None = None
    """Standard deviation of the pH reading; 0.25 if left out."""
    dissolved_oxygen_mg_l: Annotated[float, Field(ge=0, le=25)] | None = None
    temp_c: Annotated[float, Field(ge=-5, le=105)] | None = None
    """Temperature of the liquor."""
    lab: tuple[
        Annotated[float, Field(ge=0, le=110)], Annotated[float, Field(ge=-130, le=130)],
        Annotated[float, Field(ge=-130, le=130)],
    ] | None = None  # fmt: skip
    """CIELAB (D65, 2 degree) of the liquor, measured from a photo."""
    dye_index: Annotated[float, Field(ge=-2, le=3)] | None = None
    """Of a jar made alkaline, shaken and rested: absorbance in red minus green against a jar of water."""


@record
class Move:
    """How far a garden has moved one parameter of the model, in scores of its prior."""

    centre_z: Annotated[float, Field(ge=-6, le=6)]
    spread_z: Annotated[float, Field(gt=0, le=1.5)]


@record
class Garden:
    """What a garden has taught; written by the program, opaque to people."""

    version: Literal[1] = 1
    moves: dict[str, Move]
    """By name of the parameter."""


@record
class SteepRecord:
    """One steep up to now."""

    version: Literal[1] = 1
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the tub, given back with the answer."""
    plant: Plant
    method: Method
    """`cold`: left to the weather; `warm`: kept at 25 to 45 C; `hot`: kept above 60 C."""
    started: AwareDatetime
    """When leaf and water met."""
    now: AwareDatetime
    leaf_kg: Annotated[float, Field(gt=0, le=100_000)]
    """Fresh leaf put in, weighed before washing."""
    water_l: Annotated[float, Field(gt=0, le=1_000_000)]
    leaf: LeafState = LeafState()
    tub: Tub = Tub()
    temps: Annotated[tuple[Temp, ...], Field(max_length=MAX_TEMPS)] = ()
    readings: Annotated[tuple[Reading, ...], Field(max_length=MAX_READINGS)] = ()
    can_strain: Annotated[tuple[str, ...], Field(min_length=1, max_length=96)] | None = None
    """Times of day at which you can strain (`08:00`); default any hour from 06:00 to 22:00, by the offset of `now`."""
    garden: Garden | None = None
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.now < self.started:
            raise InputError(
                where="now",
                what=f"{self.now.isoformat()} is before the steep started ({self.started.isoformat()})",
                right="it must be the same time or later",
            )
        if (self.now - self.started).days > 60:
            raise InputError(
                where="now",
                what="it is more than 60 days after the start",
                right="check both dates; a steep takes days",
            )
        for index, reading in enumerate(self.readings):
            self._check_reading(index, reading)
        known = priors_of(self.plant)
        for name in self.garden.moves if self.garden else ():
            if name not in known:
                raise InputError(
                    where=f"garden.moves.{name}",
                    what="this version has no such parameter",
                    right=f"use {', '.join(known)}, or leave the garden out",
                )
        for index, temp in enumerate(self.temps):
            if temp.time > self.now and not temp.forecast:
                raise InputError(
                    where=f"temps[{index}].time",
                    what=f"{temp.time.isoformat()} is still to come",
                    right="mark it with forecast: true, or correct the time",
                )
        for index, clock in enumerate(self.can_strain or ()):
            if not re.fullmatch(r"([01]\d|2[0-3]):[0-5]\d", clock):
                raise InputError(
                    where=f"can_strain[{index}]", what=f"'{clock}' is not a time of day", right="write it like 08:00"
                )

    def _check_reading(self, index: int, reading: Reading) -> None:
        where = f"readings[{index}].time"
        if reading.time > self.now:
            raise InputError(
                where=where, what=f"{reading.time.isoformat()} is after now", right="a reading cannot be of the future"
            )
        if reading.time < self.started:
            raise InputError(
                where=where,
                what=f"{reading.time.isoformat()} is before the steep started",
                right=f"readings begin at {self.started.isoformat()}",
            )
        if index and reading.time < self.readings[index - 1].time:
            raise InputError(
                where=where, what="it is earlier than the reading before it", right="put readings in order of time"
            )
