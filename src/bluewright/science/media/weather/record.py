"""What is known of the weather at a place: days as they were read or forecast, and the climate of its months."""

from __future__ import annotations

from datetime import date
from itertools import pairwise
from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import answer, record

TempC = Annotated[float, Field(ge=-60, le=60)]
Share = Annotated[float, Field(ge=0.01, le=1)]
WindMPerS = Annotated[float, Field(ge=0, le=40)]
RainMm = Annotated[float, Field(ge=0, le=2000)]

MONTHS: Final = 12
LONGEST_D: Final = 400
"""A span longer than this is refused: it holds two seasons."""


@record
class WeatherDay:
    """One day as far as it is known; what is left out is filled from its neighbours and the climate."""

    day: date
    """The day, like 2026-07-03."""
    min_c: TempC | None = None
    """Coldest of the day, in the shade."""
    max_c: TempC | None = None
    """Warmest of the day, in the shade."""
    rain_mm: RainMm | None = None
    """Rain of the day; 0 for a dry day. Left out means not known, which is not dry."""
    humidity_frac: Share | None = None
    """Mean relative humidity, 0 to 1."""
    humidity_low_frac: Share | None = None
    """Lowest relative humidity; better than the mean, together with the highest."""
    humidity_high_frac: Share | None = None
    """Highest relative humidity."""
    wind_m_per_s: WindMPerS | None = None
    """Mean wind of the day, at the height that the place says."""
    sunshine_h: Annotated[float, Field(ge=0, le=24)] | None = None
    """Hours of sunshine."""
    radiation_mj_per_m2: Annotated[float, Field(ge=0, le=50)] | None = None
    """Sun on a level square metre over the day, in megajoules, as stations give it; goes before sunshine."""
    forecast: bool = False
    """True for a day to come, as a forecast gave it."""

    def __post_init__(self) -> None:
        if self.min_c is not None and self.max_c is not None and self.min_c > self.max_c:
            raise InputError(
                where="min_c",
                what=f"the minimum {self.min_c:g} C is above the maximum {self.max_c:g} C",
                right="give the colder one as min_c; were they swapped?",
            )
        if (self.humidity_low_frac is None) != (self.humidity_high_frac is None):
            raise InputError(
                where="humidity_low_frac",
                what="the lowest and the highest humidity belong together and one is missing",
                right="give both, or the mean as humidity_frac",
            )
        if (self.humidity_low_frac or 0.0) > (self.humidity_high_frac or 1.0):
            raise InputError(
                where="humidity_low_frac",
                what="the lowest humidity is above the highest",
                right="give the lower one as humidity_low_frac; were they swapped?",
            )


@record
class MonthNormal:
    """What is usual in one month: means over many years, as climate tables print them."""

    min_c: TempC
    """Mean of the daily coldest."""
    max_c: TempC
    """Mean of the daily warmest."""
    rain_mm: RainMm | None = None
    """Rain of the whole month."""
    wet_d: Annotated[float, Field(ge=0, le=31)] | None = None
    """Days with a millimetre of rain or more; left out: as many as 5 mm a rainy day make."""
    humidity_frac: Share | None = None
    """Mean relative humidity, 0 to 1."""
    wind_m_per_s: WindMPerS | None = None
    """Mean wind, at the height that the place says."""

    def __post_init__(self) -> None:
        if self.min_c > self.max_c:
            raise InputError(
                where="min_c",
                what=f"the mean minimum {self.min_c:g} C is above the mean maximum {self.max_c:g} C",
                right="give the colder one as min_c; were they swapped?",
            )
        if self.rain_mm and self.wet_d == 0:
            raise InputError(
                where="wet_d",
                what=f"{self.rain_mm:g} mm fall in a month without a rainy day",
                right="give the number of days with rain, or leave it out",
            )


@record
class Weather:
    """A place, its climate if it is known, and its days."""

    latitude_deg: Annotated[float, Field(ge=-66, le=66)]
    """Degrees north of the equator; south of it below 0."""
    altitude_m: Annotated[float, Field(ge=-430, le=5500)] = 0.0
    """Height above the sea."""
    coast: bool = False
    """True by the sea or a great lake: there the day's range tells less of the sun."""
    wind_height_m: Annotated[float, Field(ge=1, le=50)] = 2.0
    """Height at which the wind is measured; weather stations and forecasts: 10."""
    normals: Annotated[tuple[MonthNormal, ...], Field(max_length=MONTHS)] = ()
    """The climate of the twelve months, January first; left out: a temperate climate, widely."""
    days: Annotated[tuple[WeatherDay, ...], Field(max_length=1000)] = ()
    """Days read or forecast, in order; there may be gaps."""

    def __post_init__(self) -> None:
        if len(self.normals) not in {0, MONTHS}:
            raise InputError(
                where="normals", what=f"{len(self.normals)} months", right="give all twelve from January on, or none"
            )
        for k, (before, after) in enumerate(pairwise(self.days), start=1):
            if after.day <= before.day:
                raise InputError(
                    where=f"days[{k}].day",
                    what=f"{after.day.isoformat()} does not come after the row before it",
                    right="sort the rows by day, and give each day once",
                )

    @property
    def hemisphere(self) -> Literal["north", "south"]:
        """Which half of the earth."""
        return "north" if self.latitude_deg >= 0 else "south"


def check_span(first: date, last: date, *, where: str = "last") -> None:
    """Refuse a span that ends before it begins, or that is longer than a season."""
    if last < first:
        raise InputError(where=where, what="it is before the first day", right="give a later day")
    if (last - first).days >= LONGEST_D:
        raise InputError(where=where, what=f"it is {LONGEST_D} days or more on", right="ask for a shorter span")


@answer
class BandOnDay:
    """A band on one day; the unit stands in the name of the field that holds the curve."""

    day: date
    """The day."""
    p5: float
    """Nineteen times in twenty the truth is believed to be above this."""
    p50: float
    """The middle."""
    p95: float
    """Nineteen times in twenty the truth is believed to be below this."""


@answer
class DayBand:
    """The day on which something happens; an end that lies beyond the days asked for is absent."""

    early: date | None = None
    """Once in twenty it has happened by this day."""
    middle: date | None = None
    """As likely before as after."""
    late: date | None = None
    """Nineteen times in twenty it has happened by this day."""
