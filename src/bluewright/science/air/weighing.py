"""Prior draws weighed by the readings; where few would carry the weight, tempered, resampled and moved.

Importance weights on draws from the prior are exact and cheap while the readings leave many draws alive. When the
effective sample size would fall under half, the likelihood is let in by parts (tempering): each part as large as
keeps half, then systematic resampling and random-walk Metropolis moves with the draws' own covariance.
Source: Del Moral, Doucet & Jasra 2006 (key delmoral-2006).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.errors import ModelError
from bluewright.science.base.sourced import Floats

LogLikelihood = Callable[[Floats], Floats]
"""From scores (n, causes) to the log-likelihood of all readings (n,)."""

KEPT_FRAC: Final = 0.5
MOVES: Final = 4
MOST_MOVES: Final = 24
"""Every draw is moved so often at least, and at most; in between until half of the draws differ from each other."""
MOST_PARTS: Final = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """Draws of the scores (n, causes) with weights (n,) that sum to 1."""

    z: Floats
    weights: Floats
    ess: float
    """Effective sample size: of the weights, copies of one draw counted as one."""


def weigh(log_likelihood: LogLikelihood, *, causes: int, n: int, rng: np.random.Generator) -> Weighed:
    """`n` draws from the prior (independent standard-normal scores), weighed by the readings.

    Raises ModelError if the readings are impossible for every draw.
    """
    z = rng.standard_normal((n, causes))
    fit = log_likelihood(z)
    if not np.any(np.isfinite(fit)):
        raise ModelError("no batch within what is believed explains these readings; check them")
    weights, let_in, reach = np.full(n, 1.0 / n), 0.0, 0.4
    for _ in range(MOST_PARTS):
        part = _part(fit, 1.0 - let_in)
        weights = _weights(part * fit)
        let_in += part
        if let_in >= 1.0 and _effective(z, weights) >= KEPT_FRAC * n:
            return Weighed(z=z, weights=weights, ess=_effective(z, weights))
        root = _root(z, weights)
        kept = np.minimum(np.searchsorted(np.cumsum(weights), (np.arange(n) + rng.random()) / n), n - 1)
        z, fit = z[kept], fit[kept]
        even = np.full(n, 1.0 / n)
        for move in range(MOST_MOVES):
            z, fit, reach = _moved(log_likelihood, z, fit, let_in, reach, root, rng)
            if move + 1 >= MOVES and _effective(z, even) >= KEPT_FRAC * n:
                break
        if let_in >= 1.0:
            return Weighed(z=z, weights=even, ess=_effective(z, even))
    raise ModelError("these readings contradict each other or the record so strongly that no answer can be drawn")


def _moved(
    log_likelihood: LogLikelihood,
    z: Floats,
    fit: Floats,
    let_in: float,
    reach: float,
    root: Floats,
    rng: np.random.Generator,
) -> tuple[Floats, Floats, float]:
    """One Metropolis move of every draw; the reach adapts to a quarter of moves taken."""
    there = z + reach * rng.standard_normal(z.shape) @ root.T
    there_fit = log_likelihood(there)
    gain = let_in * (there_fit - fit) - 0.5 * (np.sum(there**2, axis=1) - np.sum(z**2, axis=1))
    taken = np.log(rng.random(len(z))) < gain
    reach *= float(np.exp(np.mean(taken) - 0.25))
    return np.where(taken[:, None], there, z), np.where(taken, there_fit, fit), reach


def _root(z: Floats, weights: Floats) -> Floats:
    """Cholesky root of the draws' covariance, a hair widened so that it always exists."""
    gap = z - weights @ z
    return np.asarray(np.linalg.cholesky((weights[:, None] * gap).T @ gap + 1e-6 * np.eye(z.shape[1])), dtype=float)


def _part(fit: Floats, most: float) -> float:
    """The largest part of the likelihood, at most `most`, that keeps half of the draws alive (bisection)."""
    if _kish(_weights(most * fit)) >= KEPT_FRAC * len(fit):
        return most
    low, high = 0.0, most
    for _ in range(30):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if _kish(_weights(middle * fit)) >= KEPT_FRAC * len(fit) else (low, middle)
    return max(low, 1e-6)


def _weights(log_weights: Floats) -> Floats:
    raised = np.exp(log_weights - np.max(log_weights))
    return np.asarray(raised / np.sum(raised))


def _kish(weights: Floats) -> float:
    return float(1.0 / np.sum(weights**2))


def _effective(z: Floats, weights: Floats) -> float:
    """Effective sample size with the weights of equal draws added up."""
    _, same = np.unique(z[:, 0], return_inverse=True)
    return _kish(np.asarray(np.bincount(same, weights=weights), dtype=float))
