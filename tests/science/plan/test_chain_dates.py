"""The days back from a want: steps in order, warmth, the season's end, and sums by hand."""

from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest

from bluewright.science.base.bands import NINETY_Z
from bluewright.science.base.records import read
from bluewright.science.base.sourced import Prior
from bluewright.science.plan import chain_dates, chain_priors
from bluewright.science.plan.chain import plan_cloth
from bluewright.science.plan.chain_crop import Crop
from bluewright.science.plan.chain_record import ClothPlanAnswer, ClothPlanRecord, DaysBack
from bluewright.words.plan_cloth import headline, slack_said
from tests.science.bed.beds_grown import CENTRAL_ENGLAND, PISA, weather
from tests.science.plan.crops import WOAD, exact, lognormal

ENGLAND = weather(CENTRAL_ENGLAND, 52.0)
SHAWL = {"fibre": "wool", "mass_kg": 1.0, "depth": "medium", "by": "2026-10-20"}


def answer(of: Crop = WOAD, **fields: Any) -> ClothPlanAnswer:
    told = {"plant": "woad", "now": "2026-03-01", "weather": ENGLAND} | fields
    return plan_cloth(read(ClothPlanRecord, told), crop=of, rng=np.random.default_rng(1))


def only(found: ClothPlanAnswer) -> DaysBack:
    (days,) = found.days
    return days


def begin(days: DaysBack) -> dict[str, date]:
    return {step.step: step.begin_by for step in days.steps}


def test_steps_follow_each_other_and_end_before_the_day() -> None:
    days = only(answer(cloth=[SHAWL]))
    assert [step.step for step in days.steps] == ["cut", "steep", "wash", "dry", "vat", "dye", "finish"]
    told = [step.begin_by for step in days.steps]
    assert told == sorted(told)
    assert told[-1] < days.by


def test_with_exact_steps_the_days_add_up(monkeypatch: pytest.MonkeyPatch) -> None:
    """Own hand: 2 steep, 3 wash, 6 dry, 1 vat, 1 dye, 5 finish: steep 18 days before 20 October, on the 2nd."""
    for name, days in (("WASH_D", 3.0), ("DRY_D", 6.0), ("FINISH_D", 5.0), ("DIPS_A_DAY", 5.0)):
        monkeypatch.setattr(chain_dates, name, lognormal(days, 0.0))
    monkeypatch.setattr(chain_dates, "STEEP_D", {"cold": lognormal(2.0, 0.0)})
    monkeypatch.setattr(chain_dates, "VAT_D", {"quick": lognormal(1.0, 0.0)})
    found = begin(only(answer(cloth=[SHAWL])))
    assert found["finish"] == date(2026, 10, 15)
    assert found["dry"] == date(2026, 10, 20) - timedelta(days=13)
    assert found["steep"] == date(2026, 10, 2)


def test_pigment_needs_neither_vat_nor_cloth() -> None:
    days = only(answer(pigment=[{"mass_g": 20.0, "by": "2026-09-20"}]))
    assert [step.step for step in days.steps] == ["cut", "steep", "wash", "dry"]


def test_jars_that_are_enough_leave_vat_dye_and_finish() -> None:
    days = only(answer(cloth=[SHAWL], jars=[{"pure_g": 500.0}]))
    assert days.from_jars
    assert [step.step for step in days.steps] == ["vat", "dye", "finish"]
    assert days.sow == ()


def test_more_cuts_want_an_earlier_sowing() -> None:
    """In central England woad's first cut comes a hundred days after a sowing in April (as of `bed growth`)."""
    one, two, _three = only(answer(cloth=[SHAWL])).sow
    assert one.begin_by is not None and two.latest.late is not None and one.latest.late is not None
    assert date(2026, 6, 1) < one.begin_by < date(2026, 8, 1)
    assert two.latest.late < one.latest.late


def test_degree_days_back_from_a_cut_by_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    """Weather of 15 C day and night, base 5: 10 a day. 300 to the first cut, 200 to the next, all exact: for one cut
    it is sown 30 days before the last day to cut, for two 50."""
    flat = [{"min_c": 15.0, "max_c": 15.0}] * 12
    days = [{"day": str(date(2026, 1, 1) + timedelta(days=k)), "min_c": 15.0, "max_c": 15.0} for k in range(300)]
    place = {"latitude_deg": 52.0, "normals": flat, "days": days}
    growing = exact(1.0, 1.0).growing
    from dataclasses import replace

    sure = replace(
        exact(1.0, 1.0),
        growing=replace(growing, first_degree_d=lognormal(300.0, 0.0), again_degree_d=lognormal(200.0, 0.0)),
    )
    for name in ("WASH_D", "DRY_D"):
        monkeypatch.setattr(chain_dates, name, lognormal(1.0, 0.0))
    monkeypatch.setattr(chain_dates, "STEEP_D", {"cold": lognormal(1.0, 0.0)})
    found = answer(sure, pigment=[{"mass_g": 20.0, "by": "2026-09-20"}], weather=place)
    days_back = only(found)
    cut = begin(days_back)["cut"]
    assert cut == date(2026, 9, 17)
    one, two, _ = (each.latest.middle for each in days_back.sow)
    assert one is not None and abs((cut - one).days - 30) <= 1
    assert two is not None and abs((cut - two).days - 50) <= 1
    assert found.cuts.p50 > 5


