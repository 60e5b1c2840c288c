"""What is believed of the log ratios once the tubs are in, under one belief and under others."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.learn.mixed_normals import MixedNormals, noise_grid
from bluewright.science.learn.trial_fit import Fit
from bluewright.science.learn.trial_priors import EFFECT, LOT_SD, PAIR_SD, PRIOR_DOF
from bluewright.science.learn.trial_record import EarlierPairs

SHRINK_STEPS: Final = 24
LEAST_WEIGHT: Final = 1e-9
"""Parts of less weight beside the heaviest are left out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Noise:
    """What is believed of the noise of a tub (in its block, or alone): scaled inverse chi-squared."""

    dof: int
    tub_sd: float


def noise_before(*, in_blocks: bool, earlier: EarlierPairs | None) -> Noise:
    """The noise before the trial: the guess, together with earlier pairs where tubs have rivals.

    Formula: nu = 1 + m - 1, s^2 = (s0^2 + (m - 1) s_m^2) / nu; of a single tub s^2 / 2.
    """
    dof = round(PRIOR_DOF.value)
    if not in_blocks:
        return Noise(dof=dof, tub_sd=LOT_SD.value)
    squares = dof * PAIR_SD.value**2
    if earlier is not None:
        squares += (earlier.pairs - 1) * earlier.pair_sd**2
        dof += earlier.pairs - 1
    return Noise(dof=dof, tub_sd=math.sqrt(squares / dof / 2))


def noise_after(before: Noise, fit: Fit) -> Noise:
    """The noise with the scatter of the tubs: nu' = nu + df, nu' s'^2 = nu s^2 + residual sum of squares."""
    dof = before.dof + fit.dof
    return Noise(dof=dof, tub_sd=math.sqrt((before.dof * before.tub_sd**2 + fit.rss) / dof))


def own_noise(fit: Fit) -> Noise:
    """The noise from the scatter of the tubs alone (needs degrees of freedom, and tubs that are not all equal)."""
    return Noise(dof=fit.dof, tub_sd=math.sqrt(max(fit.rss, 1e-12) / fit.dof))


def flat(fit: Fit, noise: Noise, which: int) -> MixedNormals:
    """The log ratio `which`, nothing believed of it beforehand.

    Formula: normal around the estimate with variance sigma^2 u + v, u from the layout, v of shared assays, sigma by the
    noise; without v it is Student's t with the noise's degrees of freedom.
    """
    sd, weights = noise_grid(dof=noise.dof, spread_sd=noise.tub_sd)
    variance = sd**2 * fit.unit_factor[which, which] + fit.shared[which, which]
    return MixedNormals(weights=weights, mean=np.full(len(sd), fit.estimate_log[which]), sd=np.sqrt(variance))


@dataclass(frozen=True, slots=True, kw_only=True)
class Shrunk:
    """All log ratios together, drawn in towards nothing: weights (g,), means (g, k), covariances (g, k, k)."""

    weights: Floats
    mean: Floats
    covariance: Floats

    def of(self, which: int) -> MixedNormals:
        """One of them."""
        return MixedNormals(
            weights=self.weights, mean=self.mean[:, which], sd=np.sqrt(self.covariance[:, which, which])
        )

    def draw(self, rng: np.random.Generator, n: int) -> Floats:
        """`n` draws of all, (n, k)."""
        which = rng.choice(len(self.weights), size=n, p=self.weights)
        size = self.mean.shape[1]
        root = np.linalg.cholesky(self.covariance + 1e-14 * np.eye(size))
        return np.asarray(self.mean[which] + np.einsum("nij,nj->ni", root[which], rng.standard_normal((n, size))))


def shrunk(fit: Fit, noise: Noise, *, effect_sd: float | None = None) -> Shrunk:
    """The log ratios where they are believed to be normal around 0.

    Formula: h ~ N(0, sigma^2 U + V + t^2 I), posterior by the rules of the normal, weighted over sigma and t by how
    well they foretell h; t is `effect_sd`, or unknown with a half-normal prior of `trial_priors.EFFECT` (ways that
    are many tell each other how large differences are). Source: Gelman and others 2013, chapter 5.
    """
    size = len(fit.estimate_log)
    steps = (np.arange(SHRINK_STEPS) + 0.5) / SHRINK_STEPS
    taus = np.array([effect_sd]) if effect_sd is not None else EFFECT.spread * 3.2 * steps
    before = np.ones(1) if effect_sd is not None else np.exp(-0.5 * (taus / EFFECT.spread) ** 2)
    sd, weights = noise_grid(dof=noise.dof, spread_sd=noise.tub_sd)
    tau = np.repeat(taus, len(sd))
    variance = np.tile(sd, len(taus))[:, None, None] ** 2 * fit.unit_factor + fit.shared
    whole = np.linalg.inv(variance + tau[:, None, None] ** 2 * np.eye(size))
    log_fit = 0.5 * np.linalg.slogdet(whole)[1] - 0.5 * np.einsum(
        "i,gij,j->g", fit.estimate_log, whole, fit.estimate_log
    )
    log_weight = log_fit + np.log(np.repeat(before, len(sd)) * np.tile(weights, len(taus)) + 1e-300)
    chance = np.exp(log_weight - np.max(log_weight))
    heavy = chance > LEAST_WEIGHT
    chance, tau, whole = chance[heavy], tau[heavy], whole[heavy]
    pull = tau[:, None, None] ** 2 * whole
    return Shrunk(
        weights=chance / chance.sum(), mean=pull @ fit.estimate_log,
        covariance=tau[:, None, None] ** 2 * (np.eye(size) - pull),
    )  # fmt: skip
