"""A season of weather with gaps, and when its bed wants water: what a page waits for."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, timedelta
from typing import Any, Final

import numpy as np

from bluewright.science.base.records import read
from bluewright.science.media.weather.days import weather_days
from bluewright.science.media.weather.days_record import WeatherRecord
from bluewright.science.watering.call import bed_water
from bluewright.science.watering.record import BedWaterRecord

FIRST: Final = date(2026, 3, 1)
SEASON_D: Final = 214


def weather() -> dict[str, Any]:
    """An invented season, every fifth day lost."""
    months = [{"min_c": 3.0 + m, "max_c": 11.0 + m, "rain_mm": 55.0} for m in (0, 0, 2, 4, 7, 10, 12, 12, 9, 6, 3, 1)]
    days = [
        {"day": (FIRST + timedelta(days=k)).isoformat(), "min_c": 8.0 + k % 5, "max_c": 18.0 + k % 7, "rain_mm": 2.0}
        for k in range(SEASON_D - 30)
        if k % 5
    ]
    return {"latitude_deg": 52.0, "normals": months, "days": days}


def season() -> Callable[[], object]:
    """March to September, with a sum of warmth asked for."""
    last = FIRST + timedelta(days=SEASON_D - 1)
    fields = {"weather": weather(), "first": FIRST.isoformat(), "last": last.isoformat(), "target_degree_d": 790.0}
    record = read(WeatherRecord, fields)
    return lambda: weather_days(record, rng=np.random.default_rng(1))


def bed() -> Callable[[], object]:
    """A bed counted from March to the end of August."""
    fields = {
        "weather": weather(), "area_m2": 12.0, "started": FIRST.isoformat(),
        "now": (FIRST + timedelta(days=SEASON_D - 30)).isoformat(),
        "stages": [{"day": "2026-04-20", "stage": "small"}, {"day": "2026-06-01", "stage": "full_cover"}],
        "felt": [{"day": "2026-08-20", "soil": "moist"}],
    }  # fmt: skip
    record = read(BedWaterRecord, fields)
    return lambda: bed_water(record, rng=np.random.default_rng(1))


BENCHMARKS = {"weather: a season with gaps": season, "weather: when a bed wants water": bed}
