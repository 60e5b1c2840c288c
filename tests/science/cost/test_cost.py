"""What the blue costs: sums by hand, ratios in closed form, laws in every draw."""

from math import exp, log, sqrt
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.cost.call import carried, cost, shares_frac
from bluewright.science.cost.cost_record import CostAnswer, CostRecord
from bluewright.science.cost.ledger import ITEMS, ledger
from bluewright.science.cost.priors import WORK_KINDS

Z95 = 1.645
NO_WORK = [{"kind": kind, "spent_min": 0.0} for kind in WORK_KINDS]
"""Nothing was done that is not noted: nothing is estimated."""
SURE = {"purity": {"mean_frac": 0.5, "sd_frac": 0.001}, "moisture_frac": 0.0, "scale_sd_g": 1e-6}


def made(**fields: Any) -> CostRecord:
    return read(CostRecord, {"work": NO_WORK} | fields)


def costed(**fields: Any) -> CostAnswer:
    return cost(made(**fields), rng=np.random.default_rng(1))


def test_two_batches_and_a_lost_one_by_hand() -> None:
    """20 g and 10 g half pure are 15 g; 4 h and 2 h and 1.5 h lost make 7.5 h, half an hour a gram; at 10 an hour with
    200 g of alkali at 5 a kilogram and 3,000 L at 2 a cubic metre 75 + 1 + 6 = 82."""
    found = costed(
        wage_money_per_h=10.0, water_money_per_m3=2.0,
        batches=[{"id": "a", "pigment_g": 20.0, "steep_l": 1000.0, **SURE},
                 {"id": "b", "pigment_g": 10.0, "wash_l": 500.0, **SURE},
                 {"id": "c", "failed": True, "steep_l": 1500.0}],
        work=[*NO_WORK, *({"kind": "picking", "spent_min": minutes, "batch": batch, "off_frac": 0.0}
                          for batch, minutes in (("a", 240.0), ("b", 120.0), ("c", 90.0)))],
        alkalis=[{"name": "soda", "pack_amount": 1000.0, "pack_money": 5.0}],
        used=[{"name": "soda", "batch": "a", "used_amount": 150.0},
              {"name": "soda", "batch": "c", "used_amount": 50.0}],
    )  # fmt: skip
    assert found.pure_g is not None
    assert found.cost_money is not None
    assert found.cost_money_per_g is not None
    assert found.work_h_per_g is not None
    assert found.pure_g.p50 == pytest.approx(15.0, rel=0.001)
    assert found.work_h.p50 == pytest.approx(7.5, rel=1e-4)
    assert found.work_h_per_g.p50 == pytest.approx(0.5, rel=0.002)
    assert found.cost_money.p50 == pytest.approx(82.0, rel=0.005)
    assert found.cost_money_per_g.p50 == pytest.approx(82 / 15, rel=0.005)
    assert found.water_l.p50 == pytest.approx(3000.0, rel=0.01)
    assert found.alkalis[0].used_amount.p50 == pytest.approx(200.0, rel=0.01)
    assert found.failed_frac is not None
    assert found.failed_frac.p50 == pytest.approx((15 + 0.25 + 3) / 82, rel=0.02)


def test_what_failed_is_carried_in_proportion_to_the_blue() -> None:
    """By hand: of 90 minutes lost one of 20 g carries 60 and one of 10 g 30: 4 h + 1 h over 10 g, 2.5 h over 5 g."""
    found = costed(
        batches=[{"id": "a", "pigment_g": 20.0, **SURE}, {"id": "b", "pigment_g": 10.0, **SURE},
                 {"id": "c", "failed": True}],
        work=[*NO_WORK, *({"kind": "other", "spent_min": minutes, "batch": batch, "off_frac": 0.0}
                          for batch, minutes in (("a", 240.0), ("b", 120.0), ("c", 90.0)))],
    )  # fmt: skip
    each = [one.work_h_per_g.p50 if one.work_h_per_g else None for one in found.batches]
    assert each == [pytest.approx(0.5, rel=0.005), pytest.approx(0.5, rel=0.005), None]
    assert [one.state for one in found.batches] == ["done", "done", "failed"]


def test_work_for_the_whole_season_is_shared_by_leaf() -> None:
    """By hand: 10 h over 6 and 4 kg are 6 and 4 h."""
    found = costed(
        batches=[{"id": "a", "leaf_kg": 6.0, "pigment_g": 20.0}, {"id": "b", "leaf_kg": 4.0, "pigment_g": 10.0}],
        work=[*NO_WORK, {"kind": "bed", "spent_min": 600.0, "off_frac": 0.0}],
    )
    assert [one.work_h.p50 for one in found.batches] == [pytest.approx(6.0), pytest.approx(4.0)]


