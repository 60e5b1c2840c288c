"""How often the ranges of trials hold the truth, by simulation: the tables of docs/method/compare.md.

Run: .venv/bin/python benchmarks/study_compare.py (some minutes). Every figure carries its Monte-Carlo error.
"""

from __future__ import annotations

import math

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.base.t_and_f import t_quantile
from bluewright.science.learn.mixed import batches
from bluewright.science.learn.mixed_normals import normal_cdf
from bluewright.science.learn.mixed_record import BatchesRecord, NotedBatch
from bluewright.science.learn.trial_beliefs import noise_after, noise_before, shrunk
from bluewright.science.learn.trial_fit import Cell, Fit, fit_in_blocks
from bluewright.science.learn.trial_priors import EFFECT, PAIR_SD

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


PAIRS = (2, 3, 4, 6, 10)
SPREADS_SD = (0.12, 0.25, 0.40, 0.50, 0.70)
GRID_SD = np.geomspace(0.01, 6.0, 400)
BELIEFS = {
    "worth 1 pair (ours)": -np.log(GRID_SD) - 0.5 * (PAIR_SD.value / GRID_SD) ** 2,
    "worth 2": -2 * np.log(GRID_SD) - (PAIR_SD.value / GRID_SD) ** 2,
    "worth 4": -4 * np.log(GRID_SD) - 2 * (PAIR_SD.value / GRID_SD) ** 2,
    "half-normal 0.35": np.log(GRID_SD) - 0.5 * (GRID_SD / 0.35) ** 2,
    "half-t, 4, 0.35": np.log(GRID_SD) - 2.5 * np.log1p((GRID_SD / 0.35) ** 2 / 4),
    "nothing (the tubs alone)": np.zeros(len(GRID_SD)),
}
"""Log densities of the logarithm of the spread of pairs: scaled inverse chi-squared, and other kinds."""


def below_truth(log_prior: Floats, pair_sd: float, n: int, rng: np.random.Generator) -> Floats:
    """For each simulated trial of `n` pairs the chance that it gives to a ratio below the true one."""
    pairs = rng.normal(0.0, pair_sd, (TRIALS, n))
    mean = pairs.mean(axis=1, keepdims=True)
    rss = np.sum((pairs - mean) ** 2, axis=1, keepdims=True)
    log_weight = log_prior - (n - 1) * np.log(GRID_SD) - 0.5 * rss / GRID_SD**2
    weight = np.exp(log_weight - log_weight.max(axis=1, keepdims=True))
    chance = normal_cdf(-mean * math.sqrt(n) / GRID_SD)
    return np.asarray(np.sum(weight * chance, axis=1) / np.sum(weight, axis=1))


def coverage() -> None:
    """Pairs: how often the 90 % range holds the truth, by belief of the noise, true spread and number of pairs."""
    rng = np.random.default_rng(SEED)
    for belief, log_prior in BELIEFS.items():
        print(f"{belief}\ntrue spread | {' | '.join(map(str, PAIRS))} pairs   (per cent; error at most 0.7 points)")
        for pair_sd in SPREADS_SD:
            chances = [below_truth(log_prior, pair_sd, n, rng) for n in PAIRS]
            print(pair_sd, *(f"{100 * np.mean(np.abs(one - 0.5) < 0.45):.1f}" for one in chances), sep=" | ")


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
