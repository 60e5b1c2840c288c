"""Does the memory better the strain call? The third table of the docs page *The garden's memory*, made anew.

    python -m benchmarks.study_calls FILE [GARDENS A SEASON [SEED]]

Each garden is taught by eight batches; of its next two tubs the same looks are read by the same seed without memory,
with it, and, in gardens of the model, by a *knower* of all that is the garden's own, to whom only what scatters from
batch to batch is unknown: what no memory can better. Three ways to follow the advice: looks twice a day; one a day;
none, straining when it was advised before the tub began. Whoever looks strains at the hour that was advised at the
last look before it; once with any hour of the day to choose from, as where nothing else was said, once with the two at
which the looks are taken, too. The loss is what straining falls short of the clairvoyant best moment of the true
course; differences are paired by tub, and their error is that of a mean over gardens. Results are kept in FILE, one
garden a line: what is there is not made again.
"""

from __future__ import annotations

import sys
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import timedelta
from itertools import pairwise
from math import inf
from pathlib import Path
from typing import Final

import numpy as np
from benchmarks.kept_results import Plain, gathered
from benchmarks.memory_gardens import LAWS, SEASONS, TWICE_H, Followed, Tub, followed
from tests.science.memory.gardens import NAMES

from bluewright.science import thread
from bluewright.science.base.sourced import Floats
from bluewright.science.memory.garden import garden_of, learned
from bluewright.science.memory.joining import keys_of
from bluewright.science.memory.record import GardenRecord, NextBatch
from bluewright.science.memory.shares import TRUSTED_FRAC
from bluewright.science.steep.decide import decide, outlook
from bluewright.science.steep.ensemble import Ensemble, extend
from bluewright.science.steep.record import Garden, Move, SteepRecord, learnable

CALLS_REPORTED_ON: Final = 6300
"""Named before it was run, once; `REPORTED_ON` had been looked at tub by tub."""
COMING: Final = 2
MEMBERS: Final = 1000
"""Half of what the pages draw, to save hours."""
ONCE_H: Final = TWICE_H[1::2]
"""Looks once a day, in the morning."""
WAYS: Final[dict[str, Sequence[float]]] = {"twice": TWICE_H, "once": ONCE_H, "before": ()}
RULES_H: Final = {"two days": 45.0, "three days": 69.0}
"""At the clock of a look."""
ARMS: Final = ("plain", "taught", "knower")
CAN_STRAIN: Final[dict[str, tuple[str, ...] | None]] = {"any hour by day": None, "08:00, 18:00": ("08:00", "18:00")}
"""When a person can strain."""


def one(law: str, season: str, seed: int, number: int) -> Plain:
    """A garden and its next tubs: of each its losses by rule, and by way, arm and hours at which one can strain."""
    garden = followed(law, season, seed=seed, number=number, coming=COMING, to_the_end=True)
    return {"tubs": [_tub(garden, tub, seed=(seed, number, k)) for k, tub in enumerate(garden.coming)]}


def _tub(garden: Followed, tub: Tub, *, seed: tuple[int, ...]) -> Plain:
    found: Plain = {rule: 1 - tub.share(hour) for rule, hour in RULES_H.items()}
    found["best look"] = 1 - max(tub.share(hour) for hour in TWICE_H)
    arms = {"plain": None, "taught": taught_of(garden, tub)}
    if tub.of_garden is not None:
        arms["knower"] = knower_of(tub)
    for arm, taught in arms.items():
        for way, looks_h in WAYS.items():
            hours = strained_h(replace(tub.batch.steep, garden=taught), looks_h, rng=np.random.default_rng(seed))
            found |= {f"{can}, {way} {arm}": 1 - tub.share(hour) for can, hour in hours.items()}
    return found


