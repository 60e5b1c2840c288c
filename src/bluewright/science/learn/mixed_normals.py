"""What is believed of a number as a weighted set of normals: exact chances and points without drawing."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.bands import Band, significant
from bluewright.science.base.sourced import Floats

REACH: Final = 40.0
"""Standard deviations around the parts within which points are looked for."""
STEPS: Final = 200
_ERF = np.vectorize(math.erf, otypes=[float])


@dataclass(frozen=True, slots=True, kw_only=True)
class MixedNormals:
    """Weights (sum 1), means and standard deviations of the parts, each (k,)."""

    weights: Floats
    mean: Floats
    sd: Floats

    def below(self, value: float) -> float:
        """Chance that the number is below `value`."""
        return float(self.weights @ normal_cdf((value - self.mean) / self.sd))

    def point(self, below_chance: float) -> float:
        """The value below which the number lies with this chance: Newton's steps within a bracket that closes in."""
        low = float(np.min(self.mean - REACH * self.sd))
        high = float(np.max(self.mean + REACH * self.sd))
        value = float(self.weights @ self.mean)
        for _ in range(STEPS):
            z = (value - self.mean) / self.sd
            off = float(self.weights @ normal_cdf(z)) - below_chance
            low, high = (value, high) if off < 0 else (low, value)
            density = float(self.weights @ (np.exp(-0.5 * z**2) / self.sd)) / math.sqrt(2 * math.pi)
            step = off / density if density > 0 else math.inf
            new = value - step if low < value - step < high else 0.5 * (low + high)
            if abs(new - value) <= 1e-10 * (1.0 + abs(value)):
                return new
            value = new
        return value

    def factor_band(self) -> Band:
        """The band of e to the power of the number."""
        p5, p50, p95 = (significant(math.exp(self.point(chance))) for chance in (0.05, 0.5, 0.95))
        return Band(p5=p5, p50=p50, p95=p95)

    def draw(self, rng: np.random.Generator, n: int) -> Floats:
        """`n` draws, shape (n,)."""
        which = rng.choice(len(self.weights), size=n, p=self.weights)
        return np.asarray(self.mean[which] + self.sd[which] * rng.standard_normal(n))


def normal_cdf(z: Floats) -> Floats:
    """Chance that a standard normal number is below each of `z`."""
    return np.asarray(0.5 * (1.0 + _ERF(z / math.sqrt(2.0))))


def noise_grid(*, dof: int, spread_sd: float, points: int = 161) -> tuple[Floats, Floats]:
    """Standard deviations and weights, each (points,), of what is believed of a noise: scaled inverse chi-squared.

    Formula: nu s^2 / sigma^2 follows chi-squared with nu = `dof`, s = `spread_sd`; equal steps of log sigma, weighted
    by its density, as far as the tails of Student's t with nu degrees of freedom ask for. Source: Gelman and others
    2013.
    """
    half_width = 6.5 / math.sqrt(dof) + 14.0 / dof
    log_factor = np.linspace(-2.2 / math.sqrt(dof) - 1.6 / dof - 0.6, half_width, points)
    log_density = -dof * log_factor - 0.5 * dof * np.exp(-2.0 * log_factor)
    weights = np.exp(log_density - np.max(log_density))
    return np.asarray(spread_sd * np.exp(log_factor)), np.asarray(weights / np.sum(weights))
