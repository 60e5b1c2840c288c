"""A season of twelve beds, eight tubs and thirty weeks: the first plan, and the end of the search."""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np

from bluewright.cli.record_command import example_text
from bluewright.science.base.records import dump, read
from bluewright.science.season.call import season_plan
from bluewright.science.season.record import SeasonRecord
from bluewright.science.season.steeps import table

AREAS_M2 = (12.0, 16.0, 10.0, 20.0, 14.0, 8.0)
BEGAN = ("2026-04-06", "2026-04-13", "2026-05-20")
ROUNDS = 3


def season(**other: Any) -> SeasonRecord:
    """Twelve beds of woad and Japanese indigo, four tubs of 120 L and four of 60 L, every evening and the weekends."""
    weather = json.loads(example_text("plan-season"))["weather"]
    beds = [
        {
            "id": f"Bed {k + 1}", "plant": "japanese_indigo" if k % 3 == 2 else "woad", "area_m2": AREAS_M2[k % 6],
            "start": "planted" if k % 3 == 2 else "sown", "began": BEGAN[k % 3],
        }
        for k in range(12)
    ]  # fmt: skip
    plain = {
        "now": "2026-04-20", "last": "2026-11-15", "beds": beds, "drying": {"tubs": 6.0}, "weather": weather,
        "tubs": [{"volume_l": 120.0, "count": 4}, {"volume_l": 60.0, "count": 4}],
        "free_h": [2.0, 2.0, 2.0, 2.0, 2.0, 6.0, 6.0], "away": [{"first": "2026-08-03", "last": "2026-08-14"}],
        "wants": [{"on": "2026-09-01", "blue_g": 60.0}, {"on": "2026-11-15", "blue_g": 100.0}],
    }  # fmt: skip
    return read(SeasonRecord, plain | other)


def first_answer() -> float:
    """Seconds until the first plan is told, tables of steeps and all included."""
    took = []
    for _ in range(ROUNDS):
        table.cache_clear()
        told: list[float] = []
        began = time.perf_counter()
        season_plan(
            season(limit_s=0.1),
            rng=np.random.default_rng(1),
            progress=lambda _worth, _gap, told=told: told.append(time.perf_counter()),  # type: ignore[misc]
        )
        took.append(told[0] - began)
    return min(took)


def example() -> Callable[[], object]:
    """The packaged example: four beds, three tubs."""
    record = read(SeasonRecord, example_text("plan-season"))
    return lambda: season_plan(record, rng=np.random.default_rng(1))


def whole() -> Callable[[], object]:
    """To the end of the search."""
    record = season()
    return lambda: season_plan(record, rng=np.random.default_rng(1))


def changed() -> SeasonRecord:
    """The same in August, once a first cut is done, with the plan before, a tub that was lost and a week gone cold."""
    before = season_plan(season(limit_s=2.0), rng=np.random.default_rng(1))
    cold = [{"day": f"2026-08-{day:02d}", "min_c": 6.0, "max_c": 13.0, "forecast": True} for day in range(17, 24)]
    beds = [
        dump(bed) | {"cuts": [{"on": "2026-07-04", "leaf_kg": 0.7 * bed.area_m2}]} for bed in before.inputs.beds
    ]  # fmt: skip
    weather = dump(before.inputs.weather)
    return season(
        now="2026-08-16", beds=beds, tubs=[{"volume_l": 120.0, "count": 3}, {"volume_l": 60.0, "count": 4}], away=[],
        former=[{"bed": cut.bed, "on": cut.on.isoformat()} for cut in before.cuts if cut.on.isoformat() > "2026-08-16"],
        weather=weather | {"days": [*weather["days"], *cold]},
    )  # fmt: skip


def first_after_a_change() -> float:
    """Seconds until the first plan is told after the change; tables of steeps are there, as in a server that runs."""
    record, took = replace(changed(), limit_s=0.1), []
    for _ in range(ROUNDS):
        told: list[float] = []
        began = time.perf_counter()
        season_plan(
            record,
            rng=np.random.default_rng(1),
            progress=lambda _worth, _gap, told=told: told.append(time.perf_counter()),  # type: ignore[misc]
        )
        took.append(told[0] - began)
    return min(took)


def after_a_change() -> Callable[[], object]:
    """To the end of the search after the change: the cuts of the week stay where they can."""
    record = changed()
    return lambda: season_plan(record, rng=np.random.default_rng(1))


BENCHMARKS = {
    "season: twelve beds, to the end": whole, "season: twelve beds, again after a change": after_a_change,
    "season: the example": example,
}  # fmt: skip
FIGURES = {
    "season: twelve beds, the first plan": ("seconds", first_answer),
    "season: twelve beds, the first after a change": ("seconds", first_after_a_change),
}
