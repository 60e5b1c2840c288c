"""A garden's weather and a bed's notes become the record of its water."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import date, datetime, time, timedelta
from functools import lru_cache
from typing import Final

import numpy as np

from bluewright.journal.bridge.stored import word
from bluewright.journal.loggers.station import FULL_DAY_H, Day
from bluewright.journal.models import Bed, Garden, RainDay
from bluewright.journal.models.garden import HIGHEST_AT, LOWEST_AT
from bluewright.journal.queries import weather as queries
from bluewright.science.media.weather.record import MonthNormal, Weather, WeatherDay
from bluewright.science.watering.call import bed_water
from bluewright.science.watering.record import BedWaterAnswer, BedWaterRecord, Felt, StageFrom, Watered

BACK_D: Final = 60
AHEAD_D: Final = 10
USUAL_STAGE: Final = "half_cover"
"""How a bed is taken to look of which nobody wrote it."""


def days_of(
    air: Iterable[tuple[datetime, float, bool]], rain: Iterable[RainDay], *, today: date,
    station: Mapping[date, Day] | None = None,
) -> tuple[WeatherDay, ...]:  # fmt: skip
    """Days of weather from single temperatures, rain and a station; a forecast of a day that is past counts no more.

    Rain that a person wrote down goes before the station's.
    """
    by_day: dict[date, list[tuple[datetime, float, bool]]] = {}
    for row in air:
        if not (row[2] and row[0].date() < today):
            by_day.setdefault(row[0].date(), []).append(row)
    wet = {row.day: row for row in rain if not (row.forecast and row.day < today)}
    told = station or {}
    return tuple(
        _day(day, by_day.get(day, []), wet.get(day), told.get(day), today=today)
        for day in sorted({*by_day, *wet, *told})
    )


def _day(
    day: date, rows: Sequence[tuple[datetime, float, bool]], wet: RainDay | None, told: Day | None, *, today: date
) -> WeatherDay:
    """One day: of a full day of readings their ends, else what was written down as lowest and highest."""
    read = [(when, temp_c) for when, temp_c, ahead in rows if not ahead]
    ends: dict[time, float] = {when.time(): temp_c for when, temp_c, _ahead in rows}
    low, high = ends.get(LOWEST_AT), ends.get(HIGHEST_AT)
    if len({when.hour for when, _temp_c in read}) >= FULL_DAY_H:
        low, high = min(temp_c for _when, temp_c in read), max(temp_c for _when, temp_c in read)
    ahead = day > today or any(forecast for _when, _temp_c, forecast in rows)
    beside = {} if told is None else told.told()
    if wet is not None:
        beside["rain_mm"] = wet.rain_mm
    return WeatherDay(day=day, min_c=low, max_c=high, forecast=ahead, **beside)


def bed_water_record(bed: Bed, *, today: date) -> BedWaterRecord | None:
    """The record of a bed's water as it stands; None while its ground or the garden's place is not known.

    Raises InputError where what was written down cannot be.
    """
    garden, first = bed.garden, today - timedelta(days=BACK_D)
    if bed.area_m2 is None or garden.latitude_deg is None:
        return None
    last = today + timedelta(days=AHEAD_D)
    notes = queries.water_notes(bed, first=first)
    felt = {row.day: row.felt for row in notes if row.felt and row.day <= today}
    return BedWaterRecord(
        id=bed.name,
        plant=word(bed.plant),
        area_m2=bed.area_m2,
        soil=word(bed.soil),
        started=first,
        start="unknown",
        stages=_stages(bed, {row.day: row.stage for row in notes if row.stage}, first=first),
        waterings=tuple(Watered(day=row.day, water_l=row.water_l) for row in notes if row.water_l and row.day <= today),
        way=word(bed.watered_by),
        felt=tuple(Felt(day=day, soil=word(soil)) for day, soil in sorted(felt.items())),
        now=today,
        ahead_d=AHEAD_D,
        weather=Weather(
            latitude_deg=garden.latitude_deg,
            altitude_m=garden.altitude_m or 0.0,
            normals=climate_of(garden),
            days=days_of(
                queries.air(garden, first=first, last=last),
                queries.rain(garden, first=first, last=last),
                today=today,
                station=queries.station(garden, first=first, last=today),
            ),
        ),
    )


def water_of(bed: Bed, *, today: date) -> BedWaterAnswer | None:
    """When a bed wants water; None while something must be known first.

    Raises InputError and ModelError as the science does.
    """
    record = bed_water_record(bed, today=today)
    return None if record is None else watered(record)


def climate_of(garden: Garden) -> tuple[MonthNormal, ...]:
    """The twelve months of a garden's climate table; nothing where there is none."""
    return tuple(
        MonthNormal(min_c=month.get("min_c"), max_c=month.get("max_c"), rain_mm=month.get("rain_mm"))
        for month in garden.climate
    )


def _stages(bed: Bed, seen: dict[date, str], *, first: date) -> tuple[StageFrom, ...]:
    """How the bed looked: what was written down, and a cut at each picking that nobody wrote more about."""
    before = queries.last_stage(bed, before=first)
    found = {first - timedelta(days=1): USUAL_STAGE} if before is None else {before.day: before.stage}
    found |= dict.fromkeys(queries.picked_on(bed, first=first), "cut")
    return tuple(StageFrom(day=day, stage=word(stage)) for day, stage in sorted((found | seen).items()))


@lru_cache(maxsize=64)
def watered(record: BedWaterRecord) -> BedWaterAnswer:
    """When the bed wants water. Raises InputError and ModelError as the science does."""
    return bed_water(record, rng=np.random.default_rng(record.seed))
