"""Draws from what is believed once the readings are in: a few unknowns with standard-normal priors, any likelihood.

The caller turns a score `z` (0 the prior's centre, 1 one spread above) into physical values and says how likely
the readings are at many scores at once. The sampler climbs to the most likely scores, lays a heavy-tailed cloud
over them, adapts it to the weights it finds, and resamples (adaptive importance sampling, Bugallo and others 2017).
Where the posterior is too bent for such a cloud, the slower way of `smc` is taken. Both are exact as the number of
draws grows; the effective sample size says how far they got.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.errors import ModelError
from bluewright.science.base.smc import learn, systematic
from bluewright.science.base.sourced import Floats

Likelihood = Callable[[Floats], Floats]
"""Log-likelihood of the readings at scores of shape (n, size); gives shape (n,). Minus infinity is allowed."""
Residuals = Callable[[Floats], Floats]
"""Reading minus model in standard deviations, at scores of shape (n, size); gives shape (n, readings)."""

TAIL: Final = 6.0
"""Degrees of freedom of the proposal: its tails must be heavier than those of the posterior."""
FARTHEST: Final = 40.0
"""Prior standard deviations beyond which nothing is looked for: there only overflow is to be found."""
STEP: Final = 1e-3
"""Step of the finite differences, in prior standard deviations."""
LEAST_ESS_FRAC: Final = 0.1
"""Effective share of the draws below which the cloud does not fit the posterior, and the slower way is taken."""
MISFIT: Final = 4.0
"""Mean squared residual above which the readings' errors are widened: they cannot be what was stated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Posterior:
    """Equally weighted draws of the scores."""

    z: Floats
    """Shape (draws, size)."""
    best_z: Floats
    """The most likely scores, shape (size,)."""
    ess: float
    """Effective sample size of the weights before resampling."""
    factor: float = 1.0
    """By what the stated errors of the readings had to be widened; 1 when the model fits them."""


def fit(residuals: Residuals, *, size: int, rng: np.random.Generator, draws: int = 2000) -> Posterior:
    """Least squares with priors and its honest spread: Gaussian errors of stated size.

    If the mean squared residual at the best fit is above 4, the errors are widened by its root (the Birge ratio)
    and the fit is repeated, so that readings which do not follow the model widen the answer. Raises ModelError as
    `sample` does. Source: R. T. Birge, Physical Review 40 (1932) 207 (from memory).
    """
    first = sample(lambda z: -0.5 * np.sum(residuals(z) ** 2, axis=1), size=size, rng=rng, draws=draws)
    worst = float(np.mean(residuals(first.best_z[None, :]) ** 2))
    if worst <= MISFIT:
        return first
    again = sample(lambda z: -0.5 * np.sum(residuals(z) ** 2, axis=1) / worst, size=size, rng=rng, draws=draws)
    return Posterior(z=again.z, best_z=again.best_z, ess=again.ess, factor=float(np.sqrt(worst)))


