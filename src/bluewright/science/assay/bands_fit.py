"""Least squares of a spectrum: bands of indigo and indirubin over a curve of haze, with the doubt of shapes and noise.

The shapes of the bands and the exponent of the haze are unknowns with priors; for each of them the amounts follow by
least squares, with their own normal distribution. Amounts below nothing are not believed. Readings that do not follow
the model widen the noise, more so where neighbouring leftovers go together.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.assay.priors import MOST_EXPONENT, SCATTER_SHARE
from bluewright.science.base.errors import ModelError
from bluewright.science.base.posterior import sample
from bluewright.science.base.sourced import Floats

MOST_POINTS: Final = 60
"""More readings are put together as means: they carry the same noise of the lamp."""
SCATTER_NM: Final = 700.0
"""Where the curve of haze is written down."""
MOST_CORRELATION: Final = 0.8
WIDENED: Final = 1.1
"""Variance over that of the stated noise, from which the fit is made again with it."""
TRIES: Final = 60
RED: Final = 1
"""The place of indirubin among the amounts, where it is looked for: indigo, indirubin, haze."""

Shapes = Callable[[Floats], Floats]
"""Bands, each 1 at its top, at scores of shape (n, size); gives shape (n, readings, colours)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """Draws from what the readings allow: amounts in absorbance (n, k), indigo first, haze last; exponents (n,)."""

    parts_absorbance: Floats
    exponent: Floats
    shape_z: Floats
    """The scores of each draw's shapes, shape (n, size)."""
    residual_absorbance: float
    """Root mean square of what the best fit leaves over."""
    ess: float


def thinned(wavelength_nm: Floats, values: Floats) -> tuple[Floats, Floats]:
    """At most so many readings: means of neighbours, shape (k,) each."""
    if len(wavelength_nm) <= MOST_POINTS:
        return wavelength_nm, values
    parts = np.array_split(np.arange(len(wavelength_nm)), MOST_POINTS)
    return (
        np.array([wavelength_nm[part].mean() for part in parts]),
        np.array([values[part].mean() for part in parts]),
    )


