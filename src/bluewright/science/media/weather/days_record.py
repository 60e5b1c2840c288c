"""The record of a span of weather and its answer."""

from __future__ import annotations

from datetime import date
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.media.weather.degree_days import Rule
from bluewright.science.media.weather.grass import Formula
from bluewright.science.media.weather.record import BandOnDay, DayBand, Weather, check_span


@record
class WeatherRecord:
    """A span of days at a place, and what to count of them."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the place or season, given back with the answer."""
    weather: Weather
    """The place, its climate, and its days as far as they are known."""
    first: date
    """The first day that is counted."""
    last: date
    """The last day that is counted; it may lie ahead."""
    now: date | None = None
    """Today; left out: the last day that was read, or the first of the span. A forecast errs more the further ahead."""
    base_c: Annotated[float, Field(ge=-20, le=40)] = 5.0
    """Degree-days are counted above this: woad 5, Japanese indigo 10."""
    cutoff_c: Annotated[float, Field(ge=-20, le=60)] | None = None
    """Warmth above this counts no more; left out: all warmth counts."""
    rule: Rule = "sine"
    """How a day is counted; keep to one, sums by two rules differ."""
    target_degree_d: Annotated[float, Field(ge=LEAST, le=20_000)] | None = None
    """A sum of degree-days of which the day is wanted."""
    formula: Formula = "penman_monteith"
    """For evaporation: `penman_monteith`, or `hargreaves`, which takes temperatures only."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        check_span(self.first, self.last)
        check_read(self.weather, now=self.now, where="weather.")
        if self.cutoff_c is not None and self.cutoff_c <= self.base_c:
            raise InputError(
                where="cutoff_c", what=f"{self.cutoff_c:g} C is not above the base", right="give a warmer cut-off"
            )
        if self.cutoff_c is not None and self.rule == "quarters":
            raise InputError(
                where="cutoff_c", what="the rule `quarters` has none", right="leave it out, or choose `sine`"
            )

    @property
    def today(self) -> date:
        """The day of asking."""
        read = [row.day for row in self.weather.days if not row.forecast]
        return self.now or max([self.first, *read[-1:]])


def check_read(weather: Weather, *, now: date | None, where: str) -> None:
    """What lies after today is a forecast."""
    for k, row in enumerate(weather.days):
        if now is not None and row.day > now and not row.forecast:
            raise InputError(
                where=f"{where}days[{k}].day",
                what="this lies after now",
                right="what lies ahead is a forecast: say forecast true",
            )


@answer
class DayFound:
    """What is believed of one day."""

    day: date
    """The day."""
    known: Literal["read", "forecast", "part", "filled"]
    """Both temperatures read, both forecast, one of them known, or none."""
    min_c: Band
    """Coldest."""
    max_c: Band
    """Warmest."""
    rain_mm: Band
    """Rain, mm: litres on each square metre."""
    eto_mm: Band
    """Reference evapotranspiration: what well watered short grass gives to the air, mm."""


@answer
class WeatherAnswer:
    """A span of weather without gaps, and its sums."""

    version: Literal[1] = 1
    id: str
    degree_d: Band
    """Degree-days of the whole span."""
    degree_d_by_day: tuple[BandOnDay, ...]
    """Degree-days from the first day to the evening of each."""
    reached_on: DayBand | None
    """The day on which the wanted sum is reached; absent if none was asked for."""
    reached_chance: float | None
    """Chance that it is reached within the span."""
    rain_mm: Band
    """Rain of the whole span."""
    eto_mm: Band
    """Reference evapotranspiration of the whole span."""
    days: tuple[DayFound, ...]
    """Day by day."""
    days_read: int
    """Days with both temperatures read."""
    days_forecast: int
    """Days with both temperatures forecast."""
    days_filled: int
    """Days of which one temperature or both were filled from neighbours and climate."""
    days_without_rain_read: int
    """Days up to today of which the rain was not written down."""
    basis: Literal["prior", "climate", "readings"]
    """A temperate climate at large; or the table of months; or days read or forecast too."""
    inputs: WeatherRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
