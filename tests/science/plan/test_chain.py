"""The chain from cloth to bed: against the closed product of log-normals, own worked figures, and by hand."""

import math
from datetime import date
from typing import Any

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.media.cloth import FIXED_FRAC, REGAIN_FRAC
from bluewright.science.media.own_yield import own_yield
from bluewright.science.plan import chain_factors, chain_needs
from bluewright.science.plan.chain import plan_cloth
from bluewright.science.plan.chain_crop import Crop
from bluewright.science.plan.chain_record import ClothPlanAnswer, ClothPlanRecord, Matters, Unknown
from bluewright.science.thread import plan_cloth as with_its_beds
from tests.published import rows
from tests.science.plan.crops import WOAD, crop, exact, lognormal, share

WOOL = {"fibre": "wool", "mass_kg": 1.0, "basis": "dry", "fixed_frac": 0.02}
EIGHTY_Z = 0.8416


def asked(**fields: Any) -> ClothPlanRecord:
    return read(ClothPlanRecord, {"plant": "woad", "own": {"cuts": 1}} | fields)


def answer(of: Crop = WOAD, **fields: Any) -> ClothPlanAnswer:
    return plan_cloth(asked(**fields), crop=of, rng=np.random.default_rng(1))


def shares(found: ClothPlanAnswer) -> dict[Unknown, float]:
    return {one.what: one.share_frac for one in found.matters}


@pytest.fixture
def example(monkeypatch: pytest.MonkeyPatch) -> ClothPlanAnswer:
    """The worked example: every factor log-normal, what reduces folded into what is fixed."""
    everything = share(1 - 1e-12, 0.0)
    monkeypatch.setattr(chain_needs, "reduces", lambda own, at: everything.from_z(at.z["reduces"]))
    fixed = lognormal(0.70, math.log(1.15))
    monkeypatch.setattr(chain_needs, "fixed_of_drawn", lambda fibre, own, at: fixed.from_z(at.z["drawn"]))
    monkeypatch.setattr(chain_factors, "FIXED_TYPED_SD", lognormal_sd(1.10))
    of = crop(
        leaf_kg_per_m2=lognormal(1.5, math.log(1.30)), leaf_season_sd=0.0, leaf_cut_sd=0.0,
        blue_g_per_kg=lognormal(1.0, math.log(1.50)), blue_batch_sd=0.0, purity=share(0.25, 0.0),
        moisture=share(1e-12, 0.0),
    )  # fmt: skip
    return answer(of, cloth=[WOOL], area_m2=19.05)


def lognormal_sd(gsd: float) -> Any:
    from dataclasses import replace

    return replace(chain_factors.FIXED_TYPED_SD, value=math.log(gsd))


def published(what: str) -> float:
    return rows("plan-chain", what)[0].value


def test_the_worked_example_comes_out_by_draws(example: ClothPlanAnswer) -> None:
    """Of 4,000 draws of gsd 1.668 a middle is off by 1.0 % (standard error), the 80 % point by 1.2 %."""
    total = example.total
    assert total.drawn_g.p50 == pytest.approx(published("drawn, g"), rel=0.02)
    assert total.pigment_g.p50 == pytest.approx(published("pigment of a quarter indigo, g"), rel=0.02)
    assert total.area_m2.p50 == pytest.approx(published("area, middle, m2"), rel=0.03)
    assert example.area_for_chance_m2 == pytest.approx(published("area for 80 %, m2"), rel=0.03)
    gsd = (total.area_m2.p95 / total.area_m2.p5) ** (1 / (2 * 1.6449))
    assert gsd == pytest.approx(published("geometric standard deviation"), rel=0.02)
    assert example.area_enough_chance == pytest.approx(0.5, abs=0.03)
    found = shares(example)
    for what, name in (
        ("fixed", "share of the depth"), ("drawn", "share of what is fixed"),
        ("blue", "share of the blue of leaf"), ("leaf", "share of the leaf"),
    ):  # fmt: skip
        assert found[what] == pytest.approx(published(name), abs=0.03)  # type: ignore[index]