def test_what_is_wanted_in_winter_is_cut_in_autumn() -> None:
    days = only(answer(cloth=[{**SHAWL, "by": "2027-01-20"}]))
    assert begin(days)["cut"] < date(2026, 11, 10)
    assert begin(days)["steep"] > date(2026, 12, 1)


def test_too_late_is_said() -> None:
    """Wanted in three weeks and nothing sown: no cut comes in time."""
    found = answer(cloth=[{**SHAWL, "by": "2026-05-20"}], now="2026-05-01")
    assert found.in_time_chance < 0.05
    slack_d = only(found).slack_d
    assert slack_d is None or slack_d < 0


def test_slack_is_counted_from_when_the_ground_is_open() -> None:
    """Asked in January or on the first of March, the slack begins in mid March."""
    early, later = (only(answer(cloth=[SHAWL], now=now)).slack_d for now in ("2026-01-10", "2026-03-01"))
    assert abs(early - later) <= 8, "the weather known differs, the day of sowing hardly"


def test_a_warm_place_gives_more_cuts_in_time() -> None:
    cool = answer(pigment=[{"mass_g": 20.0}])
    warm = answer(pigment=[{"mass_g": 20.0}], weather=weather(PISA, 43.7))
    assert warm.cuts.p50 > cool.cuts.p50
    assert warm.total.area_m2.p50 < cool.total.area_m2.p50


def test_planted_out_it_is_ready_sooner() -> None:
    """The warmth to the first cut is multiplied by what the beds say of planting out."""
    from bluewright.science.thread import crop_of

    sown, planted = (crop_of("woad", start=start, rng=np.random.default_rng(1)) for start in ("sown", "planted"))
    assert planted.growing.first_factor < sown.growing.first_factor == 1.0


def test_a_ferment_vat_is_begun_earlier_than_a_quick_one() -> None:
    quick, slow = (begin(only(answer(cloth=[SHAWL], vat_kind=kind)))["vat"] for kind in ("quick", "ferment"))
    assert slow < quick - timedelta(days=4)


@pytest.mark.parametrize(
    ("prior", "low", "high"),
    [
        (chain_priors.WASH_D, 2, 5),
        (chain_priors.DRY_D, 3, 10),
        (chain_priors.FINISH_D, 3, 7),
        (chain_priors.STEEP_D["cold"], 1, 4),
    ],
)
def test_nine_tenths_of_a_step_lie_between_its_bounds(prior: Prior, low: float, high: float) -> None:
    assert prior.from_z(np.array([-NINETY_Z, NINETY_Z])) == pytest.approx([low, high])


def test_the_critical_step_is_that_which_may_take_longest_beyond_its_middle() -> None:
    """Drying: 3 to 10 days, the widest but a ferment vat's 6 to 20."""
    assert only(answer(cloth=[SHAWL])).critical == "dry"
    assert only(answer(cloth=[SHAWL], vat_kind="ferment")).critical == "vat"


def test_what_nothing_sown_now_reaches_is_in_no_area_and_the_first_sentence_says_so() -> None:
    """In March a want of May is too late for seed; beside one that has time, only that one is sown for."""
    may = SHAWL | {"name": "in May", "by": "2026-05-10"}
    late = answer(cloth=[may])
    assert (late.area_for_chance_m2, late.enough_chance) == (0.0, 0.0)
    assert headline(late).startswith("It is too late to sow for what is wanted")
    both, alone = answer(cloth=[may, SHAWL]), answer(cloth=[SHAWL])
    assert both.area_for_chance_m2 == pytest.approx(alone.area_for_chance_m2, rel=0.1)
    assert both.total.needed_g.p50 > 1.5 * alone.total.needed_g.p50


def test_a_bed_that_stands_and_serves_a_want_leaves_no_day_for_sowing() -> None:
    beds = [{"leaf_kg": 400.0, "spread_factor": 1.0, "next_on": "2026-07-01"}]
    found = only(answer(cloth=[SHAWL], beds=beds))
    assert (found.sow, found.from_beds, found.from_jars) == ((), True, False)
    assert found.steps[0].step == "cut"
    assert found.slack_d == (found.steps[0].begin_by - date(2026, 3, 1)).days
    assert "what stands is enough" in slack_said(found)