def fit(
    wavelength_nm: Floats,
    values: Floats,
    shapes: Shapes,
    *,
    size: int,
    noise_sd: float,
    exponent: float | None,
    draws: int,
    rng: np.random.Generator,
) -> Fit:
    """The fit of `values` (m,) by the bands of `shapes`, which take `size` scores, and haze.

    Raises ModelError where no amount of indigo above nothing explains the readings.
    """
    problem = _Problem(wavelength_nm=wavelength_nm, values=values, shapes=shapes, size=size, exponent=exponent)
    z, best_z, ess = problem.sampled(noise_sd, draws, rng)
    left, free = problem.left(best_z)
    variance = max(float(np.sum(left**2)) / free if free else 0.0, noise_sd**2) * _inflation(left)
    if variance > WIDENED * noise_sd**2:
        z, best_z, ess = problem.sampled(variance**0.5, draws, rng)
    means, _squares, spreads, _logdet = _solve(values, problem.columns(z))
    return Fit(
        parts_absorbance=_above_nothing(means, np.sqrt(variance) * spreads, rng), exponent=problem.power(z),
        shape_z=z[:, :size], residual_absorbance=float(np.sqrt(np.mean(problem.left(best_z)[0] ** 2))), ess=ess,
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class _Problem:
    """The readings and what they are to be explained by."""

    wavelength_nm: Floats
    values: Floats
    shapes: Shapes
    size: int
    exponent: float | None

    def power(self, z: Floats) -> Floats:
        """The exponent of the haze at scores (n, size + 1), or as it is given; shape (n,)."""
        if self.exponent is not None:
            return np.full(len(z), self.exponent)
        return MOST_EXPONENT.value * SCATTER_SHARE.from_z(z[:, -1])

    def columns(self, z: Floats) -> Floats:
        """The bands and the haze as columns, shape (n, m, colours + 1)."""
        haze = (self.wavelength_nm / SCATTER_NM) ** -self.power(z)[:, None]
        return np.concatenate([self.shapes(z[:, : self.size]), haze[:, :, None]], axis=2)

    def left(self, z: Floats) -> tuple[Floats, int]:
        """What the fit at one score leaves over, shape (m,), and the readings beyond the amounts."""
        columns = self.columns(z[None, :])
        means = _solve(self.values, columns)[0]
        return self.values - columns[0] @ means[0], max(len(self.values) - columns.shape[2], 0)

    def sampled(self, noise_sd: float, draws: int, rng: np.random.Generator) -> tuple[Floats, Floats, float]:
        """Scores (draws, size + 1 if the exponent is sought), the most likely, and the effective sample size."""
        many = self.size + (self.exponent is None)
        if many == 0:
            return np.zeros((draws, 0)), np.zeros(0), float(draws)

        def log_likelihood(z: Floats) -> Floats:
            means, squares, spreads, logdet = _solve(self.values, self.columns(z))
            value = -0.5 * squares / noise_sd**2 - 0.5 * logdet
            if means.shape[1] > 2:
                red_sd = noise_sd * np.linalg.norm(spreads[:, RED, :], axis=-1)
                value = value + _log_chance_above(means[:, RED] / red_sd)
            return value

        found = sample(log_likelihood, size=many, rng=rng, draws=draws)
        return found.z, found.best_z, found.ess


def _solve(values: Floats, columns: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    """Means (n, k), sums of squares left over (n,), square roots of the covariance (n, k, k), log determinant (n,)."""
    normal = columns.transpose(0, 2, 1) @ columns
    ridge = 1e-9 * np.trace(normal, axis1=1, axis2=2)[:, None, None] * np.eye(columns.shape[2])
    inverse = np.linalg.inv(normal + ridge)
    means = (inverse @ (columns.transpose(0, 2, 1) @ values)[:, :, None])[:, :, 0]
    left = values - (columns @ means[:, :, None])[:, :, 0]
    symmetric = 0.5 * (inverse + inverse.transpose(0, 2, 1))
    roots: Floats = np.linalg.cholesky(symmetric).astype(np.float64)
    return means, np.sum(left**2, axis=1), roots, -np.linalg.slogdet(symmetric)[1]


def _inflation(left: Floats) -> float:
    """How many times larger the variance counts because neighbouring leftovers go together: (1 + r) / (1 - r)."""
    if len(left) < 10:
        return 1.0
    power = float(np.sum(left**2))
    along = float(np.sum(left[1:] * left[:-1])) / power if power > 0 else 0.0
    r = min(max(along, 0.0), MOST_CORRELATION)
    return (1 + r) / (1 - r)


def _above_nothing(means: Floats, spreads: Floats, rng: np.random.Generator) -> Floats:
    """One draw for each mean (n, k) with no colour below nothing; the haze (last) may be, of a hazier blank.

    Indirubin first, cut off at nothing; the others from their normal distribution given it.
    """
    covariance = spreads @ spreads.transpose(0, 2, 1)
    found = np.empty_like(means)
    rest = np.array([0, means.shape[1] - 1])
    if means.shape[1] > 2:
        sd = np.sqrt(covariance[:, RED, RED])
        found[:, RED] = means[:, RED] + sd * _normal_above(-means[:, RED] / sd, rng)
        slope = covariance[:, rest, RED] / covariance[:, RED, RED][:, None]
        centre = means[:, rest] + slope * (found[:, RED] - means[:, RED])[:, None]
        within = covariance[:, rest[:, None], rest] - slope[:, :, None] * covariance[:, None, RED, rest]
    else:
        centre, within = means[:, rest], covariance[:, rest[:, None], rest]
    roots = np.linalg.cholesky(within + 1e-12 * np.trace(within, axis1=1, axis2=2)[:, None, None] * np.eye(2))
    drawn = centre + (roots @ rng.standard_normal((len(means), 2, 1)))[:, :, 0]
    keep = np.flatnonzero(drawn[:, 0] > 0)
    if len(keep) < 0.02 * len(found):
        raise ModelError(
            "No amount of indigo above nothing explains this spectrum: is there a band near 610 nm, and was the blank "
            "the same solvent?"
        )
    found[:, rest] = drawn
    return found if len(keep) == len(found) else found[rng.choice(keep, size=len(found))]


def _normal_above(least: Floats, rng: np.random.Generator) -> Floats:
    """Standard normal draws above `least` (n,): drawn again until they are; far out in the tail by Robert's rejection.

    Source: Robert 1995, Simulation of truncated normal variables.
    """
    found = np.maximum(least, 0.0)
    rate = 0.5 * (least + np.sqrt(least**2 + 4))
    far, open_rows = least > 0.5, np.arange(len(least))
    for _ in range(TRIES):
        at = open_rows
        tail = least[at] + rng.exponential(size=len(at)) / rate[at]
        plain = rng.standard_normal(len(at))
        value = np.where(far[at], tail, plain)
        fits = np.where(far[at], rng.random(len(at)) < np.exp(-0.5 * (tail - rate[at]) ** 2), plain >= least[at])
        found[at[fits]] = value[fits]
        open_rows = at[~fits]
        if not len(open_rows):
            break
    return found


def _log_chance_above(score: Floats) -> Floats:
    """Logarithm of the chance that a normal amount with this mean over its spread is above nothing."""
    near = np.maximum(score, -6.0)
    tail = np.minimum(score, -6.0)
    inside = np.log(0.5 * _erfc(-near / np.sqrt(2.0)))
    return np.asarray(np.where(score > -6.0, inside, -0.5 * tail**2 - np.log(-tail) - 0.5 * np.log(2 * np.pi)))


_erfc = np.vectorize(math.erfc, otypes=[np.float64])
