"""Constants and priors cannot be built without saying where they come from."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from bluewright.science.base.sourced import Prior, Sourced


def prior(kind: str, centre: float, spread: float) -> Prior:
    return Prior(kind=kind, centre=centre, spread=spread, unit="g", source="common-practice", grade="guess")  # type: ignore[arg-type]


@pytest.mark.parametrize(("unit", "source"), [("g", ""), ("", "common-practice")])
def test_a_constant_or_prior_without_unit_or_source_is_refused(unit: str, source: str) -> None:
    with pytest.raises(ValueError, match="needs a unit and a source"):
        Sourced(value=1.0, unit=unit, source=source, low=0.0, high=2.0, grade="exact")
    with pytest.raises(ValueError, match="needs a unit and a source"):
        Prior(kind="normal", centre=1.0, spread=1.0, unit=unit, source=source, grade="guess")


def test_a_constant_outside_its_own_range_is_refused() -> None:
    with pytest.raises(ValueError, match="outside its own range"):
        Sourced(value=3.0, unit="g", source="common-practice", low=0.0, high=2.0, grade="exact")


@pytest.mark.parametrize(
    ("kind", "centre", "spread"),
    [("normal", 0.0, -1.0), ("lognormal", -1.0, 1.0), ("logitnormal", 0.0, 1.0), ("logitnormal", 1.0, 1.0)],
)
def test_a_prior_that_cannot_be_is_refused(kind: str, centre: float, spread: float) -> None:
    with pytest.raises(ValueError, match="needs a"):
        prior(kind, centre, spread)


@pytest.mark.parametrize(("kind", "centre"), [("normal", -2.0), ("lognormal", 2.0), ("logitnormal", 0.2)])
def test_a_prior_has_its_centre_at_score_zero(kind: str, centre: float) -> None:
    assert prior(kind, centre, 0.5).from_z(np.array([0.0]))[0] == pytest.approx(centre, rel=1e-15)


@given(z=st.lists(st.floats(-6, 6), min_size=2, max_size=20).map(sorted))
def test_a_higher_score_gives_a_higher_value(z: list[float]) -> None:
    for kind, centre in (("normal", -2.0), ("lognormal", 2.0), ("logitnormal", 0.2)):
        assert (np.diff(prior(kind, centre, 0.5).from_z(np.array(z))) >= 0).all()


@pytest.mark.parametrize(
    ("made", "reference"),
    [
        (prior("normal", 3.0, 0.5), stats.norm(3.0, 0.5)),
        (prior("lognormal", 2.0, 0.4), stats.lognorm(s=0.4, scale=2.0)),
    ],
)
def test_draws_follow_the_distribution_that_is_named(made: Prior, reference: stats.rv_continuous) -> None:
    """Reference library: Kolmogorov-Smirnov test of 20,000 draws against scipy.stats; p below 1e-4 fails."""
    draws = made.draw(np.random.default_rng(5), 20_000)
    assert stats.kstest(draws, reference.cdf).pvalue > 1e-4


def test_the_logit_of_a_logit_normal_fraction_is_normal() -> None:
    """Reference library: as above, logit(x) against scipy.stats.norm(logit(0.2), 0.7); all draws within 0 to 1."""
    draws = prior("logitnormal", 0.2, 0.7).draw(np.random.default_rng(6), 20_000)
    assert draws.min() > 0
    assert draws.max() < 1
    logit = np.log(draws / (1 - draws))
    assert stats.kstest(logit, stats.norm(np.log(0.25), 0.7).cdf).pvalue > 1e-4
