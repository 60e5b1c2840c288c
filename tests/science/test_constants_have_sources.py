"""Constants cannot be built without saying where they come from."""

import pytest

from bluewright.science.base.sourced import Prior, Sourced


def test_a_constant_without_a_source_is_refused() -> None:
    with pytest.raises(ValueError, match="needs a unit and a source"):
        Sourced(value=1.0, unit="g", source="", low=0.0, high=2.0, grade="exact")


def test_a_constant_outside_its_own_range_is_refused() -> None:
    with pytest.raises(ValueError, match="outside its own range"):
        Sourced(value=3.0, unit="g", source="common-practice", low=0.0, high=2.0, grade="exact")


def test_a_lognormal_prior_has_its_median_at_score_zero() -> None:
    prior = Prior(kind="lognormal", centre=2.0, spread=0.5, unit="g", source="common-practice", grade="guess")
    assert prior.from_z(0.0) == 2.0  # type: ignore[arg-type]
