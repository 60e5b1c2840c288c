"""Does the memory better the strain call? The third table of the docs page *The garden's memory*, made anew.

    python -m benchmarks.study_calls FILE [GARDENS A SEASON [SEED]]

Each garden is taught by eight batches; of its next two tubs the same looks are read twice, without memory and with
it, by the same seed. Three ways to follow the advice: looks twice a day; one a day; none, straining when it was
advised before the tub began. Whoever looks strains at the hour that was advised at the last look before it; once with
any hour of the day to choose from, as where nothing else was said, once with the two at which the looks are taken,
too. The loss is what straining falls short of the clairvoyant best moment of the true course; differences are paired
by tub, and their error is that of a mean over gardens. Results are kept in FILE, one garden a line: what is there is
not made again.
"""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import replace
from datetime import timedelta
from itertools import pairwise
from math import inf, log
from pathlib import Path
from typing import Final

import numpy as np
from benchmarks.kept_results import Plain, gathered
from benchmarks.memory_gardens import LAWS, REPORTED_ON, SEASONS, TWICE_H, Followed, Tub, followed

from bluewright.science import thread
from bluewright.science.base.sourced import Floats
from bluewright.science.memory.garden import garden_of, learned
from bluewright.science.memory.joining import keys_of
from bluewright.science.memory.record import GardenRecord, NextBatch
from bluewright.science.steep.decide import decide, outlook
from bluewright.science.steep.ensemble import Ensemble, extend, learn
from bluewright.science.steep.record import Garden, SteepRecord
from bluewright.science.steep.setting import setting

COMING: Final = 2
MEMBERS: Final = 400
"""A fifth of what the pages draw, to save hours."""
ONCE_H: Final = TWICE_H[1::2]
"""Looks once a day, in the morning."""
WAYS: Final[dict[str, Sequence[float]]] = {"twice": TWICE_H, "once": ONCE_H}
RULES_H: Final = {"two days": 45.0, "three days": 69.0}
"""At the clock of a look."""
ARMS: Final = ("plain", "taught")
CAN_STRAIN: Final[dict[str, tuple[str, ...] | None]] = {"any hour by day": None, "08:00, 18:00": ("08:00", "18:00")}
"""When a person can strain."""


def one(law: str, season: str, seed: int, number: int, can: str) -> Plain:
    """A garden and its next tubs: by tub and arm the losses, and how far off the foretold hour of the best was, ln."""
    garden = followed(law, season, seed=seed, number=number, coming=COMING, to_the_end=True)
    return {"tubs": [_tub(garden, tub, seed=(seed, number, k), can=can) for k, tub in enumerate(garden.coming)]}


def _tub(garden: Followed, tub: Tub, *, seed: tuple[int, ...], can: str) -> Plain:
    found: Plain = {rule: 1 - tub.share(hour) for rule, hour in RULES_H.items()}
    found["best look"] = 1 - max(tub.share(hour) for hour in TWICE_H)
    for arm, taught in zip(ARMS, (None, taught_of(garden, tub)), strict=True):
        steep = replace(tub.batch.steep, garden=taught, can_strain=CAN_STRAIN[can])
        for way, looks_h in WAYS.items():
            found[f"{way} {arm}"] = 1 - tub.share(strained_h(steep, looks_h, rng=np.random.default_rng(seed)))
        hour, peak_h = before_it_began(steep, rng=np.random.default_rng(seed))
        found[f"before {arm}"] = 1 - tub.share(hour)
        found[f"off {arm}"] = abs(log(peak_h / tub.peak_h))
    return found


def taught_of(garden: Followed, tub: Tub) -> Garden:
    """What the garden's batches teach of a tub."""
    past = tuple(each.batch for each in garden.past)
    record = GardenRecord(batches=past, for_next=NextBatch(plant="woad"))
    made = learned(record, known=garden.messages)
    return garden_of(made.belief, "woad", keys_of(tub.batch))


def strained_h(steep: SteepRecord, looks_h: Sequence[float], *, rng: np.random.Generator) -> float:
    """The hour at which a person strains who looks at these hours and does as advised until the next look."""
    by_hour = {(look.time - steep.started).total_seconds() / 3600: look for look in steep.readings}
    looks = tuple(by_hour[hour] for hour in looks_h)
    ensemble: Ensemble | None = None
    for count, (hour, next_h) in enumerate(pairwise((*looks_h, inf)), start=1):
        known = replace(steep, now=steep.started + timedelta(hours=hour), readings=looks[:count])
        grown = None if ensemble is None else extend(ensemble, known, rng=rng)
        ensemble = grown or _begun(known, rng=rng)
        advised_h = _advice(ensemble, known)[0]
        if advised_h < next_h:
            return advised_h
    raise AssertionError("after the last look there is no next")


def before_it_began(steep: SteepRecord, *, rng: np.random.Generator) -> tuple[float, float]:
    """Hours of straining and of the best, as foretold when leaf and water met."""
    known = replace(steep, now=steep.started, readings=())
    return _advice(_begun(known, rng=rng), known)


def _begun(known: SteepRecord, *, rng: np.random.Generator) -> Ensemble:
    ready = setting(
        known, content=thread.content_of(known, rng=rng),
        temp_paths=lambda hours, n: thread.tub_paths(known, hours, rng=rng, n=n),
    )  # fmt: skip
    return learn(ready, members=MEMBERS, rng=rng)


def _advice(ensemble: Ensemble, known: SteepRecord) -> tuple[float, float]:
    """Hour at which to strain, and the middle of the hours of the best."""
    view = outlook(ensemble.setting.course(ensemble.population.z), ensemble.weights)
    decision = decide(known, view)
    return float(decision.option_h[decision.chosen]), float(np.exp(ensemble.weights @ np.log(view.peak_h)))


def table(row: Sequence[str], gardens: Sequence[Plain]) -> None:
    """Print a row: losses in percent, each way without and with memory."""

    def of(name: str) -> Floats:
        return np.array([np.mean([tub[name] for tub in garden["tubs"]]) for garden in gardens])

    rules = " | ".join(f"{100 * of(rule).mean():.1f}" for rule in ("best look", *RULES_H))
    ways = " | ".join(
        f"{100 * of(f'{way} plain').mean():.1f} | {_mean(100 * (of(f'{way} taught') - of(f'{way} plain')), 1)}"
        for way in (*WAYS, "before")
    )
    off = f"{of('off plain').mean():.2f} | {_mean(of('off taught') - of('off plain'), 2)}"
    print(f"| {' | '.join(row)} | {len(gardens)} | {rules} | {ways} | {off} |", flush=True)


def _mean(values: Floats, places: int) -> str:
    return f"{values.mean():+.{places}f} +- {values.std(ddof=1) / np.sqrt(len(values)):.{places}f}"


def main(keep: Path, gardens: int = 12, seed: int = REPORTED_ON) -> None:
    """So many gardens of both laws a season, in turn."""
    numbers = range(gardens)
    asked = [(law, season, seed, n, can) for n in numbers for can in CAN_STRAIN for season in SEASONS for law in LAWS]
    found = dict(zip(asked, gathered(one, asked, keep=keep), strict=True))
    for can in CAN_STRAIN:
        for law in LAWS:
            for season in (*SEASONS, "all"):
                here = {season} if season in SEASONS else set(SEASONS)
                table((can, law, season), [v for k, v in found.items() if (k[0], k[4]) == (law, can) and k[1] in here])


if __name__ == "__main__":
    main(Path(sys.argv[1]), *map(int, sys.argv[2:]))