def sample(log_likelihood: Likelihood, *, size: int, rng: np.random.Generator, draws: int = 2000) -> Posterior:
    """`draws` equally weighted draws of `size` scores given the log-likelihood.

    Raises ModelError if no score explains the readings, or if they pin the scores too sharply to be sampled.
    """

    def bounded(z: Floats) -> Floats:
        value = log_likelihood(np.clip(z, -FARTHEST, FARTHEST))
        return np.where(np.isfinite(value) & np.all(np.abs(z) <= FARTHEST, axis=1), value, -np.inf)

    def log_posterior(z: Floats) -> Floats:
        return np.asarray(bounded(z) - 0.5 * np.sum(z**2, axis=1))

    best_z, cover = _summit(log_posterior, size, rng)
    centre_z = best_z
    for _ in range(5):
        trial, weights, ess = _weighted(log_posterior, centre_z, cover, rng, draws // 2)
        if ess > 0.4 * len(trial) or ess < 2 * size + 4:
            break
        centre_z = weights @ trial
        gap = trial - centre_z
        cover = 1.1 * (gap * weights[:, None]).T @ gap + 1e-9 * np.eye(size)
    trial, weights, ess = _weighted(log_posterior, centre_z, cover, rng, 2 * draws)
    if ess < LEAST_ESS_FRAC * draws:
        bent = learn(bounded, n=draws, dims=size, rng=rng)
        return Posterior(z=bent.z[systematic(bent.weights, n=draws, rng=rng)], best_z=best_z, ess=bent.ess)
    return Posterior(z=trial[systematic(weights, n=draws, rng=rng)], best_z=best_z, ess=ess)


def _weighted(
    log_posterior: Likelihood, centre_z: Floats, cover: Floats, rng: np.random.Generator, n: int
) -> tuple[Floats, Floats, float]:
    """Draws from the heavy-tailed cloud, their normalised weights and effective sample size."""
    size = len(centre_z)
    root = np.linalg.cholesky(cover)
    stretch = np.sqrt(TAIL / rng.chisquare(TAIL, n))[:, None]
    unit = rng.standard_normal((n, size)) * stretch
    trial = centre_z + unit @ root.T
    log_weight = log_posterior(trial) + 0.5 * (TAIL + size) * np.log1p(np.sum(unit**2, axis=1) / TAIL)
    weights = np.exp(log_weight - np.max(log_weight))
    weights /= np.sum(weights)
    return trial, weights, float(1.0 / np.sum(weights**2))


def _summit(log_posterior: Likelihood, size: int, rng: np.random.Generator) -> tuple[Floats, Floats]:
    """The highest point found by damped Newton steps, and the spread around it.

    The climb starts from the best of a near and a wide cloud of scores: readings may lie far out in the prior.
    """
    clouds = [reach * rng.standard_normal((400, size)) for reach in (1.0, 3.0)]
    starts = np.vstack([np.zeros((1, size)), *clouds])
    heights = log_posterior(starts)
    here, height, cover = starts[np.argmax(heights)], float(np.max(heights)), np.eye(size)
    if not np.isfinite(height):
        raise ModelError("nothing within the studied range explains the readings")
    for _ in range(40):
        gradient, cover = _slope_and_cover(log_posterior, here)
        steps = here + 0.5 ** np.arange(14)[:, None] * (cover @ gradient)
        tried = log_posterior(steps)
        best = int(np.argmax(tried))
        gain = tried[best] - height
        if gain > 0:
            here, height = steps[best], float(tried[best])
        if gain <= 1e-6:
            break
    return here, cover


def _slope_and_cover(log_posterior: Likelihood, here: Floats) -> tuple[Floats, Floats]:
    """Gradient and inverse of the negative Hessian by central differences; directions that curve up are mended."""
    size = len(here)
    eye = STEP * np.eye(size)
    ahead, behind = log_posterior(here + eye), log_posterior(here - eye)
    middle = log_posterior(here[None, :])[0]
    rows, columns = np.triu_indices(size, 1)
    both, neither = log_posterior(here + eye[rows] + eye[columns]), log_posterior(here - eye[rows] - eye[columns])
    hessian = np.zeros((size, size))
    with np.errstate(invalid="ignore"):  # infinity minus infinity, told right below
        hessian[rows, columns] = (
            both + neither - ahead[rows] - ahead[columns] - behind[rows] - behind[columns] + 2 * middle
        ) / (2 * STEP**2)
        hessian += hessian.T
        hessian[np.diag_indices(size)] = (ahead + behind - 2 * middle) / STEP**2
    if not np.all(np.isfinite(hessian)):
        raise ModelError("the best fit lies on the edge of what the model allows")
    values, vectors = np.linalg.eigh(-hessian)
    mended = np.maximum(np.abs(values), 0.5)
    return (ahead - behind) / (2 * STEP), (vectors / mended) @ vectors.T
