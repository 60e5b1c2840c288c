"""Leaf: content of precursor, and the most blue that a basket can give."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read
from bluewright.science.leaf.potential import potential
from bluewright.science.leaf.record import PotentialAnswer, PotentialRecord
from bluewright.science.media.basket import LeafState, Plant
from bluewright.science.media.precursor import (
    CONTENT,
    PUBLISHED_CONTENT,
    STORAGE_LOSS_PER_H,
    days_from_best,
    draw_mmol_per_kg,
)
from tests.published import Row, rows

PLANTS: tuple[Plant, ...] = ("woad", "japanese_indigo", "indigofera")


def answer(**fields: object) -> PotentialAnswer:
    given = {"plant": "woad", "leaf_kg": 6.0, "picked_on": "2026-07-09"} | fields
    return potential(read(PotentialRecord, given), rng=np.random.default_rng(1))


def content(plant: Plant, **leaf: object) -> np.ndarray:
    return draw_mmol_per_kg(
        plant, leaf=read(LeafState, leaf), day_of_year=200, held_temp_c=20.0, rng=np.random.default_rng(2), n=4000
    )


def test_the_potential_is_content_times_the_factor() -> None:
    """Own hand: on the best day, sound and just picked, 6 kg * 25 mmol/kg * 0.1311 g/mmol = 19.7 g."""
    assert answer().potential_g.p50 == pytest.approx(19.7, rel=0.04)


def test_the_content_range_is_that_of_its_prior() -> None:
    """Own hand: 25 times or over exp(1.645 * 0.7) = 3.16: 7.9 to 79 mmol/kg."""
    found = answer().precursor_mmol_per_kg
    assert found.p5 == pytest.approx(7.9, rel=0.06)
    assert found.p95 == pytest.approx(79.0, rel=0.06)


@pytest.mark.parametrize("row", rows("leaf-contents"), ids=lambda r: f"{r.what}")
def test_published_contents_lie_inside_the_prior_of_their_plant(row: Row) -> None:
    """Published contents (middle of the accessions of Rocha 2011, indican of Hu 2022), converted by own hand."""
    plant: Plant = "woad" if row.what.startswith("woad") else "indigofera"
    low, high = CONTENT[plant].from_z(np.array([-1.645, 1.645]))
    assert low < row.value < high
    assert row.agrees(1000 * row.given["g_per_kg_fresh"] / row.given["g_per_mol"])


@pytest.mark.parametrize("row", rows("leaf-yields"), ids=lambda r: f"{r.what}")
def test_published_yields_lie_under_the_upper_band_of_the_potential(row: Row) -> None:
    """Published yields, g indigo for a kilogram of fresh leaf: nobody got more than the model says there can be."""
    plant = PLANTS[int(row.given["plant"])]
    found = answer(plant=plant, leaf_kg=1.0, leaf={"age": "young"})
    assert row.value < found.potential_g.p95


def test_the_woad_trade_yield_lies_inside_the_realistic_range() -> None:
    """Practice: a tonne of leaf for one to two kilograms of pigment."""
    found = answer(leaf_kg=1000.0).realistic_g
    assert found.p5 < 1000 < found.p95
    assert found.p5 < 2000 < found.p95


def test_the_realistic_share_is_a_fifth_to_three_fifths() -> None:
    """Published: 22 and 52 % of theory (Hu 2022); the middle of the range is 38 %."""
    found = answer()
    assert found.realistic_g.p50 / found.potential_g.p50 == pytest.approx(0.38, abs=0.04)
    assert found.realistic_g.p95 < found.potential_g.p95


def test_old_leaf_holds_three_fifths_of_young() -> None:
    """Published: 14 against 24 % of dry matter (Kokubun 1998), a ratio of 0.58."""
    ratio = np.median(content("woad", age="old")) / np.median(content("woad", age="young"))
    assert ratio == pytest.approx(14 / 24, abs=0.06)


def test_woad_keeps_about_three_days() -> None:
    """Published in words: 'relatively stable until three days after harvest' (Mocquard 2023)."""
    held = next(e.factor for e in answer(leaf={"held_h": 72.0}).effects if e.name == "held")
    assert held.p50 > 0.75


def test_japanese_indigo_spoils_faster_than_woad_while_held() -> None:
    assert STORAGE_LOSS_PER_H["japanese_indigo"].centre > 5 * STORAGE_LOSS_PER_H["woad"].centre
    assert answer(plant="japanese_indigo").loss_per_h.p50 > 4 * answer().loss_per_h.p50


def test_loss_while_held_follows_q10() -> None:
    """Own hand: 10 C warmer is 2.2 times as fast; wilted 3 times."""
    cool, warm = answer(held_temp_c=20.0).loss_per_h, answer(held_temp_c=30.0).loss_per_h
    assert warm.p50 / cool.p50 == pytest.approx(2.2, rel=0.06)
    assert answer(wilted=True).loss_per_h.p50 / cool.p50 == pytest.approx(3.0, rel=0.06)


@settings(max_examples=30)
@given(plant=st.sampled_from(PLANTS), held=st.floats(0, 48), longer=st.floats(0.5, 48))
def test_waiting_never_adds_blue(plant: Plant, held: float, longer: float) -> None:
    assert (content(plant, held_h=held + longer) <= content(plant, held_h=held)).all()


def test_the_potential_grows_in_step_with_the_leaf() -> None:
    assert answer(leaf_kg=12.0).potential_g.p50 == pytest.approx(2 * answer().potential_g.p50, rel=1e-3)


def test_damage_widens_the_answer_and_may_cost_or_gain() -> None:
    sound, damaged = answer(), answer(leaf={"damaged_frac": 1.0})
    assert sound.damage_cost_frac.p5 == sound.damage_cost_frac.p95 == 0
    assert damaged.damage_cost_frac.p5 < 0 < damaged.damage_cost_frac.p50 < damaged.damage_cost_frac.p95 < 0.5


def test_a_late_picking_holds_less_and_no_date_is_wider() -> None:
    def season(**fields: object) -> tuple[float, float]:
        found = next(e.factor for e in answer(plant="japanese_indigo", **fields).effects if e.name == "season")
        return found.p5, found.p50

    assert season(picked_on="2026-10-20")[1] < 0.75 < season(picked_on="2026-08-10")[1]
    assert season(picked_on=None)[0] < season(picked_on="2026-08-10")[0]


def test_seasons_are_half_a_year_apart_in_the_south() -> None:
    north = answer(picked_on="2026-07-09").potential_g.p50
    south = answer(picked_on="2026-01-08", hemisphere="south").potential_g.p50
    assert south == pytest.approx(north, rel=0.01)


def test_the_year_is_a_circle() -> None:
    """Own hand: from day 190 to day 10 the short way is 180 days; to day 360, 170."""
    assert days_from_best("woad", day_of_year=10) == pytest.approx(180.0)
    assert days_from_best("woad", day_of_year=360) == pytest.approx(170.0)


def test_leaf_for_a_wanted_mass_is_the_inverse_of_what_is_got() -> None:
    found = answer(leaf_kg=1.0, wanted_g=10.0)
    assert found.leaf_for_wanted_kg is not None
    assert found.leaf_for_wanted_kg.p50 * found.realistic_g.p50 == pytest.approx(10.0, rel=0.02)
    assert answer().leaf_for_wanted_kg is None


def test_the_disagreement_of_the_sources_is_shown() -> None:
    found = answer().published_content
    assert max(f.high for f in found) > 10 * min(f.low for f in found)
    assert all(f.source and f.grade for f in found)


@pytest.mark.parametrize("plant", PLANTS)
def test_every_plant_has_published_contents(plant: Plant) -> None:
    assert PUBLISHED_CONTENT[plant]


@pytest.mark.parametrize(
    "fields",
    [{"leaf": {"held_h": 100.0}}, {"held_temp_c": 50.0}, {"picked_on": "2026-01-05"}],
    ids=["held long", "cooked", "winter"],
)
def test_outside_what_was_studied_the_answer_carries_a_caution(fields: dict[str, object]) -> None:
    assert [c.code for c in answer(**fields).cautions] == ["outside-range"]


def test_inside_what_was_studied_the_answer_is_clean_and_plain_json() -> None:
    found = answer(wanted_g=10.0)
    assert not found.cautions
    assert dump(found)["basis"] == "prior"


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"plant": "wode"}, "plant: 'wode' is not possible here; use one of 'woad'"),
        ({"leaf_kg": 0.0}, "leaf_kg: 0.0 is not possible here; it must be more than 0"),
        ({"leaf": {"damaged_frac": 30}}, "leaf.damaged_frac: 30 is not possible here; it must be at most 1"),
        ({"held_temp_c": -31.0}, "held_temp_c: .* at least -30"),
        ({"held_temp_c": 101.0}, "held_temp_c: .* at most 100"),
        ({"leaf_kg": float("nan")}, "leaf_kg"),
        ({"picked_on": "3 July"}, "picked_on"),
    ],
)
def test_impossible_input_is_refused_with_its_field(fields: dict[str, object], said: str) -> None:
    with pytest.raises(InputError, match=said):
        answer(**fields)


def test_leaf_that_may_have_lost_all_promises_no_mass_for_a_wanted_gram() -> None:
    found = answer(wanted_g=10.0, wilted=True, held_temp_c=40.0, leaf={"held_h": 900.0})
    assert found.leaf_for_wanted_kg is None
    assert "spent-leaf" in {c.code for c in found.cautions}
    assert "spent-leaf" not in {c.code for c in answer(wanted_g=10.0).cautions}
