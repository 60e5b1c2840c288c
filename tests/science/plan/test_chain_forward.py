"""Forward from the beds that stand: leaf and blue, with what they share, and what it leaves to be sown."""

import math
from typing import Any

import numpy as np
import pytest

from bluewright.science.base.records import read
from bluewright.science.plan.chain import plan_cloth
from bluewright.science.plan.chain_crop import Crop
from bluewright.science.plan.chain_record import ClothPlanAnswer, ClothPlanRecord
from tests.science.plan.crops import WOAD, crop, exact, lognormal

SURE = {"spread_factor": 1.0}


def answer(of: Crop = WOAD, **fields: Any) -> ClothPlanAnswer:
    record = read(ClothPlanRecord, {"plant": "woad", "own": {"cuts": 1}} | fields)
    return plan_cloth(record, crop=of, rng=np.random.default_rng(1))


def test_what_is_known_of_a_bed_is_given_back() -> None:
    """Own hand: 10 kg a cut, 3 cuts, 1.2 g/kg: 30 kg, 36 g."""
    found = answer(exact(1.0, 1.2), beds=[{"leaf_kg": 10.0, "cuts": 3, **SURE}])
    (bed,) = found.beds
    assert bed.leaf_kg.p50 == pytest.approx(30.0)
    assert bed.blue_g.p50 == pytest.approx(36.0)
    assert found.all_beds is not None and found.all_beds.leaf_kg == bed.leaf_kg


def test_a_bed_s_range_is_that_of_its_forecast() -> None:
    """Times or over 1.6, two times in three: nine tenths lie within 1.6^1.6449 = 2.166 of the middle."""
    found = answer(beds=[{"leaf_kg": 10.0, "spread_factor": 1.6}])
    assert found.beds[0].leaf_kg.p95 / found.beds[0].leaf_kg.p50 == pytest.approx(1.6**1.6449, rel=0.05)


def test_beds_of_one_garden_do_not_average_out() -> None:
    """Ten equal beds: only the scatter of cuts, 0.25 of a log-sd of 0.6, shrinks; apart they were three times as sure.

    Closed form: log-sd of the sum is about sqrt(0.6^2 - 0.25^2 + 0.25^2/10).
    """
    factor = math.exp(0.6)
    one = answer(beds=[{"leaf_kg": 10.0, "spread_factor": factor}])
    ten = answer(beds=[{"leaf_kg": 10.0, "spread_factor": factor}] * 10)
    assert one.all_beds is not None and ten.all_beds is not None
    sd = math.log(ten.all_beds.leaf_kg.p95 / ten.all_beds.leaf_kg.p5) / (2 * 1.6449)
    assert sd == pytest.approx(math.sqrt(0.36 - 0.0625 + 0.00625), rel=0.05)
    assert ten.all_beds.leaf_kg.p50 == pytest.approx(10 * one.all_beds.leaf_kg.p50, rel=0.05)


def test_what_stands_is_used_before_anything_is_sown() -> None:
    """Own hand: 60 g wanted, 1 g/kg; 40 kg stand: 20 m2 of a kilogram are to be sown, 60 without."""
    wants = [{"mass_g": 60.0}]
    with_bed = answer(exact(1.0, 1.0), pigment=wants, beds=[{"leaf_kg": 40.0, **SURE}])
    without = answer(exact(1.0, 1.0), pigment=wants)
    assert with_bed.area_for_chance_m2 == pytest.approx(20.0)
    assert without.area_for_chance_m2 == pytest.approx(60.0)
    assert (with_bed.enough_chance, with_bed.jars_enough_chance) == (0.0, 0.0)


def test_enough_stands() -> None:
    found = answer(exact(1.0, 1.0), pigment=[{"mass_g": 60.0}], beds=[{"leaf_kg": 70.0, **SURE}])
    assert (found.enough_chance, found.area_for_chance_m2) == (1.0, 0.0)
    assert found.jars_enough_chance == 0.0