def test_the_worked_example_by_hand() -> None:
    """20 g / 0.70 = 28.57 g; / 0.25 = 114.29 g; / 1.0 = 28.57 kg; / 1.5 = 19.05 m2. Logs: 0.0953, 0.1398, 0.4055,
    0.2624; squares 0.00908, 0.01953, 0.16440, 0.06884, sum 0.26185, root 0.51171: gsd 1.6682; 19.05 exp(0.8416 *
    0.51171) = 29.30; shares 0.035, 0.075, 0.628, 0.263."""
    squares = [math.log(gsd) ** 2 for gsd in (1.10, 1.15, 1.50, 1.30)]
    sd = math.sqrt(sum(squares))
    middle = 1000 * 0.02 / 0.70 / 1.0 / 1.5
    assert rows("plan-chain", "area, middle, m2")[0].agrees(middle)
    assert rows("plan-chain", "area for 80 %, m2")[0].agrees(middle * math.exp(EIGHTY_Z * sd))
    assert rows("plan-chain", "area for 90 %, m2")[0].agrees(middle * math.exp(1.28155 * sd))
    assert rows("plan-chain", "geometric standard deviation")[0].agrees(math.exp(sd))
    for what, square in zip(("depth", "what is fixed", "blue of leaf", "leaf"), squares, strict=True):
        row = rows("plan-chain", f"share of the {what}" if what != "what is fixed" else "share of what is fixed")[0]
        assert row.agrees(square / sd**2)


def test_draws_agree_with_the_closed_product_whatever_the_spreads() -> None:
    """Log-variances of depth, garden's blue, its scatter over one batch, leaf, season, cut add up; own formula."""
    of = crop(blue_g_per_kg=lognormal(1.2, 0.3), blue_batch_sd=0.2, leaf_kg_per_m2=lognormal(0.9, 0.4))
    found = answer(of, pigment=[{"mass_g": 30.0}])
    sd = math.sqrt(0.3**2 + 0.2**2 + 0.4**2 + 2 * 0.25**2)
    middle = 30.0 / 1.2 / 0.9
    assert found.total.area_m2.p50 == pytest.approx(middle, rel=0.03)
    assert found.area_for_chance_m2 == pytest.approx(middle * math.exp(EIGHTY_Z * sd), rel=0.04)
    assert shares(found)["leaf"] == pytest.approx(0.16 / sd**2, abs=0.03)


def test_scatter_of_batches_averages_out_and_what_the_garden_is_off_does_not() -> None:
    """Of the mean of k log-normals the log-variance is about ln(1 + (exp(s^2) - 1)/k) (Fenton): k = 16, s = 0.35."""
    of = crop(
        leaf_kg_per_m2=lognormal(1.0, 0.0), leaf_season_sd=0.0, leaf_cut_sd=0.0, blue_g_per_kg=lognormal(1.0, 0.3)
    )
    one = answer(of, pigment=[{"mass_g": 100.0}])
    many = answer(of, pigment=[{"mass_g": 100.0}], tub_l=40.0, leaf_kg_per_l=0.15)

    def log_sd(found: ClothPlanAnswer) -> float:
        return math.log(found.total.area_m2.p95 / found.total.area_m2.p5) / (2 * 1.6449)

    assert many.tub_fills is not None and round(many.tub_fills.p50) in {15, 16, 17}
    assert log_sd(one) == pytest.approx(math.hypot(0.3, 0.35), rel=0.04)
    expected = math.sqrt(0.3**2 + math.log(1 + (math.exp(0.35**2) - 1) / 16))
    assert log_sd(many) == pytest.approx(expected, rel=0.04)


