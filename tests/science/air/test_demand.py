"""How much oxygen the liquor wants."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.air.demand import indigo_g_per_l, indoxyl_demand_mg_per_l, other_demand_mg_per_l
from bluewright.science.air.members import CAUSES, members
from bluewright.science.air.record import AirRecord
from bluewright.science.base.records import read

Z = np.random.default_rng(1).standard_normal(200_000)


def liquor(**fields: object) -> AirRecord:
    return read(AirRecord, {"liquor_l": 20.0, "temp_c": 20.0, "whisk": {}} | fields)


def test_a_gram_of_indigo_takes_122_milligrams_of_oxygen() -> None:
    """Own hand: 2 C8H7NO + O2 gives C16H10N2O2 + 2 H2O: 31.998 / 262.27 = 0.12200; twice that with peroxide."""
    one = np.ones(1)
    assert indoxyl_demand_mg_per_l(one, peroxide_frac=0 * one)[0] == pytest.approx(122.0, abs=0.05)
    assert indoxyl_demand_mg_per_l(one, peroxide_frac=one)[0] == pytest.approx(244.0, abs=0.1)
    assert other_demand_mg_per_l(one, factor=2 * one)[0] == pytest.approx(244.0, abs=0.1)


def test_the_expected_indigo_keeps_its_mean_and_deviation() -> None:
    """Own hand: 4 g with 1 g of deviation in 20 L are 0.2 and 0.05 g/L."""
    found = indigo_g_per_l(liquor(indigo_g=4.0, indigo_sd_g=1.0), z=Z)
    assert np.mean(found) == pytest.approx(0.2, rel=0.005)
    assert np.std(found) == pytest.approx(0.05, rel=0.01)
    per_litre = indigo_g_per_l(liquor(indigo_g_per_l=0.2, indigo_sd_g_per_l=0.05), z=Z)
    assert per_litre == pytest.approx(found)


def test_without_a_figure_the_demand_is_wide_but_not_absent() -> None:
    found = indigo_g_per_l(liquor(), z=Z)
    assert np.quantile(found, 0.95) / np.quantile(found, 0.05) > 5


def test_the_whole_demand_is_one_and_a_half_to_ten_times_that_of_the_indigo() -> None:
    """Own hand: the judgement that the two priors together were chosen for: about 3, from 1.5 to 10."""
    found = members(liquor(), np.random.default_rng(2).standard_normal((50_000, len(CAUSES)))).demand_factor
    low, middle, high = np.quantile(found, [0.05, 0.5, 0.95])
    assert low == pytest.approx(1.6, abs=0.2)
    assert middle == pytest.approx(3.0, abs=0.3)
    assert high == pytest.approx(10.0, abs=1.5)
    assert np.min(found) >= 1.0


@given(indigo=st.floats(0.001, 2.0), times=st.floats(1.1, 10.0))
def test_demand_is_linear_in_indigo(indigo: float, times: float) -> None:
    z = np.random.default_rng(3).standard_normal((50, len(CAUSES)))
    one, more = (members(liquor(indigo_g_per_l=value), z).demand_mg_per_l for value in (indigo, indigo * times))
    assert more == pytest.approx(times * one)


def test_what_a_garden_taught_replaces_the_prior() -> None:
    z = np.random.default_rng(4).standard_normal((20_000, len(CAUSES)))
    found = members(liquor(learned={"demand_factor": 4.0, "demand_sd_frac": 0.2}), z).demand_factor
    assert np.median(found) == pytest.approx(4.0, rel=0.02)
    assert np.std(np.log(found)) == pytest.approx(0.2, rel=0.05)
