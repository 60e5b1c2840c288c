"""How often the ranges of trials hold the truth, by simulation: the tables of docs/method/compare.md.

Run: .venv/bin/python benchmarks/study_compare.py (some minutes). Every figure carries its Monte-Carlo error.
"""

from __future__ import annotations

import math

import numpy as np

from bluewright.science.base.t_and_f import t_quantile
from bluewright.science.learn.mixed import batches
from bluewright.science.learn.mixed_record import BatchesRecord, NotedBatch
from bluewright.science.learn.trial_beliefs import noise_after, noise_before, shrunk
from bluewright.science.learn.trial_fit import Cell, Fit, fit_in_blocks
from bluewright.science.learn.trial_priors import EFFECT

SEED = 20
TRIALS = 4000
GARDENS = 400


def error(chance: float, n: int) -> float:
    """Monte-Carlo standard error of a share, in per cent points."""
    return 100 * math.sqrt(chance * (1 - chance) / n)


def fitted(rng: np.random.Generator, n: int, log_ratio: float, pair_sd: float) -> Fit:
    """One simulated trial of `n` pairs."""
    tubs = rng.normal(0, pair_sd / math.sqrt(2), (2, n)) + rng.normal(0, 0.35, n)
    tubs[1] += log_ratio
    cells = [
        Cell(way=way, block=str(k), mean_log=float(tubs[way, k]), own_sd=0.0, assays=())
        for k in range(n)
        for way in (0, 1)
    ]
    return fit_in_blocks(cells, ways=2)


def coverage() -> None:
    """Pairs: how often the 90 % range holds the truth, by true spread of pairs and their number."""
    rng = np.random.default_rng(SEED)
    print("true pair spread | 2 pairs | 3 | 4 | 6 | 10   (per cent; error at most 0.7 points)")
    for pair_sd in (0.12, 0.25, 0.40, 0.50):
        found = []
        for n in (2, 3, 4, 6, 10):
            inside = 0
            for _ in range(TRIALS):
                fit = fitted(rng, n, -0.2, pair_sd)
                noise = noise_after(noise_before(in_blocks=True, earlier=None), fit)
                half = t_quantile(0.95, dof=noise.dof) * noise.tub_sd * math.sqrt(fit.unit_factor[0, 0])
                inside += abs(fit.estimate_log[0] + 0.2) < half
            found.append(f"{100 * inside / TRIALS:.1f}")
        print(f"{pair_sd} | {' | '.join(found)}")


def curse() -> None:
    """How much larger than the truth a clear result is, before and after it is drawn in."""
    rng = np.random.default_rng(SEED + 1)
    print("pairs | clear in % | log ratio told / true | drawn in / true   (true ratio 1.15, pairs unlike by 0.25)")
    true = math.log(1.15)
    for n in (3, 4, 6, 10):
        told, drawn, clear = [], [], 0
        for _ in range(TRIALS):
            fit = fitted(rng, n, true, 0.25)
            t = fit.estimate_log[0] / math.sqrt(fit.rss / fit.dof * fit.unit_factor[0, 0])
            if abs(t) < t_quantile(0.975, dof=fit.dof):
                continue
            clear += 1
            told.append(abs(fit.estimate_log[0]) / true)
            noise = noise_after(noise_before(in_blocks=True, earlier=None), fit)
            one = shrunk(fit, noise, effect_sd=EFFECT.spread)
            drawn.append(abs(float(one.weights @ one.mean[:, 0])) / true)
        told_error = np.std(told) / math.sqrt(len(told))
        print(f"{n} | {100 * clear / TRIALS:.1f} | {np.mean(told):.2f} +- {told_error:.2f} | {np.mean(drawn):.2f}")


def many() -> None:
    """Batches: how often the 90 % range of the way holds the truth."""
    rng = np.random.default_rng(SEED + 2)
    print("batches | holds in %")
    for n in (8, 16, 32):
        inside = 0
        for _ in range(GARDENS):
            beds, days, way = rng.normal(0, 0.15, 3), rng.normal(0, 0.1, n), rng.permutation(np.arange(n) % 2)
            logs = 0.14 * way + beds[np.arange(n) % 3] + days[np.arange(n) // 2] + rng.normal(0, 0.2, n)
            noted = tuple(
                NotedBatch(way="ab"[way[k]], value=float(np.exp(logs[k])), bed=str(k % 3), season=f"day {k // 2}")
                for k in range(n)
            )
            found = batches(BatchesRecord(batches=noted, usual="a"), rng=rng).causes[0].ratio_factor
            inside += found.p5 < math.exp(0.14) < found.p95
        share = inside / GARDENS
        print(f"{n} | {100 * share:.0f} +- {error(share, GARDENS):.1f}")


if __name__ == "__main__":
    coverage()
    curse()
    many()
