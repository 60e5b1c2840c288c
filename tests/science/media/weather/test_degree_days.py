"""Degree-days of a day by each rule."""

from typing import get_args

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError
from bluewright.science.media.weather.degree_days import Rule, degree_days
from tests.published import Row, rows


@pytest.mark.parametrize("row", rows("degree-days"), ids=lambda row: row.what)
def test_days_that_were_published(row: Row) -> None:
    rule: Rule = row.what  # type: ignore[assignment]
    assert row.agrees(float(degree_days(rule=rule, **row.given)))


@pytest.mark.parametrize(
    ("day", "wanted"), [((2, 12), 2.75), ((-2, 6), 0.25), ((8, 20), 9.0), ((-4, 3), 0.0), ((0, 10), 1.25)]
)
def test_the_rule_of_quarters_is_that_of_the_meteorological_offices(day: tuple[float, float], wanted: float) -> None:
    """Own hand by Met Eireann's four cases above 5 C: 7/2 - 3/4; 1/4; 14 - 5; nothing; at the border 5/4 by either."""
    assert float(degree_days(*day, base_c=5.0, rule="quarters")) == pytest.approx(wanted)


def hourly(low: float, high: float, *, base_c: float, cutoff_c: float) -> float:
    """The area under a sine between the two levels, by a sum over a fine day."""
    phase = (np.arange(200_000) + 0.5) / 200_000 * 2 * np.pi
    temp = (low + high) / 2 + (high - low) / 2 * np.sin(phase)
    return float(np.mean(np.clip(temp, base_c, cutoff_c) - base_c))


@given(low=st.floats(-20, 30), range_c=st.floats(0, 25), base_c=st.floats(-5, 15), above_c=st.floats(1, 25))
def test_the_sine_is_the_area_under_a_sine(low: float, range_c: float, base_c: float, above_c: float) -> None:
    found = degree_days(low, low + range_c, base_c=base_c, cutoff_c=base_c + above_c, rule="sine")
    assert float(found) == pytest.approx(hourly(low, low + range_c, base_c=base_c, cutoff_c=base_c + above_c), abs=2e-3)


@given(low=st.floats(-20, 30), range_c=st.floats(0, 25), base_c=st.floats(-5, 15))
def test_rules_agree_on_a_day_that_is_warm_throughout_and_on_one_that_is_cold(
    low: float, range_c: float, base_c: float
) -> None:
    for rule in get_args(Rule):
        found = float(degree_days(low, low + range_c, base_c=base_c, rule=rule))
        if low >= base_c:
            assert found == pytest.approx(low + range_c / 2 - base_c)
        if low + range_c <= base_c:
            assert found == 0.0
        assert 0.0 <= found <= max(low + range_c - base_c, 0.0) + 1e-9


def test_warmth_above_the_cut_off_counts_no_more() -> None:
    """Own hand, 10 to 34 C between 5 and 30 C: average 22 - 5; clipped (10 + 30)/2 - 5; triangle 17 - 4^2/48."""
    found = [
        float(degree_days(10.0, 34.0, base_c=5.0, cutoff_c=30.0, rule=rule))
        for rule in ("average", "clipped", "triangle")
    ]
    assert found == pytest.approx([17.0, 15.0, 17 - 16 / 48])


def test_a_cut_off_below_the_base_and_one_for_quarters_are_refused() -> None:
    with pytest.raises(InputError, match="not above the base"):
        degree_days(5.0, 10.0, base_c=10.0, cutoff_c=10.0)
    with pytest.raises(InputError, match="no upper cut-off"):
        degree_days(5.0, 10.0, base_c=5.0, cutoff_c=30.0, rule="quarters")
