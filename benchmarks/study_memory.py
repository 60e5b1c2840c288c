"""How well does the memory do? The tables of the docs page *The garden's memory*, made anew.

    python -m benchmarks.study_memory calibration [GARDENS]
    python -m benchmarks.study_memory yields [GARDENS]
    python -m benchmarks.study_memory decision [GARDENS A SEASON]

Calibration: gardens drawn from the model of parts; how often do the bands hold the scores and the yield of the next
batch? Yields: by how much does the error of the forecast fall, with gardens of the model and with gardens that do not
obey it (another law of release, lagged microbes, slanted signs)? Decision: two looks a day, the advice followed,
without and with what eight batches taught, against a clairvoyant and against fixed rules. Many minutes of work.
"""

from __future__ import annotations

import sys
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from math import log

import numpy as np
from tests.science.memory.gardens import NAMES, GardenTruth, batch_of, steep_of
from tests.science.steep.other_truth import OtherGarden, other_garden, other_tub
from tests.science.steep.other_truth import look as other_look

from bluewright.science import thread
from bluewright.science.base.sourced import Floats
from bluewright.science.memory.garden import Learned, foretold_of, garden_of, learned
from bluewright.science.memory.joining import keys_of, next_keys, widened
from bluewright.science.memory.record import Batch, GardenRecord, NextBatch
from bluewright.science.memory.told import told
from bluewright.science.steep.decide import decide, outlook
from bluewright.science.steep.ensemble import learn
from bluewright.science.steep.record import Garden, SteepRecord
from bluewright.science.steep.setting import setting

SEASONS = {"cool": (13.0, (55.0, 110.0)), "mild": (17.0, (40.0, 75.0)), "warm": (22.0, (26.0, 54.0))}
"""Mean air, and the hours between which the garden strains while it is learned from."""
LOOKS_H = tuple(h for day in range(14) for h in (7.0 + 24 * day, 21.0 + 24 * day))
EVERY = 0.7
MEMBERS = 400
TAUGHT = 8
RULES_H = (45.0, 69.0)
"""Two days and three days, at the clock of a look."""


@dataclass(frozen=True)
class Tub:
    """A finished batch whose truth is known: share of the best at an hour."""

    batch: Batch
    share: object


def model_tubs(rng: np.random.Generator, season: str, n: int) -> list[Tub]:
    """Batches of one garden that obeys the model, all looks taken; the last is read to the end."""
    garden, found = GardenTruth(rng), []
    mean_c, span = SEASONS[season]
    for number in range(n):
        steep = steep_of(rng, number, mean_c=mean_c)
        strained_h = float(rng.uniform(*span)) if number < n - 1 else LOOKS_H[-1] + 1
        done = batch_of(
            garden, steep, looks_h=LOOKS_H, strained_h=strained_h, bed="abc"[number % 3], tub="12"[number % 2],
            look_chance=EVERY,
        )  # fmt: skip
        found.append(Tub(done.batch, done.share))
    return found


def other_tubs(rng: np.random.Generator, season: str, n: int) -> list[Tub]:
    """Batches of one garden that does not."""
    garden, found = other_garden(rng), []
    mean_c, span = SEASONS[season]
    for number in range(n):
        steep = steep_of(rng, number, mean_c=mean_c)
        strained_h = float(np.round(rng.uniform(*span))) if number < n - 1 else LOOKS_H[-1] + 1
        found.append(_other(garden, steep, mean_c, strained_h, rng, number))
    return found


def _other(
    garden: OtherGarden, steep: SteepRecord, mean_c: float, strained_h: float, rng: np.random.Generator, number: int
) -> Tub:
    tub = other_tub(mean_c, rng, garden=garden)
    looks = tuple(
        other_look(tub, hour, rng, every=EVERY, started=steep.started) for hour in LOOKS_H if hour <= strained_h
    )
    strained = steep.started + timedelta(hours=strained_h)
    grams = (
        steep.leaf_kg * np.exp(garden.log_g_per_kg + rng.normal(0, 0.3)) * np.interp(strained_h, tub.hours, tub.blue)
    )
    batch = Batch(
        steep=replace(steep, readings=looks, now=strained), strained=strained, bed="abc"[number % 3],
        tub="12"[number % 2], pure_g=float(max(grams, 1e-6)), pure_log_sd=0.15,
    )  # fmt: skip
    return Tub(batch, tub.share)


TRUTHS = {"the model": model_tubs, "another": other_tubs}


def garden_from(tubs: list[Tub], steep: SteepRecord, *, bed: str, tub: str) -> Garden:
    """What the batches teach of a batch of that leaf, bed and tub."""
    made = _learned([one.batch for one in tubs], steep, bed=bed, tub=tub)
    wanted = made.record.for_next
    return garden_of(made.belief, wanted, next_keys(wanted, last=made.last))


def _learned(batches: list[Batch], steep: SteepRecord, *, bed: str = "", tub: str = "") -> Learned:
    wanted = NextBatch(plant="woad", on=steep.started.date(), age=steep.leaf.age, bed=bed, tub=tub)
    return learned(GardenRecord(batches=tuple(batches), for_next=wanted))


def follow(batch: Batch, garden: Garden | None, rng: np.random.Generator) -> float:
    """The hour at which a person who follows the advice strains."""
    steep = replace(batch.steep, garden=garden)
    content = thread.content_of(steep, rng=rng)
    for count, hour in enumerate(LOOKS_H, start=1):
        now: datetime = steep.started + timedelta(hours=hour)
        known = replace(steep, now=now, readings=steep.readings[:count])
        ready = setting(known, content=content, temp_paths=lambda h, n, k=known: thread.tub_paths(k, h, rng=rng, n=n))
        ensemble = learn(ready, members=MEMBERS, rng=rng)
        view = outlook(ready.course(ensemble.population.z), ensemble.weights)
        if decide(known, view).advice != "wait":
            return hour
    return LOOKS_H[-1]


