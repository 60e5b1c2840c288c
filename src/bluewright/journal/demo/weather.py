"""The weather of the invented season: a mild slope, its usual months, its rain, and a small station beside the beds."""

from __future__ import annotations

import math
from datetime import datetime, timedelta
from typing import Any, Final
from zoneinfo import ZoneInfo

import numpy as np

from bluewright.journal.actions import beds
from bluewright.journal.actions.intakes import bring_in
from bluewright.journal.loggers.columns import guess, signature
from bluewright.journal.loggers.reading import read_all
from bluewright.journal.models import AirTemp, Garden, Intake, RainDay

DAYS_BACK: Final = 101
DAYS_AHEAD: Final = 5
RAIN_BACK_D: Final = 60
STATION_BACK_D: Final = 40
WET_CHANCE: Final = 0.4
LOW_AT_H, HIGH_AT_H = 6, 15
MEAN_C, WAVE_C, WAVE_D = 16.5, 1.5, 16.0
LOW_SWING_C, HIGH_SWING_C = -4.5, 5.0
USUAL_RAIN_MM: Final = 56.0
STATION: Final = "station.csv"
HEAD: Final = "day,rain mm,humidity %,wind m/s,sunshine hours"


def climate() -> list[dict[str, Any]]:
    """Twelve months as they usually are there: mild all year, as its weather is, a little cooler in winter."""
    found = []
    for month in range(12):
        mean_c = MEAN_C - WAVE_C * math.cos(2 * math.pi * (month + 0.5) / 12)
        low_c, high_c = (round(mean_c + swing_c, 1) for swing_c in (LOW_SWING_C, HIGH_SWING_C))
        found.append(
            {
                "min_c": low_c, "min_typed": f"{low_c:g} C", "max_c": high_c, "max_typed": f"{high_c:g} C",
                "rain_mm": USUAL_RAIN_MM, "rain_typed": f"{USUAL_RAIN_MM:g} mm",
            }
        )  # fmt: skip
    return found


def write(garden: Garden, *, now: datetime, by: Any, rng: np.random.Generator, seed: int) -> list[AirTemp]:
    """All of it; rain and station are drawn apart, so that the rest of the season stays as it was."""
    air = _air(garden, now=now, by=by, rng=rng)
    _rain(garden, now=now, by=by, rng=np.random.default_rng(seed + 1))
    _station(garden, now=now, by=by, rng=np.random.default_rng(seed + 2))
    return air


def _air(garden: Garden, *, now: datetime, by: Any, rng: np.random.Generator) -> list[AirTemp]:
    """Lowest and highest of each day, a slow wave with the days' own whims; what is still to come is a forecast."""
    midnight = now.replace(hour=0, minute=0, second=0, microsecond=0)
    whim_c, rows = 0.0, list[AirTemp]()
    for day in range(-DAYS_BACK, DAYS_AHEAD + 1):
        whim_c = 0.7 * whim_c + rng.normal(0.0, 1.4)
        mean_c = MEAN_C + WAVE_C * math.sin(day / WAVE_D) + whim_c
        for hour, swing_c in ((LOW_AT_H, LOW_SWING_C), (HIGH_AT_H, HIGH_SWING_C)):
            when = midnight + timedelta(days=day, hours=hour)
            temp_c = round(2 * (mean_c + swing_c)) / 2
            row = AirTemp(garden=garden, time=when, temp_c=temp_c, temp_typed=f"{temp_c:g} C", forecast=when > now)
            rows.append(row)
    beds.add_air(rows, by=by)
    return rows


def _rain(garden: Garden, *, now: datetime, by: Any, rng: np.random.Generator) -> None:
    """Two days in five are wet."""
    rows = []
    for ahead_d in range(-RAIN_BACK_D, DAYS_AHEAD + 1):
        fallen_mm = round(float(rng.gamma(0.75, 6.0)), 1) if rng.random() < WET_CHANCE else 0.0
        day, typed = (now + timedelta(days=ahead_d)).date(), f"{fallen_mm:g} mm"
        rows.append(RainDay(garden=garden, day=day, rain_mm=fallen_mm, rain_typed=typed, forecast=ahead_d > 0))
    beds.add_rain(rows, by=by)


def _station(garden: Garden, *, now: datetime, by: Any, rng: np.random.Generator) -> Intake:
    """The file of a small station without a thermometer, brought in as any file is: damp and dull where it rained."""
    rained = dict(RainDay.objects.filter(garden=garden).values_list("day", "rain_mm"))
    lines = [HEAD]
    for back_d in range(STATION_BACK_D, 0, -1):
        day = (now - timedelta(days=back_d)).date()
        rain_mm = rained.get(day, 0.0)
        wet = rain_mm > 0
        humidity_pct = round(float(rng.normal(84.0 if wet else 71.0, 4.0)))
        wind, sunshine_h = round(float(rng.gamma(6.0, 0.3)), 1), round(float(rng.beta(1.5, 3.0 if wet else 1.5)) * 9, 1)
        gauge_mm = round(rain_mm * float(rng.normal(0.95, 0.04)), 1)
        lines.append(f"{day.isoformat()},{max(gauge_mm, 0):g},{min(humidity_pct, 99)},{wind:g},{sunshine_h:g}")
    columns = guess(lines)
    intake = Intake(garden=garden, file_name=STATION, columns=columns.plain(), signature=signature(lines, columns))
    found = read_all(lines, columns, zone=ZoneInfo(garden.time_zone), low_c=-30.0, high_c=60.0)
    return bring_in(intake, found, by=by, now=now)
