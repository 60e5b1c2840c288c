"""Simulated steeps: a truth drawn from the priors, read as a person reads it.

For the invented garden, for studies of how well the call does, and for tests: wherever the truth must be known.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Final

import numpy as np

from bluewright.science.base.levels import LEVELS
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.steep.ensemble import cue
from bluewright.science.steep.kinetics import Course
from bluewright.science.steep.numbers import NUMBERS, NumberName
from bluewright.science.steep.record import Reading, Signs, SteepRecord
from bluewright.science.steep.setting import Setting, TempPaths, setting
from bluewright.science.steep.signs import SIGNS, level_chances

INSTRUMENTS: Final[tuple[NumberName, ...]] = ("ph", "temp_c", "dissolved_oxygen_mg_l", "dye_index")


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """A steep whose truth is known; `truth_z` and `course` have one member."""

    setting: Setting
    """With the readings that were taken of the truth."""
    truth_z: Floats
    course: Course


def blank(record: SteepRecord, look_h: Sequence[float], *, content: Prior, temp_paths: TempPaths) -> Setting:
    """The setting of `record` with empty readings `look_h` hours after its start, so that those stand on its grid."""
    looks = tuple(Reading(time=record.started + timedelta(hours=h)) for h in look_h)
    now = max(record.now, record.started + timedelta(hours=max(look_h, default=0.0)))
    made = setting(replace(record, readings=looks, now=now), content=content, temp_paths=temp_paths)
    return replace(made, temps_known=0)


def draw(base: Setting, *, rng: np.random.Generator, look_chance: float = 0.7, truth_z: Floats | None = None) -> Case:
    """A truth from the priors of `base`, or that of scores `truth_z` (1, d), with its readings.

    Each sign is looked at with chance `look_chance`, each instrument read with half of that.
    """
    z = rng.standard_normal((1, len(base.names))) if truth_z is None else truth_z
    course = base.course(z)
    looks = tuple(
        _look(base, z, course.at([base.row(reading.time)]), reading, rng, look_chance)
        for reading in base.record.readings
    )
    return Case(setting=replace(base, record=replace(base.record, readings=looks)), truth_z=z, course=course)


def _look(
    base: Setting, z: Floats, state: Course, empty: Reading, rng: np.random.Generator, look_chance: float
) -> Reading:
    """One reading of the truth by the model's own signs and instruments."""
    levels = {}
    for name, model in SIGNS.items():
        if rng.random() < look_chance:
            levels[name] = int(rng.choice(LEVELS, p=level_chances(cue(base, z, state, name)[0], model)[0]))
    numbers = {}
    for number in INSTRUMENTS:
        if rng.random() < look_chance / 2:
            mean = NUMBERS[number].mean(state, base.column(z, number))[0]
            numbers[number] = float(mean[0] + NUMBERS[number].scatter(mean, None)[0] * rng.standard_normal())
    made = replace(empty, signs=Signs(**levels))
    for field, value in numbers.items():
        # Not through the checked record: a simulated instrument may read a little below zero.
        object.__setattr__(made, field, value)
    return made
