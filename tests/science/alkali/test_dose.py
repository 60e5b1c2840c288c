"""The dose: laws, practice, limits, and what a jar and readings of the tub do to it."""

import re
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.alkali.dose import dose, titration
from bluewright.science.alkali.record import LiquorRecord
from bluewright.science.base.errors import ModelError
from bluewright.science.base.records import dump, read
from bluewright.science.media.calcite import lime_water_ph
from tests.science.alkali.liquors import JAR, STEPS, answer, record, truth

ALKALIS: dict[str, dict[str, Any]] = {
    "ammonia": {"kind": "ammonia", "percent_w_w": 5.0},
    "soda_ash": {"kind": "soda_ash"},
    "washing_soda": {"kind": "washing_soda"},
    "potash": {"kind": "potash"},
    "lye": {"kind": "lye"},
    "lye solution": {"kind": "lye", "percent_w_w": 10.0},
    "potassium_lye": {"kind": "potassium_lye"},
    "slaked_lime": {"kind": "slaked_lime"},
    "ash_lye": {"kind": "ash_lye", "mol_per_l": 0.2},
}
EVERY_ALKALI = pytest.mark.parametrize("alkali", ALKALIS.values(), ids=ALKALIS)
FEW = settings(max_examples=12, deadline=None)


def codes(found: Any) -> set[str]:
    return {caution.code for caution in (*found.cautions, *found.limits)}


@EVERY_ALKALI
def test_the_middle_dose_gives_the_target(alkali: dict[str, Any]) -> None:
    found = answer(alkali=alkali)
    assert found.dose.p5 < found.dose.p50 < found.dose.p95
    assert found.ph_after.p5 < 9.5 < found.ph_after.p95
    assert found.ph_after.p50 == pytest.approx(9.5, abs=0.02)
    assert found.ph_if_doubled.p50 > found.ph_after.p50
    assert 0.0 < found.first_part < found.dose.p50


@EVERY_ALKALI
@FEW
@given(low=st.floats(7.5, 10.2), more=st.floats(0.1, 0.6))
def test_a_higher_target_takes_more(alkali: dict[str, Any], low: float, more: float) -> None:
    below, above = (answer(alkali=alkali, target_ph=ph).dose for ph in (low, low + more))
    assert (below.p5, below.p50, below.p95) < (above.p5, above.p50, above.p95)


@EVERY_ALKALI
def test_the_dose_is_proportional_to_the_volume(alkali: dict[str, Any]) -> None:
    one, ten = (answer(alkali=alkali, liquor_l=litres).dose for litres in (7.0, 70.0))
    assert ten.p50 == pytest.approx(10 * one.p50, rel=0.01)
    assert ten.p95 == pytest.approx(10 * one.p95, rel=0.01)


def test_the_same_record_and_seed_give_the_same_answer() -> None:
    assert dump(answer(jar=JAR)) == dump(answer(jar=JAR))


def test_a_bottle_twice_as_strong_takes_half() -> None:
    """Own hand: 10 % is 5.630 mol/L, 5 % 2.871 (`ammonia_mol_per_l`): 0.51 of the millilitres."""
    weak, strong = (answer(alkali={"kind": "ammonia", "percent_w_w": w}).dose.p50 for w in (5.0, 10.0))
    assert strong / weak == pytest.approx(2.871 / 5.630, rel=0.02)


def test_a_label_in_ammonium_hydroxide_takes_twice_and_an_opened_bottle_more() -> None:
    plain = answer().dose.p50
    old_name = answer(alkali={"kind": "ammonia", "percent_w_w": 5.0, "label_as": "nh4oh"}).dose.p50
    opened = answer(alkali={"kind": "ammonia", "percent_w_w": 5.0, "opened": True}).dose
    assert old_name == pytest.approx(plain / 0.486, rel=0.05)
    assert opened.p50 > 1.05 * plain


def test_washing_soda_weighs_more_than_soda_ash() -> None:
    """Own hand: 286.14 / 105.99 = 2.700 as crystals; a tenth of its water lost in the cupboard: 2.700 * 0.98 / 1.10."""
    ash, crystals = (answer(alkali={"kind": kind}).dose.p50 for kind in ("soda_ash", "washing_soda"))
    assert crystals / ash == pytest.approx(2.700 * 0.98 / 1.10, rel=0.02)


def test_stronger_liquor_and_harder_water_take_more() -> None:
    """Common practice, no source."""
    assert answer(leaf_kg=5.0).dose.p50 > 1.3 * answer(leaf_kg=2.0).dose.p50
    soft, hard = (
        answer(water={"alkalinity_mg_caco3_l": mg, "hardness_mg_caco3_l": 1.2 * mg}).dose.p50 for mg in (20, 350)
    )
    assert hard > 1.3 * soft


