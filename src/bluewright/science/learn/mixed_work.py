"""The sums of the hierarchical model: all effects integrated exactly, whatever the spreads are.

No batch is in two levels of a group, nor under two assays: each of these is a diagonal block. The one with most columns
is eliminated first, columns of one size alike by sums made once: hundreds of assays or days cost no more than a few.
"""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from bluewright.science.base.posterior import Likelihood
from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.learn.mixed_columns import Columns
from bluewright.science.learn.mixed_normals import normal_cdf
from bluewright.science.learn.trial_priors import EFFECT

CHUNK_NUMBERS: Final = 2_000_000
"""So many numbers of matrices are worked on at a time."""
LEVEL_SD: Final = 2.0
"""Of the level of all batches around their mean, on the logarithm: nothing is believed of it."""
GROUP_SD: Final = Sourced(
    value=0.2, unit="1", source="bluewright-learn", low=0.1, high=0.4, grade="guess",
    note="scale of the half-normal prior of the spread from season to season, bed to bed, day to day",
)  # fmt: skip
REST_SD: Final = Sourced(
    value=0.3, unit="1", source="bluewright-learn", low=0.15, high=0.6, grade="guess",
    note="scale of the half-normal prior of what is left",
)  # fmt: skip
LEAST_SD: Final = 1e-4
MOST_SIZES: Final = 20
"""A block is eliminated if its columns are of so many sizes at most: for each the sums are kept."""
_OF_CAUSES: Final = -1
_OF_ASSAYS: Final = -2