def test_purity_enters_once() -> None:
    """A purer pigment is a smaller heap of the same leaf; by hand: 30 g / (0.2 * 0.95) = 158 g, from 30 kg."""
    poor = answer(exact(1.0, 1.0), pigment=[{"mass_g": 30.0}], own={"cuts": 1, "purity_frac": 0.2})
    rich = answer(exact(1.0, 1.0), pigment=[{"mass_g": 30.0}], own={"cuts": 1, "purity_frac": 0.4})
    assert poor.total.leaf_kg == rich.total.leaf_kg
    assert poor.total.leaf_kg.p50 == pytest.approx(30.0)
    assert poor.total.pigment_g.p50 == pytest.approx(30 / (0.2 * 0.95), rel=0.03)


def test_promised_powder_is_counted_by_its_purity() -> None:
    found = answer(exact(1.0, 1.0), pigment=[{"mass_g": 100.0, "purity_frac": 0.3}])
    assert found.total.needed_g.p50 == pytest.approx(30.0)
    assert found.total.on_cloth_g.p95 == 0


def test_cloth_of_a_room_is_dried_before_it_is_counted() -> None:
    """1.16 kg of conditioned wool is a kilogram of fibre."""
    dry = answer(cloth=[WOOL])
    hung = answer(cloth=[{**WOOL, "basis": "conditioned", "mass_kg": 1 + REGAIN_FRAC["wool"].value}])
    assert hung.total == dry.total


def test_a_depth_takes_what_is_believed_of_it() -> None:
    found = answer(cloth=[{"fibre": "cotton", "mass_kg": 2.0, "basis": "dry", "depth": "navy"}])
    assert found.total.on_cloth_g.p50 == pytest.approx(2000 * FIXED_FRAC["cotton"]["navy"].centre, rel=0.02)
    assert found.total.on_cloth_g.p50 < found.total.drawn_g.p50 < found.total.needed_g.p50


def test_jars_go_to_the_earliest_want_and_the_vat_before_its_cloth() -> None:
    """30 g at hand, all known: 20 g of September's 20, the other 10 into the vat of October, nothing to the cloth."""
    found = answer(
        exact(1.0, 1.0),
        cloth=[{**WOOL, "name": "shawl", "by": "2026-10-20"}],
        pigment=[{"name": "later", "mass_g": 5.0}, {"name": "market", "mass_g": 20.0, "by": "2026-09-10"}],
        jars=[{"pure_g": 30.0, "sd_frac": 0.0}],
        vat={"vat_l": 40.0, "working_g_per_l": 1.5},
        now="2026-03-01",
    )
    assert [one.kind for one in found.wants] == ["pigment", "vat", "cloth", "pigment"]
    assert [round(one.from_jars_g.p50) for one in found.wants] == [20, 10, 0, 0]
    assert found.wants[1].drawn_g.p50 == pytest.approx(60.0), "own hand: 40 L at 1.5 g/L"


def test_what_stands_in_the_vat_is_stock() -> None:
    """A vat that holds enough wants nothing more; a litre too weak wants the difference."""
    full = answer(cloth=[WOOL], vat={"vat_l": 40.0, "working_g_per_l": 1.5, "in_it_g": 60.0})
    half = answer(cloth=[WOOL], vat={"vat_l": 40.0, "working_g_per_l": 1.5, "in_it_g": 20.0})
    assert full.wants[0].needed_g.p95 == 0
    assert half.wants[0].drawn_g.p50 == pytest.approx(40.0)


def test_enough_in_jars_asks_for_no_ground() -> None:
    found = answer(pigment=[{"mass_g": 10.0}], jars=[{"pure_g": 40.0, "sd_frac": 0.1}])
    assert found.jars_enough_chance == 1
    assert found.area_for_chance_m2 == 0
    assert found.matters == ()


def test_the_four_in_five_area_is_enough_four_times_in_five() -> None:
    first = answer(pigment=[{"mass_g": 30.0}])
    again = answer(pigment=[{"mass_g": 30.0}], area_m2=first.area_for_chance_m2)
    assert again.area_enough_chance == pytest.approx(0.8, abs=0.002)
    surer = answer(pigment=[{"mass_g": 30.0}], wanted_chance=0.9)
    assert surer.area_for_chance_m2 > first.area_for_chance_m2