def test_warm_liquor_takes_more_ammonia_but_hardly_more_lye() -> None:
    """Published by the pK of ammonia (Bates & Pinching 1949): two and more times as much at 40 C as at 20 C."""
    cold, warm = (answer(temp_c=t).dose.p50 for t in (20.0, 40.0))
    assert 1.8 < warm / cold < 3.5
    cold, warm = (answer(temp_c=t, alkali={"kind": "lye"}).dose.p50 for t in (20.0, 40.0))
    assert warm / cold < 1.4


def test_ammonia_forgives_an_overdose_and_lye_does_not() -> None:
    """Common practice, no source: twice the ammonia is some third of a pH, twice the lye leaves every buffer."""
    ammonia, lye = (answer(jar=None, alkali=ALKALIS[kind]) for kind in ("ammonia", "lye"))
    assert 0.2 < ammonia.ph_if_doubled.p50 - 9.5 < 0.6
    assert lye.ph_if_doubled.p50 > 11.0
    assert "overdose" in codes(lye) and "overdose" not in codes(ammonia)


def test_the_first_part_of_an_uncertain_lye_dose_is_smaller() -> None:
    """Two thirds of ammonia; of lye never more than what is already enough in one liquor of twenty."""
    ammonia, lye = answer(), answer(alkali={"kind": "lye"})
    assert ammonia.first_part == pytest.approx(ammonia.dose.p50 * 2 / 3, rel=0.01)
    assert lye.first_part == pytest.approx(min(lye.dose.p5, lye.dose.p50 * 2 / 3), rel=0.01)


def test_lime_leaves_chalk_and_rain_water_does_not() -> None:
    lime = answer(alkali={"kind": "slaked_lime"})
    assert 0.0 < lime.calcite_g.p5 < lime.calcite_g.p50 < lime.calcite_g.p95
    assert "chalk-in-pigment" in codes(lime)
    rain = answer(water={"alkalinity_mg_caco3_l": 5, "hardness_mg_caco3_l": 5})
    assert rain.calcite_g.p95 < 0.05
    assert "chalk-in-pigment" not in codes(rain)


def test_chalk_is_never_more_than_the_calcium_or_the_carbonate_allow() -> None:
    """Own hand: 180 mg/L hardness, 0.8 of it calcium, as chalk in 20 L (+ 5 % sd): 2.88 g, 3.3 at the most."""
    assert answer(target_ph=11.0, alkali={"kind": "lye"}).calcite_g.p95 < 3.3


@given(ph_sd=st.floats(0.05, 0.4))
@settings(max_examples=8, deadline=None)
def test_a_jar_narrows_the_dose(ph_sd: float) -> None:
    without, with_jar = answer(ph_sd=ph_sd).dose, answer(ph_sd=ph_sd, jar=JAR).dose
    assert with_jar.p95 / with_jar.p5 < without.p95 / without.p5


def test_a_better_instrument_narrows_the_dose() -> None:
    meter, strip = (answer(ph_sd=sd, jar=JAR).dose for sd in (0.05, 0.4))
    assert meter.p95 / meter.p5 < strip.p95 / strip.p5


def test_a_lye_jar_foretells_the_ammonia_dose() -> None:
    """Law: what the liquor takes up does not depend on what it is titrated with: two jars of one liquor agree."""
    ratios = []
    for seed in range(6):
        doses = []
        for alkali in ({"kind": "lye", "percent_w_w": 2.0}, ALKALIS["ammonia"]):
            tub = truth(np.random.default_rng(seed), ph_sd=0.05, alkali=alkali)
            jar = tub.jar(steps=6) | {"alkali": alkali}
            found = dose(
                record(**(tub.fields | {"alkali": ALKALIS["ammonia"], "jar": jar})), rng=np.random.default_rng(1)
            )
            doses.append(found.dose.p50)
        ratios.append(doses[0] / doses[1])
    assert np.median(ratios) == pytest.approx(1.0, abs=0.1)
    assert all(0.7 < ratio < 1.4 for ratio in ratios)


def test_an_unlabelled_bottle_is_as_good_as_a_labelled_one_once_it_has_titrated_the_jar() -> None:
    """The strength cancels: the same bottle goes into jar and tub."""
    known, unknown = (answer(jar=JAR, alkali=alkali).dose for alkali in (ALKALIS["ammonia"], {"kind": "ammonia"}))
    assert unknown.p50 == pytest.approx(known.p50, rel=0.15)
    blind = answer(alkali={"kind": "ammonia"})
    assert unknown.p95 / unknown.p5 < 0.6 * blind.dose.p95 / blind.dose.p5
    assert "no-strength" in codes(blind)


