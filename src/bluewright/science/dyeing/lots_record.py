"""The record of jars and a job, and which of them to mix."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record

MOST_JARS: Final = 12
MOST_MIXED: Final = 4


@record
class LotJar:
    """A jar of dry pigment."""

    name: Annotated[str, Field(min_length=1, max_length=80)]
    """What it is called."""
    mass_g: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Pigment in it."""
    purity_frac: Annotated[float, Field(ge=0.001, le=1)]
    """Share of it that is pure indigo."""
    purity_sd_frac: Annotated[float, Field(ge=0.0001, le=0.5)]
    """How far that share may be off: a standard deviation, in the share itself (0.35 give or take 0.03)."""
    filled: date | None = None
    """The day it was filled."""


@record
class LotsRecord:
    """Jars, and what a job needs."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the job, given back with the answer."""
    jars: Annotated[tuple[LotJar, ...], Field(min_length=1, max_length=MOST_JARS)]
    """The jars that may go into it."""
    pure_g: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Pure indigo that the job needs: on the cloth, loose, and for the strength of the vat."""
    wanted_purity_frac: Annotated[float, Field(ge=0.001, le=1)] | None = None
    """Purity that the mix is to have, as that of an earlier one; left out, any."""
    most_jars: Annotated[int, Field(ge=1, le=MOST_MIXED)] = 3
    """At most so many jars are opened."""
    oldest_first: bool = False
    """Whether older jars go first: none is opened while an older one has pigment left."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Kept for all records; nothing here is drawn at random."""

    def __post_init__(self) -> None:
        names = [jar.name for jar in self.jars]
        for place, name in enumerate(names):
            if name in names[:place]:
                raise InputError(
                    where=f"jars[{place}].name", what=f"{name!r} stands twice", right="give each jar its own name"
                )
        if self.oldest_first and self.wanted_purity_frac is not None:
            raise InputError(
                where="wanted_purity_frac", what="the order of age leaves no choice of purity",
                right="leave it out, or let older jars not go first",
            )  # fmt: skip
        if self.oldest_first:
            missing = [place for place, jar in enumerate(self.jars) if jar.filled is None]
            if missing:
                raise InputError(
                    where=f"jars[{missing[0]}].filled", what="it is missing, and older jars are to go first",
                    right="say when it was filled",
                )  # fmt: skip


@answer
class Part:
    """What goes in from one jar."""

    name: str
    """The jar."""
    take_g: float
    """Pigment to weigh out of it."""
    pure_g: float
    """Pure indigo in that, in the middle."""
    left_g: float
    """Pigment that stays in the jar."""


@answer
class LotsAnswer:
    """Which jars to mix."""

    version: Literal[1] = 1
    id: str
    held_g: Band
    """Pure indigo in all the jars."""
    missing_g: float
    """Pure indigo that they lack for the job, in the middle; 0 if they hold enough."""
    mixed: bool
    """Whether a mix was found."""
    parts: tuple[Part, ...]
    """What to take from which jar, the largest part first; empty without a mix."""
    pure_g: Band | None = None
    """Pure indigo in the mix."""
    purity_pct: Band | None = None
    """Purity of the mix, per cent."""
    spread_pct: float | None = None
    """How far the indigo of the mix may be off, per cent of it: one standard deviation."""
    single_spread_pct: float | None = None
    """The same of the best single jar that holds enough; absent where none does."""
    short_chance: float | None = None
    """Chance that the mix holds less than nine tenths of what the job needs."""
    basis: Literal["readings"]
    """Your own jars."""
    inputs: LotsRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