def test_the_ratio_of_two_log_normal_quantities_has_the_closed_form() -> None:
    """Hours off by 0.2 and grams by 0.3, both in the logarithm: the ratio's log-sd is sqrt(0.04 + 0.09)."""
    found = costed(
        batches=[{"id": "a", "pigment_g": 20.0, **SURE, "scale_sd_g": 6.0}],
        work=[*NO_WORK, {"kind": "other", "spent_min": 600.0, "batch": "a", "off_frac": 0.2}],
    )
    each, spread = found.work_h_per_g, exp(Z95 * sqrt(0.2**2 + 0.3**2))
    assert each is not None
    assert each.p50 == pytest.approx(1.0, rel=0.03)
    assert each.p95 / each.p50 == pytest.approx(spread, rel=0.05)
    assert each.p50 / each.p5 == pytest.approx(spread, rel=0.05)


def test_the_purity_of_one_garden_s_jars_is_one_doubt_and_counted_once() -> None:
    """Four equal batches: the whole is as wide, in the logarithm, as each; apart it would be half as wide."""
    batch = {"pigment_g": 20.0, "purity": {"mean_frac": 0.3, "sd_frac": 0.06}, "scale_sd_g": 1e-6}
    found = costed(batches=[{"id": name, **batch} for name in "abcd"])
    one, whole = found.batches[0].pure_g, found.pure_g
    assert one is not None
    assert whole is not None
    assert log(whole.p95 / whole.p5) == pytest.approx(log(one.p95 / one.p5), rel=0.01)


def test_kit_is_shared_over_its_years_and_batches() -> None:
    """By hand: (90 - 10) / 8 years / 5 batches a year + 18 / 12 batches = 2 + 1.5 = 3.5 for a batch."""
    found = costed(
        batches=[{"id": "a", "pigment_g": 20.0}], batches_a_year=5,
        kit=[{"name": "tubs", "paid_money": 90.0, "left_money": 10.0, "lasts_years": 8},
             {"name": "cloths", "paid_money": 18.0, "lasts_batches": 12}],
    )  # fmt: skip
    assert found.cost_money is not None
    assert found.cost_money.p50 == pytest.approx(3.5, rel=0.02)
    assert found.cost_money.p5 < 3.2
    assert found.cost_money.p95 > 3.9


def test_the_return_at_a_price_by_hand() -> None:
    """10 g pure, a tenth never sold, at 14: 126, less 6 paid, over 10 h: 12 an hour."""
    found = costed(
        price_money_per_g=14.0, batches=[{"id": "a", "pigment_g": 20.0, "fuel_money": 6.0, **SURE}],
        work=[*NO_WORK, {"kind": "other", "spent_min": 600.0, "off_frac": 0.0}],
    )  # fmt: skip
    assert found.return_money_per_h is not None
    assert found.return_money_per_h.p50 == pytest.approx(12.0, rel=0.005)
    assert found.return_below_wage_chance is None


def test_without_any_price_there_is_no_money() -> None:
    found = costed(batches=[{"id": "a", "pigment_g": 20.0}])
    assert found.cost_money is None
    assert found.cost_money_per_g is None
    assert found.price_floor_money_per_g is None
    assert all(part.cost_money is None for part in found.parts)


def test_before_any_pigment_hours_are_told_and_nothing_for_a_gram() -> None:
    found = costed(
        batches=[{"id": "a", "leaf_kg": 5.0, "steep_l": 30.0}],
        work=[{"kind": "picking", "spent_min": 30.0, "batch": "a", "off_frac": 0.0}],
    )
    assert found.pure_g is None
    assert found.work_h.p50 == pytest.approx(0.5)
    assert found.estimated == ()
    assert found.batches[0].state == "underway"


def test_a_batch_on_its_way_is_left_out_of_the_whole() -> None:
    done = {"id": "a", "pigment_g": 20.0, "steep_l": 100.0}
    alone, both = costed(batches=[done]), costed(batches=[done, {"id": "b", "steep_l": 900.0}])
    assert both.water_l.p50 == pytest.approx(alone.water_l.p50, rel=0.01)
    assert "underway" in {caution.code for caution in both.cautions}


def test_what_was_noted_by_a_clock_and_measured_leaves_nothing_to_ask_for() -> None:
    found = costed(
        batches=[{"id": "a", "pigment_g": 20.0, **SURE}],
        work=[*NO_WORK, {"kind": "other", "spent_min": 60.0, "off_frac": 0.0}],
    )
    assert found.next_reading is None
    assert found.basis == "readings"


def test_the_widest_doubt_is_asked_for() -> None:
    """Purity unknown spreads the logarithm by about 0.8; an hour noted to a tenth by 0.1."""
    found = costed(
        batches=[{"id": "a", "pigment_g": 20.0}], work=[*NO_WORK, {"kind": "other", "spent_min": 60.0, "off_frac": 0.1}]
    )
    assert found.next_reading == "purity"
    assert found.next_gain_frac > 0.9