def taught_of(garden: Followed, tub: Tub, *, trust_frac: float = TRUSTED_FRAC.value) -> Garden:
    """What the garden's batches teach of a tub, trusted that far."""
    past = tuple(each.batch for each in garden.past)
    record = GardenRecord(batches=past, for_next=NextBatch(plant="woad"))
    made = learned(record, known=garden.messages)
    return garden_of(made.belief, "woad", keys_of(tub.batch), trust_frac=trust_frac)


def knower_of(tub: Tub) -> Garden:
    """What is believed of a tub by whoever knows its garden, bed, vessel, reader and year, and how batches scatter."""
    assert tub.of_garden is not None
    assert tub.own is not None
    moves = {}
    for name in learnable("woad"):
        place = NAMES.index(name)
        moves[name] = Move(centre_z=float(tub.of_garden[place]), spread_z=float(np.sqrt(tub.own[place])))
    return Garden(moves=moves, together=tuple((0.0,) * place for place in range(len(moves))))


def strained_h(steep: SteepRecord, looks_h: Sequence[float], *, rng: np.random.Generator) -> Mapping[str, float]:
    """By when one can strain the hour at which a person does who looks at these hours.

    Done is what was advised at the last look; before the first one, what was advised when leaf and water met.
    """
    by_hour = {(look.time - steep.started).total_seconds() / 3600: look for look in steep.readings}
    looks = tuple(by_hour[hour] for hour in looks_h)
    found: dict[str, float] = {}
    ensemble: Ensemble | None = None
    for count, (hour, next_h) in enumerate(pairwise((*(looks_h or (0.0,)), inf)), start=1):
        known = replace(steep, now=steep.started + timedelta(hours=hour), readings=looks[:count])
        grown = None if ensemble is None else extend(ensemble, known, rng=rng)
        ensemble = grown or thread.begin_steep(known, rng=rng, members=MEMBERS)
        view = outlook(ensemble.setting.course(ensemble.population.z), ensemble.weights)
        for can in set(CAN_STRAIN) - set(found):
            decision = decide(replace(known, can_strain=CAN_STRAIN[can]), view)
            if (advised_h := float(decision.option_h[decision.chosen])) < next_h:
                found[can] = advised_h
        if len(found) == len(CAN_STRAIN):
            break
    return found


def table(row: Sequence[str], gardens: Sequence[Plain]) -> None:
    """Print a row: losses in percent, each way without memory, and by how much less with it and to a knower."""
    can = row[0]

    def of(name: str) -> Floats:
        return 100 * np.array([np.mean([tub[name] for tub in garden["tubs"]]) for garden in gardens])

    cells = [f"{of(rule).mean():.1f}" for rule in ("best look", *RULES_H)]
    for way in WAYS:
        plain, *others = (of(f"{can}, {way} {arm}") for arm in ARMS if f"{can}, {way} {arm}" in gardens[0]["tubs"][0])
        cells += [_mean(plain, sign=""), *(_mean(other - plain, sign="+") for other in others)]
        cells += [""] * (len(ARMS) - 1 - len(others))
    print(f"| {' | '.join((*row, str(len(gardens)), *cells))} |", flush=True)


def _mean(values: Floats, *, sign: str) -> str:
    return f"{values.mean():{sign}.1f} +- {values.std(ddof=1) / np.sqrt(len(values)):.1f}"


def main(keep: Path, gardens: int = 12, seed: int = CALLS_REPORTED_ON) -> None:
    """So many gardens of both laws a season, in turn."""
    asked = [(law, season, seed, number) for number in range(gardens) for season in SEASONS for law in LAWS]
    found = dict(zip(asked, gathered(one, asked, keep=keep), strict=True))
    for can in CAN_STRAIN:
        for law in LAWS:
            for season in (*SEASONS, "all"):
                here = {season} if season in SEASONS else set(SEASONS)
                table((can, law, season), [v for k, v in found.items() if k[0] == law and k[1] in here])


if __name__ == "__main__":
    main(Path(sys.argv[1]), *map(int, sys.argv[2:]))