def decision(gardens: int) -> None:
    """Print mean losses by season and truth."""
    print(
        f"{'truth':<12}{'season':<8}{'no memory':>16}{'eight batches':>17}{'difference':>16}{'2 days':>9}{'3 days':>9}"
    )
    for name, make in TRUTHS.items():
        for season in SEASONS:
            losses = []
            for number in range(gardens):
                rng = np.random.default_rng((2029, number))
                *past, last = make(rng, season, TAUGHT + 1)
                garden = garden_from(past, last.batch.steep, bed=last.batch.bed, tub=last.batch.tub)
                hours = [follow(last.batch, g, np.random.default_rng(number)) for g in (None, garden)]
                losses.append([100 * (1 - last.share(hour)) for hour in (*hours, *RULES_H)])
            found = np.array(losses)
            plain, taught = (_mean_said(found[:, k]) for k in (0, 1))
            gained = _mean_said(found[:, 1] - found[:, 0])
            rules = "".join(f"{found[:, k].mean():>7.1f} %" for k in (2, 3))
            print(f"{name:<12}{season:<8}{plain:>16}{taught:>17}{gained:>16}{rules}", flush=True)


def _mean_said(values: Floats) -> str:
    return f"{values.mean():.1f} +- {values.std(ddof=1) / np.sqrt(len(values)):.1f} %"


def yields(gardens: int) -> None:
    """Print the mean absolute log error of what was weighed, by how many batches were known."""
    print(f"{'truth':<12}{'known':>6}{'prior':>8}{'memory':>8}{'falls by':>18}{'in 50 %':>9}{'in 90 %':>9}")
    for name, make in TRUTHS.items():
        off: dict[int, list[tuple[float, float, float]]] = {}
        for number in range(gardens):
            rng = np.random.default_rng((2027, number))
            tubs = make(rng, "mild", TAUGHT + 3)[:-1]
            made = _learned([one.batch for one in tubs], tubs[-1].batch.steep)
            for one in foretold_of(made):
                errors = abs(one.got_log - one.before[0]), abs(one.got_log - one.now[0])
                off.setdefault(one.known, []).append((*errors, one.rank_frac))
        for known in sorted(off):
            found = np.array(off[known])
            fall = 1 - found[:, 1].mean() / found[:, 0].mean()
            again = np.random.default_rng(0).integers(0, len(found), (1000, len(found)))
            error = np.std([1 - found[pick, 1].mean() / found[pick, 0].mean() for pick in again])
            held = [100 * np.mean(np.abs(found[:, 2] - 0.5) <= half) for half in (0.25, 0.45)]
            print(
                f"{name:<12}{known:>6}{found[:, 0].mean():>8.2f}{found[:, 1].mean():>8.2f}"
                f"{100 * fall:>10.0f} +- {100 * error:.0f} %{held[0]:>9.0f}{held[1]:>9.0f}",
                flush=True,
            )


def calibration(gardens: int) -> None:
    """Print how often the bands of the next batch, after `TAUGHT` batches, hold its truth."""
    names = (
        "content_mmol_per_kg",
        "kill_25c_per_h",
        "finish_frac",
        "brown_25c_per_h",
        "limpness",
        "bubbles",
        "dye_index",
    )
    scores = []
    for number in range(gardens):
        rng = np.random.default_rng((2028, number))
        truth = GardenTruth(rng)
        done = [
            batch_of(
                truth,
                steep_of(rng, k, mean_c=17.0),
                strained_h=float(rng.uniform(38, 70)),
                bed="abc"[k % 3],
                tub="12"[k % 2],
            )
            for k in range(TAUGHT + 1)
        ]
        last = done[-1]
        made = _learned([one.batch for one in done[:-1]], last.batch.steep)
        mean, covariance = made.belief.of(keys_of(last.batch))
        line = widened(told(last.batch, rng=rng), made.layout.names).log_g_before
        sd = np.sqrt(float(line.slope @ covariance @ line.slope) + line.variance)
        found = [(last.truth[k] - mean[k]) / np.sqrt(covariance[k, k]) for k in map(NAMES.index, names)]
        scores.append([*found, (log(last.true_g) - line.mean - float(line.slope @ mean)) / sd])
    z = np.array(scores)
    print(f"{'quantity':<24}{'50 %':>6}{'80 %':>6}{'95 %':>6}{'chi-square of ranks (9)':>26}")
    for column, name in enumerate((*names, "yield")):
        held = [100 * np.mean(np.abs(z[:, column]) <= q) for q in (0.6745, 1.2816, 1.96)]
        edges = [-9e9, -1.2816, -0.8416, -0.5244, -0.2533, 0.0, 0.2533, 0.5244, 0.8416, 1.2816, 9e9]
        counts = np.histogram(z[:, column], bins=edges)[0]
        chi2 = ((counts - gardens / 10) ** 2 / (gardens / 10)).sum()
        print(f"{name:<24}" + "".join(f"{h:>6.0f}" for h in held) + f"{chi2:>26.1f}")


if __name__ == "__main__":
    wanted = int(sys.argv[2]) if len(sys.argv) > 2 else 20
    {"calibration": calibration, "yields": yields, "decision": decision}[sys.argv[1]](wanted)
