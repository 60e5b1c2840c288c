"""What readings teach of a vat: the ensemble after all of them, and after one more."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base import smc
from bluewright.science.base.smc import Population, from_prior
from bluewright.science.base.sourced import Floats
from bluewright.science.vat.course import run
from bluewright.science.vat.setting import Setting
from bluewright.science.vat.signs import log_likelihood
from bluewright.science.vat.state_record import VatReading, VatRecord

DRAWS: Final = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """An ensemble and the story that taught it."""

    record: VatRecord
    names: tuple[str, ...]
    """What each column of its scores stands for."""
    population: Population


def learn(made: Setting, *, rng: np.random.Generator, members: int = DRAWS, before: Learned | None = None) -> Learned:
    """The ensemble after all readings of a vat; the moment of the question does not matter.

    Formula: tempered sequential Monte Carlo on the likelihood of all readings (`signs.log_likelihood`). With what was
    learned `before` of the same story, as far as it then went, only what came since moves it. Raises ModelError if the
    readings contradict the model beyond reach.
    """
    if before is not None and _goes_on(before.record, made.record):
        start, old = _carried(before, made, rng), before.record.readings
    else:
        start, old = from_prior(members, len(made.names), rng=rng), ()
    new = made.record.readings[len(old) :]
    population = start if not any(map(tells, new)) else _moved(start, made, old=old, new=new, rng=rng)
    return Learned(record=made.record, names=made.names, population=population)


def tells(one: VatReading) -> bool:
    """Whether a reading tells more than the warmth."""
    told = (one.ph, one.potential_mv, one.liquor_look, one.film, one.grains_seen, one.strip_s)
    return any(value is not None for value in told)


def _moved(
    start: Population, made: Setting, *, old: tuple[VatReading, ...], new: tuple[VatReading, ...],
    rng: np.random.Generator,
) -> Population:  # fmt: skip
    hours = frozenset(made.hour(one.time) for one in (*old, *new) if tells(one))

    def loglik(z: Floats) -> tuple[Floats, Floats]:
        batch = made.batch(z)
        course = run(made, z, only_h=hours)
        parts = [np.zeros(len(z)), np.zeros(len(z))]
        for place, readings in enumerate((old, new)):
            for one in filter(tells, readings):
                parts[place] += log_likelihood(one, course.at(made.hour(one.time)), batch)
        return parts[0], parts[0] + parts[1]

    return smc.temper(start, loglik, rng=rng)


def _goes_on(before: VatRecord, record: VatRecord) -> bool:
    """Whether a story only goes on: all that was in it stands, and what came since came after its last reading."""
    fixed = ("kind", "fibre", "volume_l", "started", "heel_g", "heel_sd_g", "room_c", "hold_c", "covered",
             "surface_m2", "reductant_opened", "seed")  # fmt: skip
    if any(getattr(before, name) != getattr(record, name) for name in fixed):
        return False
    last = max((one.time for one in before.readings), default=before.started)
    for name in ("additions", "poured", "dips", "readings"):
        was, now = getattr(before, name), getattr(record, name)
        if now[: len(was)] != was or any(one.time <= last for one in now[len(was) :]):
            return False
    return True


def _carried(before: Learned, made: Setting, rng: np.random.Generator) -> Population:
    """The ensemble before, with scores out of the prior for what it did not know of: a jar, cloth of another fibre."""
    known = {name: before.population.z[:, place] for place, name in enumerate(before.names)}
    n = len(before.population.z)
    z = np.stack([known[name] if name in known else rng.standard_normal(n) for name in made.names], axis=1)
    return Population(
        z=z, weights=before.population.weights, log_evidence=before.population.log_evidence,
        levels=before.population.levels,
    )  # fmt: skip
