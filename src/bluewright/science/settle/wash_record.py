"""The washing record and its answer."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record

Conductivity = Annotated[float, Field(ge=LEAST, le=200_000)]
Acidity = Annotated[float, Field(ge=0, le=14)]


@record
class RinseReading:
    """What the decanted rinse read after a wash."""

    wash: Annotated[int, Field(ge=0, le=200)]
    """Which wash, counted from 1; 0 is the first liquor, before any wash."""
    ph: Acidity | None = None
    """Its pH."""
    conductivity_us_per_cm: Conductivity | None = None
    """Its electrical conductivity."""


@record
class WashRecord:
    """A settled sludge to be washed by filling up, stirring, settling and decanting."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the batch, given back with the answer."""
    sludge_l: Annotated[float, Field(ge=LEAST, le=100_000)]
    """Sludge and liquid left after each decanting."""
    sludge_sd_frac: Annotated[float, Field(ge=LEAST, le=1)] = 0.15
    """How far that may be off, as a share of it (standard deviation)."""
    refill_l: Annotated[float, Field(ge=0.001, le=1_000_000)]
    """Fresh water added at each wash."""
    residue_frac: Annotated[float, Field(ge=LEAST, lt=1)] | None = None
    """Wanted share of the dissolved matter that may stay; default 0.01, or from the conductivity if it was read."""
    washes_done: Annotated[int, Field(ge=0, le=200)] | None = None
    """Washes done so far; default: the last wash that was read."""
    tap_ph: Acidity | None = None
    """pH of the wash water itself."""
    tap_conductivity_us_per_cm: Conductivity | None = None
    """Conductivity of the wash water itself."""
    readings: Annotated[tuple[RinseReading, ...], Field(max_length=200)] = ()
    """Readings of the decanted rinses, in order."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        for i, (before, after) in enumerate(pairwise(self.readings), start=1):
            if after.wash <= before.wash:
                raise InputError(
                    where=f"readings[{i}].wash",
                    what=f"wash {after.wash} comes after wash {before.wash}",
                    right="give the readings in the order of the washes, one each",
                )
        last = self.readings[-1].wash if self.readings else 0
        if self.washes_done is not None and self.washes_done < last:
            raise InputError(
                where="washes_done",
                what=f"{self.washes_done} washes were done, but wash {last} was read",
                right=f"at least {last}, or leave it out",
            )
        for i, reading in enumerate(self.readings):
            for name, tap in (("ph", self.tap_ph), ("conductivity_us_per_cm", self.tap_conductivity_us_per_cm)):
                if getattr(reading, name) is not None and tap is None:
                    raise InputError(
                        where=f"tap_{name}",
                        what=f"readings[{i}].{name} has nothing to be compared with",
                        right="read the wash water too, with the same meter or strip",
                    )


@answer
class Count:
    """A number of washes with its range."""

    p5: int
    """Enough only if all goes well."""
    p50: int
    """The middle."""
    p95: int
    """Nearly surely enough."""


@answer
class Residue:
    """What stays after a number of washes."""

    wash: int
    """Washes done."""
    residue_frac: Band
    """Share of what was dissolved in the sludge at the start that is still there."""


@answer
class Split:
    """The same water used in another number of washes."""

    washes: int
    """Into how many equal washes it is split."""
    each_l: float
    """Water of each."""
    residue_frac: Band
    """What then stays."""


@answer
class WashAnswer:
    """How many washes, how much water, and what stays."""

    version: Literal[1] = 1
    id: str
    target_frac: float
    """The residue that is aimed at."""
    washes: Count
    """Washes in all until then."""
    washes_left: Count
    """Washes still to do."""
    water_l: Band
    """Water for the washes still to do."""
    residue_now_frac: Band
    """What is left now."""
    residues: tuple[Residue, ...]
    """What is left after each wash, from the next one on."""
    splits: tuple[Split, ...]
    """What the water of all washes would do as one large wash, or as more and smaller ones."""
    rule_met: bool | None
    """Whether the last reading met a stop rule: pH within 0.5 of the tap, or conductivity within a tenth."""
    rule: str
    """Which rule decided that, in words; empty if none could."""
    ess: float
    """Effective sample size of the fit."""
    basis: Literal["prior", "readings"]
    """What the answer rests on: the volumes alone, or conductivity readings too."""
    inputs: WashRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
