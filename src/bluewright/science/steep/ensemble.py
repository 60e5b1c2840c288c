"""The ensemble of a steep: drawn from the priors, moved by readings, and extended by one reading more."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, fields, replace
from typing import Final

import numpy as np

from bluewright.science.base import smc
from bluewright.science.base.smc import Population, from_prior
from bluewright.science.base.sourced import Floats
from bluewright.science.steep.kinetics import Course
from bluewright.science.steep.numbers import NUMBERS, NumberName
from bluewright.science.steep.record import Reading, SteepRecord
from bluewright.science.steep.setting import Setting
from bluewright.science.steep.signs import SIGNS, SignName, level_chance

MEMBERS: Final = 2000
MAY_GROW: Final = frozenset({"now", "readings", "can_strain"})
"""Fields of a record that may differ from those of the ensemble that it extends."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ensemble:
    """A steep's ensemble as it stands after some readings."""

    setting: Setting
    population: Population

    @property
    def weights(self) -> Floats:
        """Normalised weights of the members, (n,)."""
        return self.population.weights


def learn(
    setting: Setting,
    *,
    members: int = MEMBERS,
    rng: np.random.Generator,
    between: Callable[[], None] | None = None,
) -> Ensemble:
    """The ensemble after all readings of the record, from the priors on.

    `between` is called before each course of all members, some 0.1 s: whoever works beside others can pause there.
    """
    if not setting.record.readings:
        return Ensemble(setting=setting, population=from_prior(members, len(setting.names), rng=rng))

    def loglik(z: Floats) -> Floats:
        if between is not None:
            between()
        return _loglik(setting, z, upto=0)[1]

    return Ensemble(setting=setting, population=smc.learn(loglik, n=members, dims=len(setting.names), rng=rng))


def extend(ensemble: Ensemble, record: SteepRecord, *, rng: np.random.Generator) -> Ensemble | None:
    """The ensemble with the readings that `record` has beyond its own; None if anything else was changed.

    Only readings appended at the end and a later `now` can be taken in; whoever calls starts afresh otherwise.
    """
    old = ensemble.setting.record
    fixed = {f.name for f in fields(record)} - MAY_GROW
    if record.now < old.now or any(getattr(old, name) != getattr(record, name) for name in fixed):
        return None
    if record.readings[: len(old.readings)] != old.readings:
        return None
    setting = _with_marks(replace(ensemble.setting, record=record))
    if setting is None:
        return None
    if len(record.readings) == len(old.readings):
        return Ensemble(setting=setting, population=ensemble.population)

    def loglik(z: Floats) -> tuple[Floats, Floats]:
        return _loglik(setting, z, upto=len(old.readings))

    return Ensemble(setting=setting, population=smc.temper(ensemble.population, loglik, rng=rng))


def reading_loglik(setting: Setting, z: Floats, course: Course, index: int) -> Floats:
    """Log-likelihood (n,) of the reading at `index`; `course` has one row, the state at its time."""
    reading = setting.record.readings[index]
    total = np.zeros(len(z))
    for sign, level in noticed(reading).items():
        total += np.log(level_chance(cue(setting, z, course, sign)[0], SIGNS[sign], level))
    for number, value in measured(reading).items():
        if number == "temp_c" and index < setting.temps_known:
            continue
        mean = NUMBERS[number].mean(course, setting.column(z, number))[0]
        sd = NUMBERS[number].scatter(mean, own_sd(reading, number))
        total += -0.5 * ((value - mean) / sd) ** 2 - np.log(sd)
    return total


def own_sd(reading: Reading, number: NumberName) -> float | None:
    """The standard deviation that a reading brings along for one of its numbers; None for the usual one."""
    return {"ph": reading.ph_sd, "dye_index": reading.dye_index_sd}.get(number)


def cue(setting: Setting, z: Floats, course: Course, sign: SignName) -> Floats:
    """The cue of a sign with each member's own offset, (rows, n)."""
    model = SIGNS[sign]
    return model.cue(course) + model.offset_sd * setting.column(z, sign)


def noticed(reading: Reading) -> dict[SignName, int]:
    """The signs given in a reading."""
    return {name: level for name in SIGNS if (level := getattr(reading.signs, name)) is not None}


def measured(reading: Reading) -> dict[NumberName, float]:
    """The numbers given in a reading; a photo's three colour values each by its own name."""
    simple: tuple[NumberName, ...] = ("ph", "temp_c", "dissolved_oxygen_mg_l", "dye_index")
    found: dict[NumberName, float] = {n: value for n in simple if (value := getattr(reading, n)) is not None}
    if reading.lab is not None:
        found |= {"light_l": reading.lab[0], "light_a": reading.lab[1], "light_b": reading.lab[2]}
    return found


def _loglik(setting: Setting, z: Floats, *, upto: int) -> tuple[Floats, Floats]:
    """Log-likelihood (n,) of the first `upto` readings and of all."""
    readings = setting.record.readings
    row_of = [setting.row(reading.time) for reading in readings]
    rows = sorted(set(row_of))
    parts: dict[int, Floats] = {}
    for row, moment in zip(rows, setting.moments(z, rows=rows), strict=True):
        for index in (index for index, at in enumerate(row_of) if at == row):
            parts[index] = reading_loglik(setting, z, moment, index)
    told = [parts[index] for index in range(len(readings))]
    before = np.sum(told[:upto], axis=0) if upto else np.zeros(len(z))
    return before, before + (np.sum(told[upto:], axis=0) if told[upto:] else 0.0)


def _with_marks(setting: Setting) -> Setting | None:
    """The setting with its new readings and `now` on the grid; None if they reach too near its end."""
    times = [setting.record.now, *(reading.time for reading in setting.record.readings)]
    marks = np.array([setting.hour(time) for time in times])
    if marks.max() > 0.8 * setting.hours[-1]:
        return None
    hours = np.unique(np.concatenate([setting.hours, marks]))
    ways = [np.interp(hours, setting.hours, way) for way in setting.temp_ways_c]
    return replace(
        setting,
        hours=hours,
        temp_mean_c=np.interp(hours, setting.hours, setting.temp_mean_c),
        temp_ways_c=np.stack(ways) if ways else np.zeros((0, len(hours))),
    )