def test_a_cut_that_comes_after_the_day_does_not_count() -> None:
    """Wanted on 1 September: cut by mid August at the latest; a bed cut in July counts once, one of September not."""
    want = {"mass_g": 60.0, "by": "2026-09-01"}
    early = {"leaf_kg": 30.0, "cuts": 2, "next_on": "2026-07-20", **SURE}
    late = {"leaf_kg": 30.0, "cuts": 2, "next_on": "2026-09-10", **SURE}
    first = answer(exact(1.0, 1.0), pigment=[want], beds=[early], now="2026-06-01")
    second = answer(exact(1.0, 1.0), pigment=[want], beds=[late], now="2026-06-01")
    assert first.area_for_chance_m2 == pytest.approx(30.0)
    assert second.area_for_chance_m2 == pytest.approx(60.0)


def test_a_number_of_cuts_in_doubt_lies_between_its_ends() -> None:
    found = answer(exact(1.0, 1.0), beds=[{"leaf_kg": 10.0, "cuts": 3, "least_cuts": 2, **SURE}])
    assert (found.beds[0].leaf_kg.p5, found.beds[0].leaf_kg.p50, found.beds[0].leaf_kg.p95) == (20.0, 30.0, 40.0)


def test_beds_and_new_ground_share_the_garden_s_leaf() -> None:
    """A garden that gives little of the one gives little of the other: the area's range is wider than were they apart.

    With a shared doubt the 95 % point is above what independent doubts give (checked against a bed that is certain).
    """
    of = crop(leaf_season_sd=0.0, leaf_cut_sd=0.0, blue_g_per_kg=lognormal(1.0, 0.0), blue_batch_sd=0.0)
    wants = [{"mass_g": 60.0}]
    shared = answer(of, pigment=wants, beds=[{"leaf_kg": 30.0, "spread_factor": math.exp(0.5)}])
    certain = answer(of, pigment=wants, beds=[{"leaf_kg": 30.0, **SURE}])
    assert shared.total.area_m2.p95 > 1.2 * certain.total.area_m2.p95


def test_each_want_gets_of_the_beds_what_earlier_ones_left_and_sows_only_the_rest() -> None:
    """Own hand: 30 g and 20 g wanted, 1 g/kg; 40 kg stand: 30 kg and 10 kg of them, 10 m2 of a kilogram to be sown."""
    wants = [{"mass_g": 30.0, "by": "2026-11-01", "name": "first"}, {"mass_g": 20.0, "name": "some time"}]
    found = answer(exact(1.0, 1.0), pigment=wants, beds=[{"leaf_kg": 40.0, **SURE}], now="2026-06-01")
    first, second = found.wants
    assert (first.from_beds_kg.p50, first.area_m2.p50) == (pytest.approx(30.0), pytest.approx(0.0, abs=1e-9))
    assert (second.from_beds_kg.p50, second.area_m2.p50) == (pytest.approx(10.0), pytest.approx(10.0))
    assert found.total.from_beds_kg.p50 == pytest.approx(40.0)


def test_woad_of_the_second_year_counts_with_less_blue_and_its_own_doubt() -> None:
    """By hand: 10 kg at 1 g/kg are 10 g; in the second year half of it, nine tenths within exp(1.6449 * 0.5) = 2.28."""
    young, old = (
        answer(exact(1.0, 1.0), beds=[{"leaf_kg": 10.0, "second_year": second, **SURE}]).beds[0]
        for second in (False, True)
    )
    assert (young.blue_g.p50, old.leaf_kg.p50) == (pytest.approx(10.0), pytest.approx(10.0))
    assert old.blue_g.p50 == pytest.approx(5.0, rel=0.05)
    assert old.blue_g.p95 / old.blue_g.p50 == pytest.approx(2.276, rel=0.05)
    wanted = answer(exact(1.0, 1.0), pigment=[{"mass_g": 10.0}], beds=[{"leaf_kg": 10.0, "second_year": True, **SURE}])
    assert wanted.total.area_m2.p50 == pytest.approx(5.0, rel=0.05)
