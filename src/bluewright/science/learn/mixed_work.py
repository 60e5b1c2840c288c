"""The sums of the hierarchical model: all effects integrated exactly, whatever the spreads are.

The group with most levels stands in its own diagonal block and is eliminated first, so that hundreds of picking days
cost no more than a few beds.
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
_OF_CAUSES: Final = -1
_OF_ASSAYS: Final = -2


class Work:
    """The sums that every evaluation needs, made once from the columns."""

    def __init__(self, built: Columns) -> None:
        n = len(built.y)
        sizes = [z.shape[1] for _name, z in built.groups]
        self.spreads, self.causes = len(sizes) + 1, len(built.causes)
        self.largest = int(np.argmax(sizes)) if sizes else 0
        kept = [(k, z) for k, (_name, z) in enumerate(built.groups) if k != self.largest]
        parts = [
            (_OF_CAUSES, np.hstack([np.ones((n, 1)), *(column.values[:, None] for column in built.causes)])),
            *kept,
            (_OF_ASSAYS, built.assays_log.reshape(n, -1)),
        ]
        w = np.hstack([part for _k, part in parts])
        z = built.groups[self.largest][1] if sizes else np.zeros((n, 0))
        y = built.y - built.y.mean()
        self.group_of = np.concatenate([np.full(part.shape[1], k) for k, part in parts])
        self.ww, self.wy, self.wz = w.T @ w, w.T @ y, w.T @ z
        self.zz, self.zy, self.yy, self.n = z.sum(axis=0), z.T @ y, float(y @ y), n
        self.scales = np.array([GROUP_SD.value] * len(sizes) + [REST_SD.value])
        self.step = max(1, CHUNK_NUMBERS // (len(self.wy) * (len(self.wy) + z.shape[1])))

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
        """Root of the matrix that is left, its right side solved, log determinant and quadratic form of the whole."""
        rest = sds[:, -1] ** -2
        prior = self._precision(sds)
        d = rest[:, None] * self.zz + (sds[:, self.largest, None] ** -2 if self.zz.size else 0.0)
        pull = rest[:, None, None] * self.wz / d[:, None, :]
        left = rest[:, None, None] * (self.ww - pull @ self.wz.T)
        left[:, np.arange(len(self.wy)), np.arange(len(self.wy))] += prior
        right = rest[:, None] * (self.wy - pull @ self.zy)
        root = np.linalg.cholesky(left)
        half = np.linalg.solve(root, right[..., None])[..., 0]
        log_det = 2 * np.sum(np.log(np.diagonal(root, axis1=1, axis2=2)), axis=1) + np.sum(np.log(d), axis=1)
        square = np.sum((rest[:, None] * self.zy) ** 2 / d, axis=1) + np.sum(half**2, axis=1)
        return np.asarray(root), np.asarray(half), np.asarray(log_det), np.asarray(square)

    def _precision(self, sds: Floats) -> Floats:
        """Of what is left: level, causes, groups but the largest, assays; (n, p)."""
        prior = np.ones((len(sds), len(self.wy)))
        prior[:, self.group_of == _OF_CAUSES] = EFFECT.spread**-2
        prior[:, 0] = LEVEL_SD**-2
        for k in range(self.spreads - 1):
            prior[:, self.group_of == k] = sds[:, k, None] ** -2
        return prior

    def _log_likelihood(self, sds: Floats) -> Floats:
        """Formula: -n log s + sum log p / 2 - log|A| / 2 - (y'y / s^2 - b'A b) / 2, A = W'W / s^2 + diag p."""
        _root, _half, log_det, square = self._eliminated(sds)
        log_prior = np.sum(np.log(self._precision(sds)), axis=1)
        if self.zz.size:
            log_prior = log_prior - 2 * self.zz.size * np.log(sds[:, self.largest])
        rest = sds[:, -1]
        return np.asarray(-self.n * np.log(rest) + 0.5 * (log_prior - log_det - self.yy / rest**2 + square))

    def causes_at(self, spread_sd: Floats) -> tuple[Floats, Floats]:
        """Means and standard deviations of the causes' effects at each of the spreads, each (n, causes)."""
        means, spreads = [], []
        wanted = slice(1, 1 + self.causes)
        for k in range(0, len(spread_sd), self.step):
            root, half, _log_det, _square = self._eliminated(spread_sd[k : k + self.step])
            turned = np.linalg.solve(root, np.broadcast_to(np.eye(len(self.wy)), root.shape))
            means.append(np.einsum("nji,nj->ni", turned, half)[:, wanted])
            spreads.append(np.sqrt(np.sum(turned**2, axis=1))[:, wanted])
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
