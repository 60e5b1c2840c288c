"""How well does the strain call do? The two tables of the docs page *Steep*, made anew.

    python -m benchmarks.study_steep calibration [SIMULATIONS]
    python -m benchmarks.study_steep decision [TUBS A SEASON]

Calibration: truths from the priors, read by the model's own signs; how often do the bands hold them? Decision: two
looks a day, the advice followed, against a clairvoyant and against fixed rules; once with truths that obey the model,
once with tubs that do not. Minutes of work each, quickest with OPENBLAS_NUM_THREADS=1 in the environment.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import timedelta

import numpy as np
from tests.science.steep.other_truth import look as other_look
from tests.science.steep.other_truth import other_tub
from tests.science.steep.simulate import CONTENT, START, blank, draw, record

from bluewright.science import thread
from bluewright.science.steep.decide import decide, outlook
from bluewright.science.steep.ensemble import learn
from bluewright.science.steep.record import Reading, SteepRecord
from bluewright.science.steep.setting import setting

SEASONS = {"cool": 13.0, "mild": 17.0, "warm": 22.0}
LOOKS_H = [h for day in range(14) for h in (7.0 + 24 * day, 21.0 + 24 * day)]
EVERY = 0.7
MEMBERS = 400


@dataclass(frozen=True)
class Truth:
    """A tub whose course is known: its share of the best at an hour, its peak, and its readings at each look."""

    share: Callable[[float], float]
    peak_h: float
    readings: tuple[Reading, ...]
    record: SteepRecord


def model_truth(mean_c: float, rng: np.random.Generator) -> Truth:
    """A truth that obeys the model."""
    base = blank(forecast_record(mean_c, rng), LOOKS_H, rng)
    case = draw(base, rng, every=EVERY)
    view = outlook(case.course, np.ones(1))
    return Truth(
        share=lambda hour: float(np.interp(hour, view.hours, view.share_frac[:, 0])),
        peak_h=float(view.peak_h[0]),
        readings=case.setting.record.readings,
        record=case.setting.record,
    )


def other_truth(mean_c: float, rng: np.random.Generator) -> Truth:
    """A truth that does not."""
    tub = other_tub(mean_c, rng)
    readings = tuple(other_look(tub, hour, rng, every=EVERY) for hour in LOOKS_H)
    return Truth(share=tub.share, peak_h=tub.peak_h, readings=readings, record=forecast_record(mean_c, rng))


def forecast_record(mean_c: float, rng: np.random.Generator) -> SteepRecord:
    """A steep with eight days of air forecast about a mean."""
    air = [
        {
            "time": (START + timedelta(hours=24 * day + hour)).isoformat(),
            "where": "air",
            "temp_c": float(mean_c + swing + rng.normal(0, 1)),
            "forecast": True,
        }
        for day in range(8)
        for hour, swing in ((4, 4.0), (18, -4.0))
    ]
    return record(temps=air, now=START.isoformat(), can_strain=["08:00", "18:00"])


def follow(truth: Truth, rng: np.random.Generator) -> float:
    """The hour at which a person who follows the advice strains."""
    for count, hour in enumerate(LOOKS_H, start=1):
        now = START + timedelta(hours=hour)
        known = replace(truth.record, now=now, readings=truth.readings[:count])
        ready = setting(known, content=CONTENT, temp_paths=lambda h, n, k=known: thread.tub_paths(k, h, rng=rng, n=n))
        ensemble = learn(ready, members=MEMBERS, rng=rng)
        view = outlook(ready.course(ensemble.population.z), ensemble.weights)
        if decide(known, view).advice != "wait":
            return hour
    return LOOKS_H[-1]


def decision(tubs: int) -> None:
    """Print mean losses by season and truth."""
    print(f"{'truth':<14}{'season':<8}{'advice':>16}{'two days':>10}{'three days':>12}{'peak, h':>9}")
    for name, make in (("the model", model_truth), ("another", other_truth)):
        for season, mean_c in SEASONS.items():
            rng = np.random.default_rng(2026)
            truths = [make(mean_c, rng) for _ in range(tubs)]
            losses = np.array([1 - truth.share(follow(truth, rng)) for truth in truths])
            fixed = [100 * np.mean([1 - truth.share(hour) for truth in truths]) for hour in (45.0, 69.0)]
            advice = f"{100 * losses.mean():.1f} +- {100 * losses.std() / np.sqrt(tubs):.1f} %"
            peak = np.median([truth.peak_h for truth in truths])
            print(f"{name:<14}{season:<8}{advice:>16}{fixed[0]:>8.1f} %{fixed[1]:>10.1f} %{peak:>9.0f}", flush=True)


def calibration(simulations: int) -> None:
    """Print how often bands hold the truth, after readings at 18, 30 and 45 hours."""
    rng = np.random.default_rng(2026)
    base = blank(record(), [18.0, 30.0, 45.0], rng)
    names = ("hour of the peak", "share of the best now", "recoverable now", "temperature now", "speed of dying")
    ranks = np.empty((simulations, len(names)))
    for sim in range(simulations):
        case = draw(base, rng, every=EVERY)
        learned = learn(case.setting, members=1000, rng=rng)
        z, now = learned.population.z, base.row(base.record.now)
        found = []
        for scores in (z, case.truth_z):
            course = case.setting.course(scores)
            view = outlook(course, np.full(len(scores), 1 / len(scores)))
            found.append(
                (view.peak_h, view.share_frac[now], course.recoverable_mmol_per_l[now], course.temp_c[now],
                 case.setting.column(scores, "kill_25c_per_h"))
            )  # fmt: skip
        ranks[sim] = [learned.weights @ ((a < t) + 0.5 * (a == t)) for a, t in zip(*found, strict=True)]
    print(f"{'quantity':<24}{'50 %':>6}{'80 %':>6}{'95 %':>6}{'chi-square of ranks (9)':>26}")
    for column, name in enumerate(names):
        held = [100 * np.mean(np.abs(ranks[:, column] - 0.5) <= q / 2) for q in (0.5, 0.8, 0.95)]
        counts = np.histogram(ranks[:, column], bins=10, range=(0, 1))[0]
        chi2 = ((counts - simulations / 10) ** 2 / (simulations / 10)).sum()
        print(f"{name:<24}" + "".join(f"{h:>6.0f}" for h in held) + f"{chi2:>26.1f}")


if __name__ == "__main__":
    wanted = int(sys.argv[2]) if len(sys.argv) > 2 else 60
    {"calibration": calibration, "decision": decision}[sys.argv[1]](wanted)
