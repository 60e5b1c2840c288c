"""The tub-temperature record and its answer."""

from __future__ import annotations

from datetime import date, datetime
from itertools import pairwise
from typing import Annotated, Final, Literal

from pydantic import AwareDatetime, Field

from bluewright.science.base.bands import Band, BandAtTime
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record
from bluewright.science.base.sourced import Sourced
from bluewright.science.media.tub import Tub

TempC = Annotated[float, Field(ge=-30, le=100)]
ErrorC = Annotated[float, Field(ge=LEAST, le=30)]

LONGEST_D: Final = 31
THERMOMETER_ERROR: Final = Sourced(
    value=0.5, unit="C", source="common-practice", low=0.2, high=1.5, grade="practice",
    note="a kitchen thermometer in a stirred tub",
)  # fmt: skip


@record
class AirDay:
    """One day of air: its coldest and warmest, read or forecast."""

    day: date
    """The day, like 2026-07-03."""
    min_c: TempC
    """Coldest of the day."""
    max_c: TempC
    """Warmest of the day."""
    forecast: bool = False
    """True for a day to come, as a forecast gave it."""
    error_c: ErrorC | None = None
    """Standard error of both; left out: 1 C read, and for a forecast 1.5 C and 0.3 C more for each day ahead."""

    def __post_init__(self) -> None:
        if self.min_c > self.max_c:
            raise InputError(
                where="min_c",
                what=f"the minimum {self.min_c:g} C is above the maximum {self.max_c:g} C",
                right="give the colder one as min_c; were they swapped?",
            )


@record
class AirPoint:
    """One air temperature, from a logger or a thermometer in the shade."""

    time: AwareDatetime
    """When, with the offset from UTC."""
    temp_c: TempC
    """Air temperature."""
    forecast: bool = False
    """True for a time to come, as a forecast gave it."""
    error_c: ErrorC | None = None
    """Standard error, thermometer and place together; left out: 0.7 C read, and for a forecast as with days."""


@record
class TubReading:
    """One reading of the tub, stirred first."""

    time: AwareDatetime
    """When, with the offset from UTC."""
    temp_c: TempC
    """Temperature of the liquor."""
    error_c: ErrorC = THERMOMETER_ERROR.value
    """Standard error; an unstirred tub in the sun may be 2 C warmer at the top."""


@record
class TubTempRecord:
    """One tub, the air about it as far as it is known, and what was read in the tub."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the tub, given back with the answer."""
    tub: Tub = Tub()
    """Size, cover, wrapping and sun."""
    liquid_l: Annotated[float, Field(ge=LEAST, le=1_000_000)]
    """Water and leaf in the tub, together."""
    started: AwareDatetime
    """When the tub was filled; its offset from UTC is taken for local time throughout."""
    until: AwareDatetime
    """Up to when the temperature is wanted."""
    now: AwareDatetime | None = None
    """The time of asking; left out: the last reading of the tub, or the start."""
    days: Annotated[tuple[AirDay, ...], Field(max_length=400)] = ()
    """Daily minimum and maximum of the air, read or forecast, in order of days."""
    air: Annotated[tuple[AirPoint, ...], Field(max_length=20_000)] = ()
    """A logger's series or single readings of the air, in order of time."""
    readings: Annotated[tuple[TubReading, ...], Field(max_length=1_000)] = ()
    """Readings of the tub, in order of time."""
    hold_c: TempC | None = None
    """Temperature at which a heater keeps the tub; left out: no heater."""
    hold_error_c: ErrorC = 2.0
    """How far from that it may really stand (one standard deviation)."""
    base_c: TempC = 5.0
    """Degree-hours are counted above this."""
    hemisphere: Literal["north", "south"] = "north"
    """Which half of the earth: seasons are half a year apart."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        self._check_span()
        for name in ("air", "readings"):
            for k, (one, two) in enumerate(pairwise([row.time for row in getattr(self, name)])):
                if two <= one:
                    raise _out_of_order(f"{name}[{k + 1}].time", two.isoformat())
        for k, (first, second) in enumerate(pairwise([row.day for row in self.days])):
            if second <= first:
                raise _out_of_order(f"days[{k + 1}].day", second.isoformat())
        if self.now is not None:
            self._check_now(self.now)

    def _check_now(self, now: datetime) -> None:
        """What was read cannot lie ahead; what lies ahead is a forecast."""
        today = now.astimezone(self.started.tzinfo).date()
        ahead = [f"readings[{k}].time" for k, row in enumerate(self.readings) if row.time > now]
        ahead += [f"air[{k}].time" for k, row in enumerate(self.air) if row.time > now and not row.forecast]
        ahead += [f"days[{k}].day" for k, row in enumerate(self.days) if row.day > today and not row.forecast]
        if ahead:
            raise InputError(
                where=ahead[0], what="this lies after now", right="what lies ahead is a forecast: say forecast true"
            )

    def _check_span(self) -> None:
        if self.until <= self.started:
            raise InputError(where="until", what="it is not after started", right="give a later time")
        if (self.until - self.started).days >= LONGEST_D:
            raise InputError(
                where="until", what=f"it is {LONGEST_D} days or more after started", right="ask for a shorter span"
            )
        if self.now is not None and not self.started <= self.now <= self.until:
            raise InputError(where="now", what="it is not between started and until", right="check the three times")
        outside = [k for k, row in enumerate(self.readings) if not self.started <= row.time <= self.until]
        if outside:
            raise InputError(
                where=f"readings[{outside[0]}].time",
                what="this reading is not between started and until",
                right="check the date, and its offset from UTC",
            )


def _out_of_order(where: str, given: str) -> InputError:
    return InputError(where=where, what=f"{given} does not come after the row before it", right="sort the rows by time")


@answer
class OneMoreReading:
    """What reading the tub once, now, would do to the rest of the span."""

    time: AwareDatetime
    mean_width_without_c: float
    """Mean width of the 5 to 95 % band from now to the end, as it stands."""
    mean_width_with_c: float
    """The same after one more reading, if it comes out where it is expected."""


@answer
class TubTempAnswer:
    """What is believed of the tub's temperature."""

    version: Literal[1] = 1
    id: str
    now_c: Band
    """The tub now."""
    mean_c: Band
    """Mean over the whole span."""
    lowest_c: Band
    """Lowest over the whole span."""
    highest_c: Band
    """Highest over the whole span."""
    degree_h: Band
    """Degree-hours above `base_c` over the whole span."""
    tau_h: Band | None
    """Time constant of the tub: hours in which it makes up 63 % of a step of the air. Absent if a heater holds it."""
    tau_before_h: Band
    """The same before any reading, from size, cover and wrapping."""
    one_more_reading: OneMoreReading | None
    """Absent where `now` is the end of the span."""
    curve: tuple[BandAtTime, ...]
    """The tub hour by hour."""
    basis: Literal["prior", "air", "readings"]
    """Season alone; or air read or forecast; or readings of the tub too."""
    inputs: TubTempRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