def test_a_warm_jar_is_corrected_to_the_cold_tub() -> None:
    """A jar in the kitchen at 25 C shows a lower pH for the same ammonia: the cold tub needs less than it seems."""
    same, kitchen = answer(jar=JAR, ph_sd=0.05), answer(jar=JAR | {"temp_c": 25.0}, ph_sd=0.05)
    assert kitchen.dose.p50 < 0.9 * same.dose.p50
    assert "temperature-differs" in codes(kitchen) and "temperature-differs" not in codes(same)


def test_each_reading_of_the_tub_corrects_the_rest() -> None:
    first = answer()
    part = first.first_part
    low, high = (answer(added_so_far=[{"added_ml": part, "ph": ph}]) for ph in (8.3, 9.3))
    assert low.dose.p50 > 2 * high.dose.p50
    assert low.basis == "readings" and first.basis == "prior"
    assert low.dose.p95 / low.dose.p5 < 10


def test_a_tub_past_the_target_wants_no_more() -> None:
    found = answer(added_so_far=[{"added_ml": 50.0, "ph": 9.4}, {"added_ml": 150.0, "ph": 10.3}])
    assert found.dose.p50 == 0.0 and found.first_part == 0.0
    assert found.ph_after.p50 > 9.8
    assert "past-target" in codes(found)


def test_readings_that_cannot_be_are_said_to_disagree() -> None:
    odd = JAR | {"steps": [*STEPS[:2], {"added_ml": 2.0, "ph": 6.0}, STEPS[3]]}
    assert "readings-disagree" in codes(answer(jar=odd, ph_sd=0.1))
    assert "readings-disagree" not in codes(answer(jar=JAR, ph_sd=0.2))


def test_when_readings_disagree_the_last_one_of_the_tub_counts() -> None:
    found = answer(added_so_far=[{"added_ml": 50.0, "ph": 7.0}, {"added_ml": 60.0, "ph": 9.6}], ph_sd=0.1)
    assert "readings-disagree" in codes(found)
    assert found.dose.p50 < 20.0


def test_amounts_in_the_wrong_unit_are_not_answered() -> None:
    """5 L of ammonia in half a litre: litres were typed for millilitres."""
    with pytest.raises(ModelError, match="no liquor like those that are known could show these readings"):
        answer(jar={"sample_ml": 500, "steps": [{"added_ml": 5000.0, "ph": 9.0}]})


def test_nothing_but_the_volume_is_still_answered_widely() -> None:
    bare = answer(ph=None, temp_c=None, water={})
    assert bare.dose.p95 / bare.dose.p5 > answer().dose.p95 / answer().dose.p5
    assert {"no-jar", "no-temperature", "no-ph"} <= codes(bare)


def test_soda_cannot_reach_what_lye_can() -> None:
    with pytest.raises(ModelError, match=r"soda ash as given cannot bring this liquor to pH 12.*another alkali"):
        answer(target_ph=12.0, alkali={"kind": "soda_ash"})
    assert "soda-ceiling" in codes(answer(alkali={"kind": "soda_ash"}))
    assert answer(target_ph=12.0, alkali={"kind": "lye"}).ph_after.p50 == pytest.approx(12.0, abs=0.05)


def test_a_dry_carbonate_is_told_how_much_water_dissolves_it() -> None:
    """Published: 21.5 g of soda dissolve in 100 g at 20 C (handbooks), so 215 g in a litre."""
    found = answer(alkali={"kind": "soda_ash"})
    (limit,) = (limit for limit in found.limits if limit.code == "dissolve-first")
    told = re.search(r"at least ([\d.]+) L", limit.text)
    assert told and float(told[1]) == pytest.approx(found.dose.p50 / 215, rel=0.05)


def test_weak_ammonia_cannot_reach_a_high_target() -> None:
    with pytest.raises(ModelError, match="ammonia as given cannot bring this liquor to pH 12"):
        answer(target_ph=12.0)


def test_too_much_lime_stands_at_the_ph_of_lime_water() -> None:
    found = answer(target_ph=12.0, alkali={"kind": "slaked_lime"})
    assert found.ph_if_doubled.p95 <= lime_water_ph(18.0) + 0.01


def test_lime_stops_at_lime_water() -> None:
    """Published: saturated lime water is pH 12.45 at 25 C (a pH standard of NIST); here within 0.1."""
    assert lime_water_ph(25.0) == pytest.approx(12.45, abs=0.1)
    with pytest.raises(ModelError, match=r"slaked lime cannot reach pH 12.6 at 25 C: saturated lime water"):
        answer(target_ph=12.6, temp_c=25.0, alkali={"kind": "slaked_lime"})
    assert "lime-solubility" in codes(answer(alkali={"kind": "slaked_lime"}))


