"""The strain call: from scratch, one reading more, and how cost grows with members and readings.

The case is invented: a cold woad steep of five days' horizon, read every two hours.
"""

from __future__ import annotations

import json
import time
from collections.abc import Callable
from datetime import datetime, timedelta
from importlib import resources

import numpy as np

from bluewright.science import thread
from bluewright.science.base.records import read
from bluewright.science.steep import call
from bluewright.science.steep.record import SteepRecord

EXAMPLE = json.loads(resources.files("bluewright").joinpath("examples", "steep-call.json").read_text("utf-8"))
START = datetime.fromisoformat(EXAMPLE["started"])


def record(readings: int) -> SteepRecord:
    """The case with its readings spread over the first 45 hours."""
    looks = [
        {
            "time": (START + timedelta(hours=float(hour))).isoformat(),
            "ph": round(7 - hour / 50, 1),
            "temp_c": 16.0 + (hour % 24) / 8,
            "signs": {"bubbles": int(hour / 24), "blue_cast": int(hour / 15), "limpness": int(hour / 13)},
        }
        for hour in np.linspace(3, 45, readings)
    ]
    return read(SteepRecord, EXAMPLE | {"readings": looks, "now": (START + timedelta(hours=45)).isoformat()})


def from_scratch(*, readings: int = 20, members: int = 2000) -> None:
    """A strain call with nothing kept."""
    call.answer(thread.begin_steep(record(readings), rng=np.random.default_rng(1), members=members))


def one_more() -> Callable[[], None]:
    """One reading more on an ensemble that holds nineteen."""
    full = record(20)
    before = type(full)(**{f: getattr(full, f) for f in full.__slots__} | {"readings": full.readings[:-1]})
    kept = thread.begin_steep(before, rng=np.random.default_rng(1))

    def run() -> None:
        thread.next_strain_call(kept, full, rng=np.random.default_rng(2))

    return run


def growth() -> list[str]:
    """Lines that show how the cost grows; a cost in proportion shows even ratios."""
    lines = []
    for name, cases in (("members", (500, 1000, 2000, 4000)), ("readings", (5, 10, 20, 40))):
        for case in cases:
            started = time.perf_counter()
            from_scratch(**{name: case})
            lines.append(f"{case:>6} {name}: {time.perf_counter() - started:.2f} s")
    return lines


BENCHMARKS = {
    "strain call from scratch, 2,000 members, 20 readings": from_scratch,
    "strain call, one reading more": one_more,
}
REPORTS = {"how the cost of a strain call grows": growth}
