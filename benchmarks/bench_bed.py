"""A bed's forecast in process: from a climate alone, with a season's cuts, and with a year of days read."""

from __future__ import annotations

import json
from collections.abc import Callable
from datetime import date, timedelta
from typing import Any

import numpy as np

from bluewright.cli.record_command import example_text
from bluewright.science.base.records import read
from bluewright.science.bed.growth import growth
from bluewright.science.bed.growth_record import GrowthRecord


def without_cuts() -> Callable[[], object]:
    """Sown, and nothing cut yet."""
    return _ready(_example() | {"cuts": [], "earlier": []})


def with_cuts() -> Callable[[], object]:
    """The example: four cuts in two seasons."""
    return _ready(_example())


def with_every_day_read() -> Callable[[], object]:
    """The same, with each day of the season read."""
    fields = _example()
    first = date.fromisoformat(fields["began"])
    days = [
        {"day": (first + timedelta(days=k)).isoformat(), "min_c": 9.0 + k % 3, "max_c": 19.0 + k % 5}
        for k in range((date.fromisoformat(fields["now"]) - first).days)
    ]
    return _ready(fields | {"weather": fields["weather"] | {"days": days}})


def _example() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(example_text("bed-growth"))
    return found


def _ready(fields: dict[str, Any]) -> Callable[[], object]:
    record = read(GrowthRecord, fields)
    return lambda: growth(record, rng=np.random.default_rng(record.seed))


BENCHMARKS = {
    "bed: next cut without cuts": without_cuts,
    "bed: next cut with four cuts": with_cuts,
    "bed: next cut with every day read": with_every_day_read,
}
