"""Four years of days measured at Seattle (47.6 N; NOAA, by the sample data of an open library), and their climate."""

import csv
import importlib.util
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import numpy as np

LATITUDE_DEG = 47.6


@cache
def measured() -> dict[date, tuple[float, float, float, float]]:
    """Coldest, warmest, rain in mm and wind in m/s of each day of 2012 to 2015."""
    spec = importlib.util.find_spec("vega_datasets")
    assert spec is not None
    assert spec.origin is not None
    with (Path(spec.origin).parent / "_data" / "seattle-weather.csv").open(encoding="utf-8") as file:
        return {
            date.fromisoformat(row["date"].replace("/", "-")): (
                float(row["temp_min"]), float(row["temp_max"]), float(row["precipitation"]), float(row["wind"]),
            )
            for row in csv.DictReader(file)
        }  # fmt: skip


def normals(years: tuple[int, ...]) -> list[dict[str, float]]:
    """The months' means over some of the years, as a climate table has them."""
    table = []
    for month in range(1, 13):
        found = np.array([row for day, row in measured().items() if day.year in years and day.month == month])
        wet = float((found[:, 2] >= 1.0).sum()) / len(years)
        rain_mm = float(found[:, 2].sum()) / len(years)
        table.append(
            {"min_c": float(found[:, 0].mean()), "max_c": float(found[:, 1].mean()), "rain_mm": rain_mm, "wet_d": wet}
        )
    return table


def day(when: date) -> dict[str, Any]:
    """A row of a record."""
    low, high, rain_mm, _ = measured()[when]
    return {"day": when.isoformat(), "min_c": low, "max_c": high, "rain_mm": rain_mm}
