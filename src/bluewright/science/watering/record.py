"""The record of a bed and its water, and the answer."""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.media.basket import Plant
from bluewright.science.media.weather.days_record import check_read
from bluewright.science.media.weather.grass import Formula
from bluewright.science.media.weather.record import BandOnDay, DayBand, Weather, check_span
from bluewright.science.watering.priors import Feel, Soil, Stage, Start, Way


@record
class StageFrom:
    """How much of the ground the leaves shade, from a day on."""

    day: date
    """From this day on."""
    stage: Stage
    """`bare`; `small`: under a quarter; `half_cover`; `full_cover`; `cut`: just cut, it grows back by itself."""


@record
class Watered:
    """Water that was given."""

    day: date
    """When."""
    water_l: Annotated[float, Field(ge=0, le=1_000_000)]
    """Litres for the whole bed."""


@record
class Felt:
    """A handful of soil from a hand's depth, squeezed."""

    day: date
    """When, before any watering of that day."""
    soil: Feel
    """`wet`: water shines; `moist`: a ball holds; `dry`: it crumbles; `dusty`: it runs through the fingers."""


@record
class BedWaterRecord:
    """A bed, its soil, what was given and felt, and the weather over it."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the bed, given back with the answer."""
    plant: Plant = "woad"
    """`woad`, `japanese_indigo` or `indigofera`."""
    area_m2: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Ground of the bed."""
    soil: Soil = "unknown"
    """`sand`, `loamy_sand`, `sandy_loam`, `loam`, `silt_loam`, `clay_loam`, `clay`; `unknown` is wide."""
    available_frac: Annotated[float, Field(ge=0.02, le=0.5)] | None = None
    """Water it holds for plants as a share of its volume, if it was measured; goes before the kind of soil."""
    root_m: Annotated[float, Field(ge=0.05, le=3)] | None = None
    """How deep roots or good soil go, if you dug; left out: by plant and time."""
    started: date
    """The day on which the count begins: best after a soaking rain or in early spring."""
    start: Start = "unknown"
    """How the ground was then: `full` after a soaking, `damp`, or `unknown`."""
    stages: Annotated[tuple[StageFrom, ...], Field(min_length=1, max_length=100)]
    """How the bed looked, in order of days; the first holds from the beginning."""
    waterings: Annotated[tuple[Watered, ...], Field(max_length=1000)] = ()
    """What was given, in order of days."""
    way: Way = "can"
    """How it is watered: `can` (or a hose held low), `hose` for a sprinkler, `drip`."""
    felt: Annotated[tuple[Felt, ...], Field(max_length=200)] = ()
    """Handfuls that were felt, in order of days; they narrow the answer more than anything else."""
    now: date
    """Today."""
    ahead_d: Annotated[int, Field(ge=1, le=30)] = 10
    """Days ahead that are looked at."""
    weather: Weather
    """The place, its climate, and its days as far as they are known; rain above all."""
    formula: Formula = "penman_monteith"
    """For evaporation: `penman_monteith`, or `hargreaves`, which takes temperatures only."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        check_span(self.started, self.now, where="now")
        check_read(self.weather, now=self.now, where="weather.")
        for name in ("stages", "felt", "waterings"):
            rows = getattr(self, name)
            for k, (before, after) in enumerate(pairwise(rows), start=1):
                if after.day < before.day or (after.day == before.day and name != "waterings"):
                    raise InputError(
                        where=f"{name}[{k}].day",
                        what=f"{after.day.isoformat()} does not come after the row before it",
                        right="sort the rows by day",
                    )
            ahead = [k for k, row in enumerate(rows) if row.day > self.now]
            if ahead and name != "stages":
                raise InputError(
                    where=f"{name}[{ahead[0]}].day", what="this lies after now", right="give what has been done"
                )


@answer
class BedWaterAnswer:
    """When the bed wants water, and how much."""

    version: Literal[1] = 1
    id: str
    water_on: date | None
    """The day to water: the first on which the bed is as likely as not past its easy water; absent if none ahead."""
    water_on_mm: Band | None
    """What keeps it from thirst for a week from that day, mm: litres on each square metre, lost ones included."""
    water_on_l: Band | None
    """The same for the whole bed."""
    dry_now_chance: float
    """Chance that the bed is past its easy water now."""
    dry_on: DayBand
    """The day on which it is past its easy water if it is not watered."""
    gone_mm: Band
    """Water missing in the root zone this morning, mm."""
    gone_frac: Band
    """The same as a share of what the root zone can hold."""
    easy_mm: Band
    """Water that the plants take without effort, mm."""
    store_mm: Band
    """Water that the root zone can hold for plants, mm."""
    fill_mm: Band
    """What would fill the root zone today, mm: litres on each square metre, lost ones included."""
    use_mm: Band
    """What the bed gives to the air in a day, mean over the days ahead."""
    rain_ahead_mm: Band
    """Rain of the next three days, mm."""
    gone_mm_by_day: tuple[BandOnDay, ...]
    """Water missing in the root zone each evening, without any more watering."""
    ess: float
    """Effective sample size: how many of the draws agree with what was felt."""
    basis: Literal["prior", "climate", "readings"]
    """What the weather rests on: a temperate climate at large, a climate table, or days read or forecast."""
    inputs: BedWaterRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