MINUTES = st.floats(0.0, 2000.0)


@settings(max_examples=40, deadline=None)
@given(
    pigment=st.lists(st.one_of(st.none(), st.floats(0.5, 200.0)), min_size=1, max_size=6),
    failed=st.integers(0, 6), minutes=st.lists(MINUTES, min_size=4, max_size=4),
    wage=st.one_of(st.none(), st.floats(0.1, 90)),
)  # fmt: skip
def test_shares_add_up_and_grams_times_their_cost_are_the_whole_in_every_draw(
    pigment: list[float | None], failed: int, minutes: list[float], wage: float | None
) -> None:
    """Laws, whatever the batches: shares sum to 1; the done batches with what they carry are the whole."""
    batches: list[dict[str, Any]] = [
        {"id": str(k), "leaf_kg": 1.0 + k, "steep_l": 10.0} | ({} if mass is None else {"pigment_g": mass})
        for k, mass in enumerate(pigment)
    ]
    batches += [{"id": f"f{k}", "failed": True, "leaf_kg": 2.0} for k in range(failed)]
    work = [
        {"kind": kind, "spent_min": m} for kind, m in zip(("bed", "picking", "airing", "other"), minutes, strict=True)
    ]
    given_record = {"batches": batches, "work": work, "water_money_per_m3": 3.0}
    if wage is not None:
        given_record["wage_money_per_h"] = wage
    record = read(CostRecord, given_record)
    found = ledger(record, rng=np.random.default_rng(3), n=50)
    shares = shares_frac(record, found)
    assert shares.shape == (len(ITEMS), 50)
    assert np.allclose(shares.sum(axis=0), 1.0)
    if found.done.any():
        money = found.cost_money.sum(axis=0)
        whole = money[found.counted].sum(axis=0)
        each = (money + carried(found, money))[found.done] / found.pure_g[found.done]
        assert np.allclose((each * found.pure_g[found.done]).sum(axis=0), whole)
    answered = cost(record, rng=np.random.default_rng(3))
    assert sum(part.share_frac for part in answered.parts) == pytest.approx(1.0, abs=1e-5)
    assert [part.share_frac for part in answered.parts] == sorted((p.share_frac for p in answered.parts), reverse=True)


@pytest.mark.parametrize(
    ("fields", "where"),
    [
        ({"batches": [{"id": "a"}, {"id": "a"}]}, "batches[1].id"),
        ({"batches": [{"id": "a", "failed": True, "pigment_g": 1.0}]}, "batches[0].failed"),
        ({"batches": [{"id": "a"}], "work": [{"kind": "bed", "spent_min": 1.0, "batch": "b"}]}, "work[0].batch"),
        ({"batches": [{"id": "a"}], "used": [{"name": "soda", "used_amount": 1.0}]}, "used[0].name"),
        ({"batches": [{"id": "a"}], "alkalis": [{"name": "soda", "pack_money": 1.0}]}, "alkalis[0].pack_amount"),
        ({"batches": [{"id": "a"}], "kit": [{"name": "tub", "paid_money": 1.0}]}, "kit[0].lasts_years"),
        (
            {
                "batches": [{"id": "a"}],
                "kit": [{"name": "tub", "paid_money": 1.0, "left_money": 2.0, "lasts_years": 1}],
            },
            "kit[0].left_money",
        ),
        ({"batches": []}, "batches"),
    ],
)
def test_what_cannot_be_is_refused_where_it_stands(fields: dict[str, Any], where: str) -> None:
    with pytest.raises(InputError) as error:
        read(CostRecord, fields)
    assert error.value.where == where


def test_alkali_is_told_of_each_batch_and_the_batches_make_the_whole() -> None:
    """By hand: 30 g and 10 g noted, 40 g in all; noted amounts are off by a twentieth (`ALKALI_SD`)."""
    found = costed(
        batches=[{"id": "one", "leaf_kg": 5.0, "pigment_g": 20.0}, {"id": "two", "leaf_kg": 5.0, "pigment_g": 20.0}],
        alkalis=[{"name": "lime"}],
        used=[
            {"name": "lime", "used_amount": 30.0, "batch": "one"},
            {"name": "lime", "used_amount": 10.0, "batch": "two"},
        ],
    )
    each = [batch.alkalis[0].used_amount.p50 for batch in found.batches]
    assert each == pytest.approx([30.0, 10.0], rel=0.01)
    assert found.alkalis[0].used_amount.p50 == pytest.approx(sum(each), rel=0.02)
    assert found.batches[0].alkalis[0].used_amount_per_g is not None
