"""Simulated steeps: a truth drawn from the prior, read as a person reads it."""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

import numpy as np

from bluewright.science import thread
from bluewright.science.base.records import read
from bluewright.science.base.smc import from_prior
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.steep.ensemble import Ensemble, cue
from bluewright.science.steep.kinetics import Course
from bluewright.science.steep.numbers import NUMBERS
from bluewright.science.steep.record import Reading, Signs, SteepRecord
from bluewright.science.steep.setting import Setting, setting
from bluewright.science.steep.signs import SIGNS, level_chances

START = datetime.fromisoformat("2026-07-03T11:00+01:00")
CONTENT = Prior(kind="lognormal", centre=25.0, spread=0.7, unit="mmol/kg", source="rocha-2011", grade="fitted")


@dataclass(frozen=True)
class Case:
    """A steep whose truth is known."""

    setting: Setting
    truth_z: Floats
    course: Course


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
    """The setting of `rec` with empty readings at `look_h`, so that those times stand on the grid."""
    looks = tuple(Reading(time=START + timedelta(hours=h)) for h in look_h)
    now = max(rec.now, START + timedelta(hours=max(look_h, default=0.0)))
    full = replace(rec, readings=looks, now=now)
    made = setting(full, content=CONTENT, temp_paths=lambda h, n: thread.tub_paths(full, h, rng=rng, n=n))
    return replace(made, temps_known=0)


def draw(base: Setting, rng: np.random.Generator, *, every: float = 0.7) -> Case:
    """A truth from the prior of `base`, with its readings; each sign or number is taken with chance `every`."""
    z = rng.standard_normal((1, len(base.names)))
    course = base.course(z)
    looks = tuple(
        look(base, z, course.at([base.row(reading.time)]), reading, rng, every) for reading in base.record.readings
    )
    return Case(setting=replace(base, record=replace(base.record, readings=looks)), truth_z=z, course=course)


def look(
    base: Setting, z: Floats, state: Course, blank_reading: Reading, rng: np.random.Generator, every: float
) -> Reading:
    """One reading of the truth by the model's own signs and instruments."""
    levels = {}
    for name, model in SIGNS.items():
        if rng.random() < every:
            levels[name] = int(rng.choice(4, p=level_chances(cue(base, z, state, name)[0], model)[0]))
    numbers = {}
    for name in ("ph", "temp_c", "dissolved_oxygen_mg_l", "dye_index"):
        if rng.random() < every / 2:
            mean = NUMBERS[name].mean(state, base.column(z, name))[0]
            numbers[name] = float(mean[0] + NUMBERS[name].scatter(mean, None)[0] * rng.standard_normal())
    # Not through the checked record: a simulated instrument may read a little below zero.
    made = replace(blank_reading, signs=Signs(**levels))
    for name, value in numbers.items():
        object.__setattr__(made, name, value)
    return made


def prior_ensemble(base: Setting, n: int, rng: np.random.Generator) -> Ensemble:
    """The ensemble before any reading."""
    return Ensemble(setting=base, population=from_prior(n, len(base.names), rng=rng))