def test_what_matters_most_narrows_most() -> None:
    found = answer(cloth=[WOOL])
    best = found.matters[0]
    assert best == Matters(what="blue", share_frac=best.share_frac, narrower_frac=best.narrower_frac)
    assert best.narrower_frac == max(one.narrower_frac for one in found.matters)


def test_own_batches_narrow_the_plan_and_pull_it_their_way() -> None:
    """Six batches of 2 g/kg: nearly half the area of the 1 g/kg believed before."""
    before = answer(pigment=[{"mass_g": 30.0}])
    after = answer(pigment=[{"mass_g": 30.0}], own={"cuts": 1, "blue_g_per_kg": [2.0] * 6, "assay_sd_frac": 0.05})
    assert 0.5 < after.total.area_m2.p50 / before.total.area_m2.p50 < 0.62
    assert after.own_blue_frac > 0.9
    assert after.total.area_m2.p95 / after.total.area_m2.p5 < before.total.area_m2.p95 / before.total.area_m2.p5
    assert (before.basis, after.basis) == ("garden", "garden")


def test_an_error_of_all_assays_is_shared_by_jars_and_leaf() -> None:
    """Assays that may be 30 % off: with jars by the same assays the doubt is more than if each were off by itself."""
    own = {"cuts": 1, "blue_g_per_kg": [1.0] * 20, "assay_sd_frac": 0.3}
    wants = [{"mass_g": 60.0}]
    together = answer(pigment=wants, own=own, jars=[{"pure_g": 30.0, "sd_frac": 0.0, "assayed": True}])
    apart = answer(pigment=wants, own=own, jars=[{"pure_g": 30.0, "sd_frac": 0.3}])

    def ratio(found: ClothPlanAnswer) -> float:
        return found.total.area_m2.p95 / found.total.area_m2.p5

    assert ratio(together) > 1.1 * ratio(apart)
    assert shares(together)["assay"] > 0.3


def test_what_jars_can_dye_is_the_chain_turned_round() -> None:
    """The middle of the chain back from the answer is what is in the jars, to the skew of the shares."""
    found = answer(jars=[{"pure_g": 50.0, "sd_frac": 0.0}])
    can = {(one.fibre, one.depth): one.cloth_kg.p50 for one in found.can_dye}
    back = answer(cloth=[{"fibre": "wool", "mass_kg": can["wool", "medium"], "depth": "medium"}])
    assert back.total.needed_g.p50 == pytest.approx(50.0, rel=0.02)
    assert can["wool", "pale_sky"] > can["wool", "light"] > can["wool", "navy"]
    assert found.wants == ()


def test_an_early_want_can_ask_for_more_ground_than_all_of_them_together(monkeypatch: pytest.MonkeyPatch) -> None:
    """30 g by the first cut, 30 g more by three: 30 m2 of a kilogram and a gram, not 60/3 = 20."""
    from bluewright.science.plan import chain

    cuts = {date(2026, 8, 1): 1.0, date(2026, 11, 1): 3.0, None: 3.0}
    monkeypatch.setattr(chain, "_cuts", lambda record, soon, at, by, rng: np.full(chain.DRAWS, cuts[by]))
    wants = [{"mass_g": 30.0, "by": "2026-08-01"}, {"mass_g": 30.0, "by": "2026-11-01"}]
    found = answer(exact(1.0, 1.0), pigment=wants, now="2026-03-01")
    assert found.total.area_m2.p50 == pytest.approx(30.0)


@pytest.mark.parametrize(
    ("fields", "where"),
    [
        ({}, "cloth"),
        ({"cloth": [{"fibre": "wool", "mass_kg": 1.0}]}, "cloth[0].depth"),
        ({"cloth": [{"fibre": "wool", "mass_kg": 1.0, "depth": "deep", "fixed_frac": 0.02}]}, "cloth[0].depth"),
        ({"pigment": [{"mass_g": 5.0, "by": "2026-09-01"}]}, "now"),
        ({"pigment": [{"mass_g": 5.0, "by": "2026-09-01"}], "now": "2026-09-02"}, "now"),
    ],
)
def test_what_cannot_be_meant_is_refused(fields: dict[str, Any], where: str) -> None:
    with pytest.raises(InputError) as error:
        asked(**fields)
    assert error.value.where == where


