"""The steep record: what was put in, when, how warm, and what was noticed since."""

from __future__ import annotations

import re
from dataclasses import fields
from typing import Annotated, Final, Literal

import numpy as np
from pydantic import AwareDatetime, Field

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import record
from bluewright.science.base.sourced import Floats
from bluewright.science.media.basket import LeafState, Plant
from bluewright.science.media.tub import Tub
from bluewright.science.steep.priors import priors_of

Method = Literal["cold", "warm", "hot"]
Level = Annotated[int, Field(ge=0, le=3)]

CONTENT_NAME: Final = "content_mmol_per_kg"
"""What the leaf of a steep holds, among the parameters."""
INSTRUMENTS: Final = ("ph", "temp_c", "dissolved_oxygen_mg_l", "dye_index", "light_l", "light_a", "light_b")
"""The numbers a reading may bring, each with its own bias."""
MAX_READINGS: Final = 200
MAX_TEMPS: Final = 5000


@record
class Temp:
    """A temperature, seen or forecast."""

    time: AwareDatetime
    """When it was read, or for when it is forecast."""
    where: Literal["tub", "air"]
    """In the liquor, or in the air beside the tub (in the shade)."""
    temp_c: Annotated[float, Field(ge=-30, le=100)]
    """Degrees Celsius."""
    forecast: bool = False
    """True for a weather forecast of a time to come."""


@record
class Signs:
    """What eye, nose and hand notice, each on a scale of 0 (none) to 3 (strong)."""

    bubbles: Level | None = None
    """0 none, 1 a few at the rim, 2 rising steadily, 3 lively, frothing."""
    scum: Level | None = None
    """0 none, 1 a thin shimmer, 2 a film, coppery or blue, 3 a thick blue skin."""
    blue_cast: Level | None = None
    """In bright reflected light: 0 none, 1 a hint at the edge, 2 clear, 3 strong, like a gemstone."""
    limpness: Level | None = None
    """Of the leaves: 0 crisp, 1 bends, 2 limp and olive, 3 slimy, see-through."""
    darkness: Level | None = None
    """Of the liquor: 0 clear and pale, 1 straw to yellow-green, 2 tea, 3 dark brown."""
    smell: Level | None = None
    """0 fresh, like grass, 1 sweet or fruity, 2 cabbage, 3 foul."""
    alkali_green: Level | None = None
    """A little liquor with alkali in a jar: 0 stays brown, 1 yellowish green, 2 green, 3 deep green, soon blue."""


@record
class Reading:
    """One look at the tub."""

    time: AwareDatetime
    """When the look was taken; not after `now`, and in order."""
    signs: Signs = Signs()
    """What was noticed; leave out what was not looked at."""
    ph: Annotated[float, Field(ge=0, le=14)] | None = None
    """pH of the liquor."""
    ph_sd: Annotated[float, Field(gt=0, le=3)] | None = None
    """Standard deviation of the pH reading; 0.25 if left out."""
    dissolved_oxygen_mg_l: Annotated[float, Field(ge=0, le=25)] | None = None
    """Dissolved oxygen of the liquor, below the surface."""
    temp_c: Annotated[float, Field(ge=-5, le=105)] | None = None
    """Temperature of the liquor."""
    lab: tuple[
        Annotated[float, Field(ge=0, le=110)], Annotated[float, Field(ge=-130, le=130)],
        Annotated[float, Field(ge=-130, le=130)],
    ] | None = None  # fmt: skip
    """CIELAB (D65, 2 degree) of the liquor, measured from a photo."""
    dye_index: Annotated[float, Field(ge=-10, le=100)] | None = None
    """Of a jar made alkaline, shaken and rested: absorbance in red minus green against a jar of water, for each
    centimetre, undiluted."""
    dye_index_sd: Annotated[float, Field(gt=0, le=10)] | None = None
    """Standard deviation of that reading by itself; 0.02 if left out."""


@record
class Move:
    """How far a garden has moved one parameter of the model, in scores of its prior."""

    centre_z: Annotated[float, Field(ge=-6, le=6)]
    """Where the parameter now is believed to be."""
    spread_z: Annotated[float, Field(gt=0, le=3)]
    """How widely; 1 is as widely as before."""


@record
class Garden:
    """What a garden has taught; written by the program, opaque to people."""

    version: Literal[1] = 1
    """Version of this object."""
    moves: dict[str, Move]
    """By name of the parameter, sign or instrument."""
    together: tuple[tuple[Annotated[float, Field(gt=-1, lt=1)], ...], ...] = ()
    """How the moves hang together: for each move, in their order, its correlations with those before it (for the first
    an empty list). Left out, they stand alone."""

    def __post_init__(self) -> None:
        if not self.together:
            return
        if [len(row) for row in self.together] != list(range(len(self.moves))):
            raise InputError(
                where="together",
                what="it does not go with the moves",
                right="give for each move its correlations with every move before it",
            )
        if np.linalg.eigvalsh(self.correlation).min() <= 0:
            raise InputError(
                where="together", what="no moves can hang together so", right="leave the garden as it was written"
            )

    @property
    def correlation(self) -> Floats:
        """Correlations of all moves, (k, k)."""
        found = np.eye(len(self.moves))
        for row, values in enumerate(self.together):
            found[row, :row] = found[:row, row] = values
        return found


def learnable(plant: Plant) -> tuple[str, ...]:
    """Names of all that a garden may move: parameters of the plant, its leaf's content, signs and instruments."""
    return (*priors_of(plant), CONTENT_NAME, *(field.name for field in fields(Signs)), *INSTRUMENTS)


@record
class SteepRecord:
    """One steep up to now."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the tub, given back with the answer."""
    plant: Plant
    """`woad`, `japanese_indigo` or `indigofera`."""
    method: Method
    """`cold`: left to the weather; `warm`: kept at 25 to 45 C; `hot`: kept above 60 C."""
    started: AwareDatetime
    """When leaf and water met."""
    now: AwareDatetime
    """The present moment; its offset is the clock that the answer speaks in."""
    leaf_kg: Annotated[float, Field(gt=0, le=100_000)]
    """Fresh leaf put in, weighed before washing."""
    water_l: Annotated[float, Field(gt=0, le=1_000_000)]
    """Water put in."""
    leaf: LeafState = LeafState()
    """In what state the leaf went in."""
    tub: Tub = Tub()
    """The tub; an ordinary lidded one if left out."""
    temps: Annotated[tuple[Temp, ...], Field(max_length=MAX_TEMPS)] = ()
    """Temperatures of tub and air, seen or forecast; with none at all a wide guess for the season is taken."""
    readings: Annotated[tuple[Reading, ...], Field(max_length=MAX_READINGS)] = ()
    """Every look at the tub so far, in order of time."""
    can_strain: Annotated[tuple[str, ...], Field(min_length=1, max_length=96)] | None = None
    """Times of day at which you can strain (`08:00`); default any hour from 06:00 to 22:00, by the offset of `now`."""
    hemisphere: Literal["north", "south"] = "north"
    """Which half of the earth: without temperatures the season is guessed from the date."""
    garden: Garden | None = None
    """What this garden has taught, if the program has written it down."""
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
        known = learnable(self.plant)
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
