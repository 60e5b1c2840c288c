"""A yield by own batches: the conjugate rule, by hand and against draws."""

import math

import numpy as np
import pytest

from bluewright.science.media.own_yield import own_yield


def test_without_batches_the_prior_stands() -> None:
    found = own_yield(prior_mean_log=0.2, prior_sd=0.7, own_log=[], batch_sd=0.3, assay_sd=0.1)
    assert (found.mean_log, found.garden_sd, found.own_frac, found.assay_sd) == (0.2, 0.7, 0.0, 0.1)


def test_by_hand_with_assays_that_are_right() -> None:
    """s = 0.6, b = 0.3, two batches of mean 1.0, prior 0: weight 0.36 / (0.36 + 0.045) = 0.889; sd 0.2."""
    found = own_yield(prior_mean_log=0.0, prior_sd=0.6, own_log=[0.9, 1.1], batch_sd=0.3)
    assert found.own_frac == pytest.approx(0.36 / 0.405)
    assert found.mean_log == pytest.approx(0.8889, abs=1e-4)
    assert found.garden_sd == pytest.approx(0.2)


def test_a_prior_worth_two_batches_is_halved_by_two() -> None:
    """Own hand: where s^2 = b^2/2 the prior weighs as much as two batches."""
    found = own_yield(prior_mean_log=0.0, prior_sd=math.sqrt(0.5) * 0.4, own_log=[1.0, 1.0], batch_sd=0.4)
    assert found.mean_log == pytest.approx(0.5)


def test_many_batches_leave_the_assays_common_error() -> None:
    found = own_yield(prior_mean_log=0.0, prior_sd=0.7, own_log=[0.5] * 500, batch_sd=0.3, assay_sd=0.1)
    assert found.slope == pytest.approx(-1.0, abs=0.01)
    assert found.garden_sd < 0.02
    assert math.hypot(found.garden_sd, found.slope * found.assay_sd) == pytest.approx(0.1, rel=0.03)


def test_it_is_what_draws_that_gave_such_batches_say() -> None:
    """Draws of the model, weighed by the likelihood of the mean of three batches: middle, spreads and slope agree."""
    rng, n = np.random.default_rng(4), 400_000
    garden, error = 0.1 + 0.6 * rng.standard_normal(n), 0.2 * rng.standard_normal(n)
    own = [0.4, 0.7, 1.0]
    weight = np.exp(-0.5 * ((0.7 - garden - error) / (0.3 / math.sqrt(3))) ** 2)
    weight /= weight.sum()
    middle, off = weight @ garden, weight @ error
    covariance = np.cov(np.stack([garden, error]), aweights=weight, bias=True)
    found = own_yield(prior_mean_log=0.1, prior_sd=0.6, own_log=own, batch_sd=0.3, assay_sd=0.2)
    assert found.mean_log == pytest.approx(middle, abs=0.005)
    assert found.assay_mean_log == pytest.approx(off, abs=0.005)
    assert found.assay_sd == pytest.approx(math.sqrt(covariance[1, 1]), rel=0.01)
    assert found.slope == pytest.approx(covariance[0, 1] / covariance[1, 1], abs=0.02)
    left = covariance[0, 0] - covariance[0, 1] ** 2 / covariance[1, 1]
    assert found.garden_sd == pytest.approx(math.sqrt(left), rel=0.02)
