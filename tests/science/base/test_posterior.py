"""Draws from a posterior: against cases whose answer is known in closed form."""

import numpy as np
import pytest
from scipy import integrate

from bluewright.science.base.errors import ModelError
from bluewright.science.base.posterior import fit, sample
from bluewright.science.base.sourced import Floats


def test_a_linear_gaussian_posterior_is_met_in_mean_and_covariance() -> None:
    """Own hand: prior N(0, I), data y = A z + N(0, s2): covariance (A'A/s2 + I)^-1, mean covariance A'y/s2."""
    design = np.array([[1.0, 0.5, 0.0], [0.2, -1.0, 0.3], [0.0, 0.4, 2.0], [1.5, 0.1, -0.2]])
    seen, sd = np.array([1.0, -0.5, 2.0, 0.3]), 0.4
    cover = np.linalg.inv(design.T @ design / sd**2 + np.eye(3))
    found = fit(lambda z: (seen - z @ design.T) / sd, size=3, rng=np.random.default_rng(2), draws=8000)
    assert found.best_z == pytest.approx(cover @ design.T @ seen / sd**2, abs=1e-3)
    assert found.z.mean(axis=0) == pytest.approx(cover @ design.T @ seen / sd**2, abs=0.02)
    assert np.cov(found.z.T) == pytest.approx(cover, abs=0.02)
    assert found.factor == 1.0


def test_a_bent_posterior_is_met_too() -> None:
    """Reference library: SciPy's quadrature of exp(-z1^2/2 - z2^2/2 - (z2 + z1^2 - 1)^2 / (2 * 0.3^2))."""

    def density(z2: float, z1: float) -> float:
        return float(np.exp(-0.5 * (z1**2 + z2**2) - 0.5 * ((z2 + z1**2 - 1) / 0.3) ** 2))

    whole = integrate.dblquad(density, -6, 6, -8, 8)[0]
    mean = integrate.dblquad(lambda b, a: b * density(b, a), -6, 6, -8, 8)[0] / whole
    square = integrate.dblquad(lambda b, a: a * a * density(b, a), -6, 6, -8, 8)[0] / whole

    def log_likelihood(z: Floats) -> Floats:
        return np.asarray(-0.5 * ((z[:, 1] + z[:, 0] ** 2 - 1) / 0.3) ** 2)

    found = sample(log_likelihood, size=2, rng=np.random.default_rng(3), draws=20_000)
    assert found.z[:, 1].mean() == pytest.approx(mean, abs=0.03)
    assert (found.z[:, 0] ** 2).mean() == pytest.approx(square, abs=0.04)


def test_readings_that_cannot_be_explained_widen_the_answer() -> None:
    """Own hand: two readings of one quantity 20 sd apart leave a mean squared residual of 100, so a factor of 10."""
    seen = np.array([-1.0, 1.0])
    found = fit(lambda z: (seen - z) / 0.1, size=1, rng=np.random.default_rng(4))
    assert found.factor == pytest.approx(10.0, rel=0.02)
    assert found.z.std() > 0.5


def test_nothing_that_explains_the_readings_is_an_error() -> None:
    with pytest.raises(ModelError, match="nothing within the studied range"):
        sample(lambda z: np.full(len(z), -np.inf), size=2, rng=np.random.default_rng(5))


def test_no_reading_leaves_the_prior() -> None:
    found = sample(lambda z: np.zeros(len(z)), size=2, rng=np.random.default_rng(6), draws=8000)
    assert found.z.mean(axis=0) == pytest.approx([0.0, 0.0], abs=0.04)
    assert found.z.std(axis=0) == pytest.approx([1.0, 1.0], abs=0.04)
    assert found.ess > 8000