class Work:
    """The sums that every evaluation needs, made once from the columns."""

    def __init__(self, built: Columns) -> None:
        n = len(built.y)
        self.spreads, self.causes = len(built.groups) + 1, len(built.causes)
        blocks = {k: z for k, (_name, z) in enumerate(built.groups)} | {_OF_ASSAYS: built.assays_log.reshape(n, -1)}
        few = {k: z for k, z in blocks.items() if len(np.unique(np.sum(z**2, axis=0))) <= MOST_SIZES}
        self.largest, z = max(few.items(), key=lambda block: block[1].shape[1], default=(_OF_ASSAYS, np.zeros((n, 0))))
        parts = [
            (_OF_CAUSES, np.hstack([np.ones((n, 1)), *(column.values[:, None] for column in built.causes)])),
            *((k, block) for k, block in blocks.items() if block is not z),
        ]
        w = np.hstack([part for _k, part in parts])
        y = built.y - built.y.mean()
        self.group_of = np.concatenate([np.full(part.shape[1], k) for k, part in parts])
        self.ww, self.wy, self.yy, self.n = w.T @ w, w.T @ y, float(y @ y), n
        self.sizes, size_of, self.levels = np.unique(np.sum(z**2, axis=0), return_inverse=True, return_counts=True)
        alike = [z[:, size_of == k] for k in range(len(self.sizes))]
        self.wzzw = np.array([(w.T @ some) @ (some.T @ w) for some in alike]).reshape(-1, *self.ww.shape)
        self.wzzy = np.array([(w.T @ some) @ (some.T @ y) for some in alike]).reshape(-1, len(self.wy))
        self.yzzy = np.array([np.sum((some.T @ y) ** 2) for some in alike])
        self.scales = np.array([GROUP_SD.value] * len(built.groups) + [REST_SD.value])
        self.step = max(1, CHUNK_NUMBERS // (len(self.wy) + 1) ** 2)

    def sds(self, z: Floats) -> Floats:
        """Scores to spreads, (n, spreads): those of a standard normal score are half-normal."""
        return np.asarray(np.maximum(self.scales * half_normal_point(normal_cdf(z)), LEAST_SD))

    @property
    def likelihood(self) -> Likelihood:
        """Log-likelihood at scores (n, spreads), all effects integrated out."""

        def at(z: Floats) -> Floats:
            chunks = [self._log_likelihood(self.sds(z[k : k + self.step])) for k in range(0, max(len(z), 1), self.step)]
            return np.concatenate(chunks)

        return at

    def _eliminated(self, sds: Floats) -> tuple[Floats, Floats, Floats, Floats]:
        """Root of the matrix that is left, its right side solved, log determinant and quadratic form of the whole.

        The root of the matrix with its right side as one row more holds the solved side in that row.
        """
        rest, p = sds[:, -1] ** -2, len(self.wy)
        d = rest[:, None] * self.sizes + self._precision_of(self.largest, sds)[:, None]
        pull = rest[:, None] / d
        eliminated = rest * (pull @ self.yzzy)
        left = np.empty((len(sds), p + 1, p + 1))
        left[:, :p, :p] = rest[:, None, None] * (self.ww - np.tensordot(pull, self.wzzw, axes=1))
        left[:, np.arange(p), np.arange(p)] += self._precision(sds)
        left[:, p, :p] = left[:, :p, p] = rest[:, None] * (self.wy - pull @ self.wzzy)
        left[:, p, p] = 1.0 + rest * self.yy - eliminated  # more than the solved side's square
        whole = np.linalg.cholesky(left)
        root, half = whole[:, :p, :p], whole[:, p, :p]
        log_det = 2 * np.sum(np.log(np.diagonal(root, axis1=1, axis2=2)), axis=1) + np.log(d) @ self.levels
        square = eliminated + np.sum(half**2, axis=1)
        return np.asarray(root), np.asarray(half), np.asarray(log_det), np.asarray(square)

    def _precision(self, sds: Floats) -> Floats:
        """Of what is left: level, causes, blocks but the one that is eliminated; (n, p)."""
        prior = np.empty((len(sds), len(self.wy)))
        prior[:, self.group_of == _OF_CAUSES] = EFFECT.spread**-2
        prior[:, 0] = LEVEL_SD**-2
        for k in (*range(self.spreads - 1), _OF_ASSAYS):
            prior[:, self.group_of == k] = self._precision_of(k, sds)[:, None]
        return prior

    def _precision_of(self, block: int, sds: Floats) -> Floats:
        """Of each effect of a block, (n,): assays are counted in their own standard deviations."""
        return np.ones(len(sds)) if block == _OF_ASSAYS else np.asarray(sds[:, block] ** -2)

    def _log_likelihood(self, sds: Floats) -> Floats:
        """Formula: -n log s + sum log p / 2 - log|A| / 2 - (y'y / s^2 - b'A b) / 2, A = W'W / s^2 + diag p."""
        _root, _half, log_det, square = self._eliminated(sds)
        log_prior = np.sum(np.log(self._precision(sds)), axis=1)
        log_prior = log_prior + np.sum(self.levels) * np.log(self._precision_of(self.largest, sds))
        rest = sds[:, -1]
        return np.asarray(-self.n * np.log(rest) + 0.5 * (log_prior - log_det - self.yy / rest**2 + square))

    def causes_at(self, spread_sd: Floats) -> tuple[Floats, Floats]:
        """Means and standard deviations of the causes' effects at each of the spreads, each (n, causes)."""
        means, spreads = [], []
        wanted = slice(1, 1 + self.causes)
        for k in range(0, len(spread_sd), self.step):
            root, half, _log_det, _square = self._eliminated(spread_sd[k : k + self.step])
            turned = np.linalg.solve(root, np.eye(len(self.wy))[:, wanted])
            means.append(np.einsum("nji,nj->ni", turned, half))
            spreads.append(np.sqrt(np.sum(turned**2, axis=1)))
        return np.concatenate(means), np.concatenate(spreads)


def half_normal_point(below_chance: Floats) -> Floats:
    """The half-normal number (scale 1) below which lies each chance: a start of its tail, then Newton's steps.

    Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 26.2.23 for the start.
    """
    tail = np.clip(0.5 * (1.0 - below_chance), 1e-15, 0.5)
    t = np.sqrt(-2.0 * np.log(tail))
    z = t - (2.515517 + 0.802853 * t + 0.010328 * t**2) / (1 + 1.432788 * t + 0.189269 * t**2 + 0.001308 * t**3)
    for _ in range(2):
        z = z + (normal_cdf(-z) - tail) * math.sqrt(2 * math.pi) * np.exp(0.5 * z**2)
    return np.asarray(np.maximum(z, 0.0))
