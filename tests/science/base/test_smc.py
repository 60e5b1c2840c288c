"""The sampler: against a posterior known in closed form, and its laws."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.base.errors import ModelError
from bluewright.science.base.smc import Population, from_prior, learn, systematic, temper
from bluewright.science.base.sourced import Floats


def linear_gaussian(seed: int, *, dims: int, looks: int, sd: float) -> tuple[Floats, Floats]:
    rng = np.random.default_rng(seed)
    design = rng.standard_normal((looks, dims))
    return design, design @ rng.standard_normal(dims) + sd * rng.standard_normal(looks)


def loglik(z: Floats, design: Floats, seen: Floats, sd: float) -> Floats:
    return -0.5 * np.sum(((seen - z @ design.T) / sd) ** 2, axis=1) - len(seen) * np.log(sd * np.sqrt(2 * np.pi))


def closed_form(design: Floats, seen: Floats, sd: float) -> tuple[Floats, Floats, float]:
    """Own hand: mean and covariance of a linear model with prior N(0, I), and the log-evidence of `seen`."""
    precision = np.eye(design.shape[1]) + design.T @ design / sd**2
    cov = np.linalg.inv(precision)
    total = design @ design.T + sd**2 * np.eye(len(seen))
    evidence = -0.5 * (seen @ np.linalg.solve(total, seen) + np.linalg.slogdet(2 * np.pi * total)[1])
    return cov @ design.T @ seen / sd**2, cov, float(evidence)


def run(seed: int, design: Floats, seen: Floats, sd: float, n: int = 2000) -> Population:
    rng = np.random.default_rng(seed)
    start = from_prior(n, design.shape[1], rng=rng)
    return temper(start, lambda z: (np.zeros(len(z)), loglik(z, design, seen, sd)), rng=rng)


@pytest.mark.parametrize(("dims", "looks", "sd"), [(3, 8, 0.3), (20, 12, 0.5), (45, 10, 0.2)])
def test_a_gaussian_posterior_is_found(dims: int, looks: int, sd: float) -> None:
    design, seen = linear_gaussian(dims, dims=dims, looks=looks, sd=sd)
    mean, cov, evidence = closed_form(design, seen, sd)
    found = run(1, design, seen, sd)
    assert np.abs(found.weights @ found.z - mean).max() < 0.12
    spread = np.sqrt(found.weights @ (found.z - found.weights @ found.z) ** 2)
    assert np.abs(spread / np.sqrt(np.diag(cov)) - 1).max() < 0.15
    assert found.log_evidence == pytest.approx(evidence, abs=0.8)
    assert found.ess > 1000


def test_taking_readings_in_two_parts_gives_the_same_posterior() -> None:
    design, seen = linear_gaussian(7, dims=6, looks=10, sd=0.4)
    rng = np.random.default_rng(3)
    population = from_prior(2000, 6, rng=rng)
    for first, last in ((0, 6), (6, 10)):

        def both(z: Floats, first: int = first, last: int = last) -> tuple[Floats, Floats]:
            return loglik(z, design[:first], seen[:first], 0.4), loglik(z, design[:last], seen[:last], 0.4)

        population = temper(population, both, rng=rng)
    mean, _, evidence = closed_form(design, seen, 0.4)
    assert np.abs(population.weights @ population.z - mean).max() < 0.1
    assert population.log_evidence == pytest.approx(evidence, abs=0.8)


def test_one_mild_reading_costs_one_evaluation() -> None:
    calls = []

    def mild(z: Floats) -> tuple[Floats, Floats]:
        calls.append(len(z))
        return np.zeros(len(z)), -0.05 * z[:, 0] ** 2

    rng = np.random.default_rng(0)
    found = temper(from_prior(500, 3, rng=rng), mild, rng=rng)
    assert calls == [500]
    assert found.ess < 500


def test_the_same_seed_gives_the_same_population() -> None:
    design, seen = linear_gaussian(2, dims=4, looks=5, sd=0.3)
    assert np.array_equal(run(5, design, seen, 0.3, 200).z, run(5, design, seen, 0.3, 200).z)


@settings(max_examples=50, deadline=None)
@given(seed=st.integers(0, 1000), n=st.integers(2, 300))
def test_systematic_resampling_keeps_each_member_its_share(seed: int, n: int) -> None:
    rng = np.random.default_rng(seed)
    weights = rng.dirichlet(np.full(n, 0.3))
    counts = np.bincount(systematic(weights, n=n, rng=rng), minlength=n)
    assert counts.sum() == n
    assert np.abs(counts - n * weights).max() <= 1 + 1e-9


def test_duplicates_do_not_count_towards_the_effective_size() -> None:
    z = np.repeat(np.random.default_rng(0).standard_normal((50, 2)), 4, axis=0)
    assert Population(z=z, weights=np.full(200, 1 / 200)).ess == pytest.approx(50)


def test_impossible_readings_are_said_to_be_so() -> None:
    rng = np.random.default_rng(0)

    def cliff(z: Floats) -> tuple[Floats, Floats]:
        return np.zeros(len(z)), -1e9 * np.abs(z[:, 0] - 1e3 + 1e-3 * z[:, 1])

    with pytest.raises(ModelError, match="contradict the model"):
        temper(from_prior(200, 2, rng=rng), cliff, rng=rng)


@pytest.mark.parametrize(("seen", "error_sd"), [(0.5, 1.0), (2.0, 0.2), (4.0, 0.05)])
def test_a_reading_far_out_is_followed_and_the_rest_keeps_its_prior(seen: float, error_sd: float) -> None:
    """Own hand: prior N(0, 1), reading y with deviation s: mean y / (1 + s2), variance s2 / (1 + s2)."""

    def fit(z: Floats) -> Floats:
        return np.asarray(-0.5 * ((z[:, 0] - seen) / error_sd) ** 2)

    found = learn(fit, n=3000, dims=6, rng=np.random.default_rng(1))
    mean = float(found.weights @ found.z[:, 0])
    deviation = float(np.sqrt(found.weights @ (found.z[:, 0] - mean) ** 2))
    variance = error_sd**2 / (1 + error_sd**2)
    assert mean == pytest.approx(seen / (1 + error_sd**2), abs=0.15 * np.sqrt(variance))
    assert deviation == pytest.approx(np.sqrt(variance), rel=0.12)
    assert found.weights @ found.z[:, 1:] ** 2 == pytest.approx(np.ones(5), abs=0.15)
    assert found.ess > 500


def test_two_humps_are_both_kept() -> None:
    """Own hand: |z| read as 2: half of the belief on either side."""

    def fit(z: Floats) -> Floats:
        return np.asarray(-0.5 * ((np.abs(z[:, 0]) - 2.0) / 0.1) ** 2)

    found = learn(fit, n=3000, dims=3, rng=np.random.default_rng(2))
    assert float(found.weights @ (found.z[:, 0] > 0)) == pytest.approx(0.5, abs=0.08)


def test_what_no_member_explains_is_said() -> None:
    with pytest.raises(ModelError, match="nothing within what is believed"):
        learn(lambda z: np.full(len(z), -np.inf), n=100, dims=2, rng=np.random.default_rng(3))
