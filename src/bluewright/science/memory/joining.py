"""From batches to messages with groups: whose bed, tub, reader and year a batch is."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date

import numpy as np

from bluewright.science.media.air_temp import northern_day
from bluewright.science.media.basket import Age, Plant
from bluewright.science.media.precursor import SEASON_BEST
from bluewright.science.memory.model import Keys, year_key
from bluewright.science.memory.record import Batch, NextBatch
from bluewright.science.memory.shares import KEPT_NAME, Part
from bluewright.science.memory.told import Line, Told
from bluewright.science.steep.record import SteepRecord, learnable

HERE = "here"
"""The garden itself, among groups."""
SEASON_PART_D = 30.0
"""Within so many days of the plant's best day it is `about` it, else `before` or `after`."""


def keys_of(batch: Batch) -> Keys:
    """The groups of a batch."""
    return keys_of_steep(batch.steep, bed=batch.bed, tub=batch.tub, reader=batch.reader)


def keys_of_steep(steep: SteepRecord, *, bed: str = "", tub: str = "", reader: str = "") -> Keys:
    """The groups of a steep, finished or to come."""
    return _keys(
        steep.plant, on=steep.started.date(), day=northern_day(steep.started, hemisphere=steep.hemisphere),
        age=steep.leaf.age, bed=bed, tub=tub, reader=reader,
    )  # fmt: skip


def next_keys(record: NextBatch, *, last: Batch) -> Keys:
    """The groups of the batch to come."""
    on = record.on or last.steep.started.date()
    day = northern_day(on, hemisphere=last.steep.hemisphere)
    return _keys(record.plant, on=on, day=day, age=record.age, bed=record.bed, tub=record.tub, reader=record.reader)


def _keys(plant: Plant, *, on: date, day: int, age: Age, bed: str, tub: str, reader: str) -> Keys:
    keys: dict[Part, str] = {
        "everywhere": plant,
        "garden": HERE,
        "plant": plant,
        "age": f"{plant}/{age}",
        "season": f"{plant}/{season_part(plant, day)}",
        "reader": reader,
        "year": year_key(HERE, on.year),
    }
    if bed:
        keys["bed"] = bed
    if tub:
        keys["tub"] = tub
    return keys


def season_part(plant: Plant, day_of_year: int) -> str:
    """`before`, `about` or `after` the plant's best day, the shorter way round the year."""
    away = (day_of_year - SEASON_BEST[plant].value + 182.625) % 365.25 - 182.625
    return "before" if away < -SEASON_PART_D else "after" if away > SEASON_PART_D else "about"


def all_names(plants: Sequence[Plant]) -> tuple[str, ...]:
    """Every score that batches of these plants speak of, in a fixed order."""
    found = dict.fromkeys(name for plant in sorted(set(plants)) for name in learnable(plant))
    return (*found, KEPT_NAME)


def widened(told: Told, names: tuple[str, ...]) -> Told:
    """A message among more names: of the others it says nothing."""
    if told.names == names:
        return told
    where = [names.index(name) for name in told.names]
    precision = np.zeros((len(names), len(names)))
    precision[np.ix_(where, where)] = told.precision
    push, slope = np.zeros(len(names)), np.zeros(len(names))
    push[where], slope[where] = told.push, told.log_g_before.slope
    line = told.log_g_before
    return replace(
        told,
        names=names,
        precision=precision,
        push=push,
        log_g_before=Line(mean=line.mean, slope=slope, variance=line.variance),
    )