def test_powder_told_as_pure_is_doubted() -> None:
    found = answer(pigment=[{"mass_g": 5.0}], own={"cuts": 1, "blue_g_per_kg": [7.0]})
    assert "outside-range" in [caution.code for caution in found.cautions]


def test_the_same_seed_gives_the_same_answer() -> None:
    record = asked(cloth=[WOOL], own=None)
    first, second = (with_its_beds(record, rng=np.random.default_rng(1)) for _ in range(2))
    assert first == second


def test_published_yields_lie_in_the_range_that_a_plan_rests_on() -> None:
    """Pure indigo of a kilogram of leaf, as published for each plant; a laboratory that loses nothing is left out."""
    for row in rows("leaf-yields"):
        if "laboratory" in row.what:
            continue
        plant = ("woad", "japanese_indigo", "indigofera")[int(row.given["plant"])]
        found = with_its_beds(asked(plant=plant, pigment=[{"mass_g": 5.0}]), rng=np.random.default_rng(1))
        assert found.blue_g_per_kg.p5 < row.value < found.blue_g_per_kg.p95, row.what


def test_a_guess_is_called_one_until_own_batches_lead() -> None:
    def codes(**own: Any) -> list[str]:
        found = answer(pigment=[{"mass_g": 5.0}], own={"cuts": 1} | own)
        return [caution.code for caution in found.cautions]

    assert "starting-guess" in codes()
    assert "starting-guess" not in codes(blue_g_per_kg=[1.0, 1.1])


def test_the_law_is_named_where_woad_is_to_be_sown_and_only_there() -> None:
    def codes(**other: Any) -> list[str]:
        return [one.code for one in answer(**other).cautions]

    assert codes(pigment=[{"mass_g": 5.0}])[:2] == ["woad-spreads", "keep-seed-in"]
    assert "woad-spreads" not in codes(pigment=[{"mass_g": 5.0}], plant="japanese_indigo")
    assert "woad-spreads" not in codes(pigment=[{"mass_g": 0.5}], jars=[{"pure_g": 500.0, "sd_frac": 0.05}])


def test_what_a_garden_s_memory_joined_counts_as_the_batches_it_joined() -> None:
    """The rule of own yields told as the memory tells it: the same plan, to the digits with which it is told."""
    rule = own_yield(
        prior_mean_log=np.log(WOAD.blue_g_per_kg.centre), prior_sd=WOAD.blue_g_per_kg.spread, own_log=[np.log(2.0)] * 4,
        batch_sd=WOAD.blue_batch_sd,
    )  # fmt: skip
    told = {
        "middle_g_per_kg": np.exp(rule.mean_log), "garden_log_sd": rule.garden_sd, "batch_log_sd": WOAD.blue_batch_sd,
        "own_frac": rule.own_frac,
    }  # fmt: skip
    common = {"cuts": 1, "assay_sd_frac": 0.0}
    single = answer(pigment=[{"mass_g": 30.0}], own=common | {"blue_g_per_kg": [2.0] * 4})
    joined = answer(pigment=[{"mass_g": 30.0}], own=common | {"blue": told})
    assert joined.blue_g_per_kg == single.blue_g_per_kg
    assert joined.total == single.total
    assert joined.own_blue_frac == single.own_blue_frac
    shaky = answer(pigment=[{"mass_g": 30.0}], own={"cuts": 1, "assay_sd_frac": 0.5, "blue": told})
    assert shaky.blue_g_per_kg.p95 / shaky.blue_g_per_kg.p5 > joined.blue_g_per_kg.p95 / joined.blue_g_per_kg.p5
