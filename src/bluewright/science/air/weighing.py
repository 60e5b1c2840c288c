"""Prior draws weighed by the readings; where few would carry the weight, tempered, resampled and moved.

Importance weights on draws from the prior are exact and cheap while the readings leave many draws alive. When the
effective sample size would fall under a fifth, the likelihood is let in by parts (tempering): each part as large as
keeps two fifths, then systematic resampling and Metropolis moves that would leave the draws' own bell curve as it is,
so that they may be long. Sources: Del Moral, Doucet & Jasra 2006 (key delmoral-2006) for the sampler; Cotter, Roberts,
Stuart & White 2013 (key cotter-2013) for the moves.
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

ENOUGH_FRAC: Final = 0.2
"""Plain weights are good enough while the effective sample size is this share of the draws."""
KEPT_FRAC: Final = 0.4
"""What each part of the likelihood must leave."""
MOVES: Final = 2
MOST_MOVES: Final = 24
"""Every draw is moved so often at least, and at most; in between until two fifths of the draws differ."""
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
    weights = _weights(fit)
    if _kish(weights) >= ENOUGH_FRAC * n:
        return Weighed(z=z, weights=weights, ess=_kish(weights))
    even, let_in, reach = np.full(n, 1.0 / n), 0.0, 0.6
    for _ in range(MOST_PARTS):
        part = _part(fit, 1.0 - let_in)
        weights = _weights(part * fit)
        let_in += part
        bell = _Bell.of(z, weights)
        kept = np.minimum(np.searchsorted(np.cumsum(weights), (np.arange(n) + rng.random()) / n), n - 1)
        z, fit = z[kept], fit[kept]
        for move in range(MOST_MOVES):
            z, fit, reach = _moved(log_likelihood, z, fit, let_in, reach, bell, rng)
            if move + 1 >= MOVES and _effective(z, even) >= KEPT_FRAC * n:
                break
        if let_in >= 1.0:
            return Weighed(z=z, weights=even, ess=_effective(z, even))
    raise ModelError("these readings contradict each other or the record so strongly that no answer can be drawn")


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bell:
    """The bell curve of the draws: centre (causes,), root of the covariance and its inverse."""

    centre: Floats
    root: Floats
    inverse: Floats

    @classmethod
    def of(cls, z: Floats, weights: Floats) -> _Bell:
        """That of weighted draws, a hair widened so that it always exists."""
        centre = weights @ z
        gap = z - centre
        root = np.linalg.cholesky((weights[:, None] * gap).T @ gap + 1e-6 * np.eye(z.shape[1]))
        return cls(centre=centre, root=np.asarray(root, dtype=float), inverse=np.asarray(np.linalg.inv(root)))

    def excess(self, z: Floats) -> Floats:
        """Log of the prior over this bell curve, up to a constant (n,)."""
        own = (z - self.centre) @ self.inverse.T
        return np.asarray(0.5 * (np.sum(own**2, axis=1) - np.sum(z**2, axis=1)))


def _moved(
    log_likelihood: LogLikelihood,
    z: Floats,
    fit: Floats,
    let_in: float,
    reach: float,
    bell: _Bell,
    rng: np.random.Generator,
) -> tuple[Floats, Floats, float]:
    """One Metropolis move of every draw; the reach (0 to 1) adapts to three moves in ten being taken."""
    noise = rng.standard_normal(z.shape) @ bell.root.T
    there = bell.centre + np.sqrt(1.0 - reach**2) * (z - bell.centre) + reach * noise
    there_fit = log_likelihood(there)
    gain = let_in * (there_fit - fit) + bell.excess(there) - bell.excess(z)
    taken = np.log(rng.random(len(z))) < gain
    reach = min(max(reach * float(np.exp(np.mean(taken) - 0.3)), 0.05), 1.0)
    return np.where(taken[:, None], there, z), np.where(taken, there_fit, fit), reach


def _part(fit: Floats, most: float) -> float:
    """The largest part of the likelihood, at most `most`, that keeps two fifths of the draws alive (bisection)."""
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
