"""How a trial is laid out, and what it can show."""

from collections import Counter
from typing import Any

import numpy as np
import pytest
from scipy import stats

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.learn.design import seal, trial_plan
from bluewright.science.learn.design_power import half_width_log, least_factor, power, spread_points
from bluewright.science.learn.design_record import TrialPlanAnswer, TrialPlanRecord


def named(*ways: str) -> list[dict[str, str]]:
    return [{"name": way} for way in ways]


def laid_out(**more: Any) -> TrialPlanAnswer:
    record = read(TrialPlanRecord, {"ways": named("two days", "three days"), "tubs": 2, "days": 6} | more)
    return trial_plan(record, rng=np.random.default_rng(record.seed))


@pytest.mark.parametrize("dof", [1, 2, 5, 9, 30])
def test_power_is_that_of_the_noncentral_t(dof: int) -> None:
    limit = stats.t.ppf(0.975, dof)
    for shift_z in (0.3, 1.0, 2.5, 6.0):
        wanted = stats.nct.sf(limit, dof, shift_z) + stats.nct.cdf(-limit, dof, shift_z)
        assert power(shift_z, dof=dof) == pytest.approx(wanted, abs=1e-6)
    assert power(0.0, dof=dof) == pytest.approx(0.05, abs=1e-6)


@pytest.mark.parametrize(("pairs", "spread", "ratio"), [(4, 0.20, 1.53), (6, 0.30, 1.54), (12, 0.45, 1.49)])
def test_the_least_ratio_found_is_that_of_a_second_library(pairs: int, spread: float, ratio: float) -> None:
    """Worked beforehand with scipy's noncentral t: 80 % power, 5 % two-sided, standard deviation of the log ratio."""
    assert least_factor(dof=pairs - 1, error_sd=spread / pairs**0.5) == pytest.approx(ratio, abs=0.006)


def test_the_width_to_expect_is_what_simulated_pairs_have() -> None:
    drawn = np.random.default_rng(3).normal(0, 0.25, (20_000, 4))
    half = stats.t.ppf(0.95, 3) * drawn.std(axis=1, ddof=1) / 2
    assert half_width_log(dof=3, error_sd=0.125) == pytest.approx(half.mean(), rel=0.01)


def test_the_believed_noise_has_the_points_of_scaled_inverse_chi_squared() -> None:
    wanted = 0.25 * np.sqrt(4 / stats.chi2.ppf([0.95, 0.5, 0.05], 4))
    assert spread_points(dof=4, spread_sd=0.25) == pytest.approx(wanted, rel=0.01)


def test_each_picking_gets_each_way_once_and_lots_decide_where() -> None:
    found = laid_out(tubs=4, days=5)
    assert found.layout == "split_picking"
    assert found.blocks == 10
    by_block = Counter((one.block, one.way) for one in found.settings)
    assert set(by_block.values()) == {1}
    first = [one.way for one in found.settings if one.tub == 1]
    assert set(first) == {"two days", "three days"}
    assert [one.number for one in found.settings] == list(range(1, 21))


def test_lots_are_the_same_for_a_seed_and_their_seal_shows_a_change() -> None:
    assert laid_out().settings == laid_out().settings
    assert laid_out().settings != laid_out(seed=2).settings
    found = laid_out()
    turned = (found.settings[1], found.settings[0], *found.settings[2:])
    assert seal(found.settings) == found.seal != seal(turned)


def test_unlike_vessels_get_each_way_equally_often() -> None:
    for ways, tubs, days in (("ab", 4, 6), ("abc", 3, 6)):
        found = laid_out(ways=named(*ways), tubs=tubs, days=days, vessels_differ=True)
        met = Counter((one.tub, one.way) for one in found.settings)
        assert set(met.values()) == {days // len(ways)}


def test_what_is_the_question_is_not_to_be_kept_equal() -> None:
    assert "hours" not in laid_out(differs="hours").keep_equal
    assert "alkali" in laid_out(differs="hours").keep_equal
    assert "alkali" not in laid_out(differs="alkali").keep_equal


def test_fewer_unlike_tubs_need_fewer_pairs() -> None:
    usual, quiet = laid_out(), laid_out(earlier={"pairs": 20, "pair_sd": 0.1})
    assert quiet.found_chance > usual.found_chance
    assert (quiet.blocks_for_chance or 0) < (usual.blocks_for_chance or 0)
    assert quiet.basis == "readings"


def test_the_least_number_for_four_in_five_is_the_least() -> None:
    found = laid_out()
    many = found.blocks_for_chance
    assert many is not None
    assert laid_out(days=many).found_chance >= 0.8 > laid_out(days=many - 1).found_chance


def test_one_tub_a_day_is_the_weakest_and_says_so() -> None:
    found = laid_out(tubs=1, days=7)
    assert found.layout == "by_day"
    assert Counter(one.way for one in found.settings) == {"two days": 3, "three days": 3}
    assert "no-rivals" in {caution.code for caution in found.cautions}
    assert all(row.least_flip_chance is None for row in found.table)


def test_more_ways_than_tubs_are_refused() -> None:
    with pytest.raises(InputError, match="fewer than the 3 ways"):
        laid_out(ways=named("a", "b", "c"), tubs=2)
    with pytest.raises(InputError, match="one day and one tub"):
        laid_out(tubs=1, days=1)