@pytest.mark.parametrize(
    "fields", [{"ph": 3.5}, {"temp_c": 60.0}, {"target_ph": 11.8, "alkali": {"kind": "lye"}}], ids=str
)
def test_outside_what_was_studied_it_answers_with_a_caution(fields: dict[str, Any]) -> None:
    assert "outside-range" in codes(answer(**fields))
    assert "outside-range" not in codes(answer())


@FEW
@given(
    liquor_l=st.floats(0.1, 1e5),
    temp_c=st.floats(0.0, 60.0),
    ph=st.floats(3.0, 8.5),
    target_ph=st.floats(8.6, 10.0),
    alkalinity=st.floats(0.0, 800.0),
    hardness=st.floats(0.0, 1500.0),
    kind=st.sampled_from(sorted(ALKALIS)),
)
def test_every_possible_tub_is_answered_in_plain_numbers(
    liquor_l: float, temp_c: float, ph: float, target_ph: float, alkalinity: float, hardness: float, kind: str
) -> None:
    water = {"alkalinity_mg_caco3_l": alkalinity, "hardness_mg_caco3_l": hardness}
    found = answer(liquor_l=liquor_l, temp_c=temp_c, ph=ph, target_ph=target_ph, water=water, alkali=ALKALIS[kind])
    assert 0 <= found.dose.p5 <= found.dose.p50 <= found.dose.p95 < np.inf
    assert 0 <= found.calcite_g.p5 <= found.calcite_g.p95 < np.inf


def test_the_titration_passes_the_wanted_ph_where_the_dose_says() -> None:
    """The curve and the dose come from the same possible liquors."""
    tub = record()
    found = dose(tub, rng=np.random.default_rng(1))
    along = titration(tub, until_amount=2 * found.dose.p50, rng=np.random.default_rng(1))
    assert along[0].p50 == pytest.approx(tub.ph, abs=0.3)
    assert all(before.p50 < after.p50 for before, after in pairwise(along))
    at = [point.at for point in along]
    assert np.interp(found.dose.p50, at, [p.p50 for p in along]) == pytest.approx(tub.target_ph, abs=0.05)
    assert np.interp(2 * found.dose.p50, at, [p.p50 for p in along]) == pytest.approx(found.ph_if_doubled.p50, abs=0.05)


@pytest.mark.parametrize("kind", ["potash", "washing_soda", "soda_ash"])
def test_a_target_far_beyond_a_carbonate_is_refused_without_overflow(kind: str) -> None:
    with pytest.raises(ModelError, match=r"cannot bring this liquor to pH 13"):
        answer(liquor_l=1e6, alkali={"kind": kind}, target_ph=13.0, ph=None)


def test_the_fullest_record_is_answered_with_every_field() -> None:
    """The record and the answer as they were agreed for scripts, field by field; the figures are of the same make."""
    text = """{"version": 1, "liquor_l": 38.0, "temp_c": 17.0, "ph": 5.6, "target_ph": 9.5,
     "alkali": {"kind": "ammonia", "percent_w_w": 9.5},
     "water": {"alkalinity_mg_caco3_l": 180, "hardness_mg_caco3_l": 240},
     "jar": {"sample_ml": 500, "temp_c": 17.0, "alkali": {"kind": "ammonia", "percent_w_w": 9.5},
              "steps": [{"added_ml": 0.5, "ph": 7.2}, {"added_ml": 1.0, "ph": 8.4}]},
     "ph_sd": 0.2, "room": {"volume_m3": 30, "air_changes_per_h": 2}, "seed": 1}"""
    found = dump(dose(read(LiquorRecord, text), rng=np.random.default_rng(1)))
    assert set(found["dose"]) == {"unit", "p5", "p50", "p95"}
    for band in ("ph_after", "ph_if_doubled", "calcite_g", "ammonia_room_ppm"):
        assert found[band]["p5"] <= found[band]["p50"] <= found[band]["p95"]
    assert {"first_part", "limits", "cautions", "sources", "inputs", "basis"} <= set(found)
    assert found["ph_after"]["p50"] == pytest.approx(9.5, abs=0.05)
    assert found["first_part"] < found["dose"]["p50"]


def test_the_sources_are_those_that_this_dose_rests_on() -> None:
    """A solution rests on the density of its label, a dry alkali on how much of it dissolves, soda on no lime."""
    label, solid = answer(alkali=ALKALIS["lye solution"]).sources, answer(alkali=ALKALIS["lye"]).sources
    assert "laliberte-2009" in label and "laliberte-2009" not in solid
    assert "seidell-1940" in answer(alkali=ALKALIS["slaked_lime"]).sources and "seidell-1940" not in solid
    assert {"sander-2023", "laliberte-2009"} <= set(answer(alkali=ALKALIS["ammonia"]).sources)
