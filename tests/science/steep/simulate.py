"""Simulated steeps of one record: a cold woad steep in July."""

from datetime import datetime, timedelta

import numpy as np

from bluewright.science import thread
from bluewright.science.base.records import read
from bluewright.science.base.sourced import Prior
from bluewright.science.steep import simulate
from bluewright.science.steep.record import SteepRecord
from bluewright.science.steep.setting import Setting
from bluewright.science.steep.simulate import Case

START = datetime.fromisoformat("2026-07-03T11:00+01:00")
CONTENT = Prior(kind="lognormal", centre=25.0, spread=0.7, unit="mmol/kg", source="rocha-2011", grade="fitted")


def record(**fields: object) -> SteepRecord:
    """A cold woad steep in July with two air temperatures, changed by `fields`."""
    base = {
        "plant": "woad", "method": "cold", "leaf_kg": 6.0, "water_l": 40.0, "started": START.isoformat(),
        "now": (START + timedelta(hours=45)).isoformat(),
        "temps": [
            {"time": (START + timedelta(hours=4)).isoformat(), "where": "air", "temp_c": 21.0},
            {"time": (START + timedelta(hours=18)).isoformat(), "where": "air", "temp_c": 12.0},
        ],
    }  # fmt: skip
    return read(SteepRecord, base | fields)


def blank(rec: SteepRecord, look_h: list[float], rng: np.random.Generator) -> Setting:
    """The setting of `rec` with empty readings at `look_h`, its tub's temperature as the thread draws it."""
    return simulate.blank(rec, look_h, content=CONTENT, temp_paths=lambda h, n: thread.tub_paths(rec, h, rng=rng, n=n))


def draw(base: Setting, rng: np.random.Generator, *, every: float = 0.7) -> Case:
    """A truth from the prior of `base`, with its readings."""
    return simulate.draw(base, rng=rng, look_chance=every)
