"""Tempered sequential Monte Carlo over standard-normal scores, with rejuvenation.

The caller turns scores z into what it knows (score 0 the prior's centre, 1 one spread above) and says how likely the
readings are. A population believed under exp(before(z)) N(z; 0, I) is carried to exp(after(z)) N(z; 0, I) through
tempered targets between the two. Each step is as large as keeps the effective sample size at half the population;
then the population is resampled (systematically) and moved by an autoregressive Metropolis kernel that leaves the
population's own Gaussian approximation invariant, so that a nearly Gaussian posterior is crossed in large steps in any
dimension. Mild readings cost one evaluation: they only change the weights.

Sources: Del Moral, Doucet and Jasra 2006 (key delmoral-2006) for the sampler; Cotter, Roberts, Stuart and White 2013
(key cotter-2013) for the kernel.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.errors import ModelError
from bluewright.science.base.sourced import Floats

LogLik = Callable[[Floats], tuple[Floats, Floats]]
"""From scores (n, d) to the log-likelihoods before and after the new readings, each (n,)."""

ESS_SHARE: Final = 0.5
MAX_LEVELS: Final = 40
FIRST_STEP: Final = 0.9
MOVES: Final = 3
MOST_MOVES: Final = 24
"""At each level every member is moved so often at least, and at most; in between until enough of them differ."""
DIFFER_SHARE: Final = 0.4


@dataclass(frozen=True, slots=True, kw_only=True)
class Population:
    """Weighted scores: `z` (n, d) and normalised weights (n,)."""

    z: Floats
    weights: Floats
    log_evidence: float = 0.0
    """Log of the probability of all readings so far under prior and model."""
    levels: int = 0
    """How many tempering levels it took in all."""

    @property
    def ess(self) -> float:
        """Effective sample size: members that still coincide after resampling and moving count as one."""
        return _distinct(self.z, self.weights)


def from_prior(n: int, dims: int, *, rng: np.random.Generator) -> Population:
    """A population of `n` scores before any reading."""
    return Population(z=rng.standard_normal((n, dims)), weights=np.full(n, 1 / n))


def learn(loglik: Callable[[Floats], Floats], *, n: int, dims: int, rng: np.random.Generator) -> Population:
    """A population of `n` scores from the prior on, after readings of log-likelihood `loglik` (n,).

    Raises ModelError if no member explains the readings, or as `temper` does.
    """

    def both(z: Floats) -> tuple[Floats, Floats]:
        return np.zeros(len(z)), loglik(z)

    return temper(from_prior(n, dims, rng=rng), both, rng=rng)


@dataclass(slots=True)
class _Walk:
    """Scores with both log-likelihoods, and the Gaussian that the next moves are measured against."""

    z: Floats
    before: Floats
    after: Floats
    mean: Floats
    root: Floats
    step: float = FIRST_STEP


def temper(population: Population, loglik: LogLik, *, rng: np.random.Generator) -> Population:
    """Carry `population` over the new readings.

    Raises ModelError when no member explains them, or when they cannot be reached within `MAX_LEVELS` levels.
    """
    before, after = loglik(population.z)
    if not np.isfinite(after).any():
        raise ModelError("nothing within what is believed beforehand explains these readings; check them")
    walk = _Walk(population.z, before, after, population.z[0], np.eye(0))
    weights, phi, levels, log_evidence = population.weights, 0.0, 0, population.log_evidence
    while phi < 1.0:
        if levels >= MAX_LEVELS:
            raise ModelError("these readings contradict the model so strongly that no forecast can be made from them")
        rise = _largest_rise(weights, walk.after - walk.before, 1.0 - phi)
        weights, log_gain = _reweighted(weights, rise * (walk.after - walk.before))
        phi, levels, log_evidence = phi + rise, levels + 1, log_evidence + log_gain
        if phi >= 1.0 and levels == 1 and _ess(weights) > ESS_SHARE * len(weights):
            break
        walk.mean, walk.root = _gaussian(walk.z, weights)
        kept = systematic(weights, n=len(weights), rng=rng)
        walk.z, walk.before, walk.after = walk.z[kept], walk.before[kept], walk.after[kept]
        weights = np.full(len(weights), 1 / len(weights))
        for move in range(MOST_MOVES):
            if move >= MOVES and _distinct(walk.z, weights) >= DIFFER_SHARE * len(weights):
                break
            _move(walk, phi, loglik, rng)
    return Population(z=walk.z, weights=weights, log_evidence=log_evidence, levels=population.levels + levels)


def systematic(weights: Floats, *, n: int, rng: np.random.Generator) -> np.ndarray[tuple[int], np.dtype[np.intp]]:
    """Indices of `n` draws by systematic resampling: each member is kept n * weight times, give or take one."""
    return np.searchsorted(np.cumsum(weights)[:-1], (np.arange(n) + rng.random()) / n)


def _reweighted(weights: Floats, log_gain: Floats) -> tuple[Floats, float]:
    """Weights after multiplying by exp(log_gain), normalised, and the log of their sum before."""
    with np.errstate(divide="ignore"):
        log_weights = np.log(weights) + log_gain
    top = log_weights.max()
    raised = np.exp(log_weights - top)
    total = raised.sum()
    return raised / total, float(top + np.log(total))


def _ess(weights: Floats) -> float:
    return float(1.0 / np.sum(weights**2))


def _distinct(z: Floats, weights: Floats) -> float:
    """Effective sample size with the weights of coinciding members added up."""
    _, place = np.unique(z[:, 0], return_inverse=True)
    return _ess(np.asarray(np.bincount(place, weights=weights), dtype=np.float64))


def _largest_rise(weights: Floats, gain: Floats, most: float) -> float:
    """The largest step of phi, at most `most`, that keeps half the effective sample size (by bisection)."""
    wanted = ESS_SHARE * _ess(weights)
    if _ess(_reweighted(weights, most * gain)[0]) >= wanted:
        return most
    low, high = 0.0, most
    for _ in range(40):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if _ess(_reweighted(weights, middle * gain)[0]) >= wanted else (low, middle)
    return max(low, most * 1e-9)


def _gaussian(z: Floats, weights: Floats) -> tuple[Floats, Floats]:
    """Mean and Cholesky root of the population's covariance, with a whiff of the prior's to keep it regular."""
    mean = weights @ z
    centred = z - mean
    covariance = (weights[:, None] * centred).T @ centred
    return mean, np.asarray(np.linalg.cholesky(covariance + 1e-6 * np.eye(z.shape[1])), dtype=np.float64)


def _move(walk: _Walk, phi: float, loglik: LogLik, rng: np.random.Generator) -> None:
    """One autoregressive Metropolis move of every member; the step adapts to how many moves are taken."""
    n, dims = walk.z.shape
    noise = rng.standard_normal((n, dims)) @ walk.root.T
    there = walk.mean + np.sqrt(1 - walk.step**2) * (walk.z - walk.mean) + walk.step * noise
    before, after = loglik(there)
    log_ratio = before + phi * (after - before) - walk.before - phi * (walk.after - walk.before)
    log_ratio += _excess(there, walk) - _excess(walk.z, walk)
    taken = np.log(rng.random(n)) < log_ratio
    walk.z = np.where(taken[:, None], there, walk.z)
    walk.before = np.where(taken, before, walk.before)
    walk.after = np.where(taken, after, walk.after)
    share = taken.mean()
    walk.step = float(np.clip(walk.step * (0.7 if share < 0.2 else 1.25 if share > 0.4 else 1.0), 0.02, 1.0))


def _excess(z: Floats, walk: _Walk) -> Floats:
    """Log density of the prior N(0, I) over that of the population's Gaussian, up to a constant, (n,)."""
    scores = np.linalg.solve(walk.root, (z - walk.mean).T)
    return np.asarray(0.5 * np.sum(scores**2, axis=0) - 0.5 * np.sum(z**2, axis=1))
