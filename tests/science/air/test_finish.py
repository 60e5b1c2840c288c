"""The whole airing: practice, laws, advice, ammonia, cautions, bad input."""

import json
from typing import Any

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from bluewright.science.air.answer import AirAnswer
from bluewright.science.air.finish import airing
from bluewright.science.air.fumes import bubbled_off_per_h, surface_off_per_h
from bluewright.science.air.record import AirRecord
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read

LIQUOR = {"liquor_l": 20.0, "temp_c": 20.0, "ph": 9.5, "indigo_g_per_l": 0.12}
ONE = np.ones(1)


def answer(**fields: Any) -> AirAnswer:
    way = {} if {"pour", "whisk", "bubble", "paddle"} & set(fields) else {"whisk": {}}
    return airing(read(AirRecord, LIQUOR | way | fields), rng=np.random.default_rng(1), draws=2000)


# --- practice ------------------------------------------------------------------------------------------------------


def test_ten_to_thirty_minutes_of_vigorous_pouring_are_expected() -> None:
    """Common practice, no source: 10 to 30 minutes; a bucket of 10 L, a good fall, six pours a minute."""
    found = answer(liquor_l=10.0, pour={"height_m": 0.8, "pours_per_min": 6.0}, indigo_g_per_l=0.10, temp_c=22.0)
    assert found.needed_min.p5 < 10 < found.needed_min.p50 < 30 < found.needed_min.p95


def test_a_quarter_to_a_whole_hour_of_bubbling_is_expected() -> None:
    """Common practice, no source: 15 minutes when lively and the liquor thin, 60 with an ordinary pump."""
    lively = answer(bubble={"air_l_per_min": 25.0, "bubbles": "fine"}, indigo_g_per_l=0.08, temp_c=25.0, ph=10.0)
    assert lively.needed_min.p5 < 15 < lively.needed_min.p95
    ordinary = answer(bubble={"air_l_per_min": 8.0, "bubbles": "fine"})
    assert ordinary.needed_min.p5 < 60 < ordinary.needed_min.p95


def test_a_whisk_with_lime_takes_a_quarter_to_half_an_hour() -> None:
    """Common practice, no source: 15 to 30 minutes of whisking once lime is in."""
    found = answer(whisk={}, alkali="slaked_lime", ph=10.5)
    assert found.needed_min.p5 < 15
    assert found.needed_min.p95 > 30


# --- laws ----------------------------------------------------------------------------------------------------------


@settings(max_examples=15)
@given(flow=st.floats(1.0, 40.0), times=st.floats(1.2, 5.0), ph=st.floats(7.0, 11.0))
def test_more_air_is_done_sooner(flow: float, times: float, ph: float) -> None:
    little, much = (answer(bubble={"air_l_per_min": each}, ph=ph).needed_min for each in (flow, flow * times))
    assert much.p5 < little.p5
    assert much.p50 < little.p50
    assert much.p95 < little.p95


@pytest.mark.parametrize("kind", ["pour", "whisk", "paddle"])
def test_thin_air_is_slower(kind: str) -> None:
    low, high = (answer(**{kind: {}}, altitude_m=height) for height in (0.0, 2500.0))
    assert high.needed_min.p50 > low.needed_min.p50
    assert high.saturation_mg_per_l < low.saturation_mg_per_l


def test_cold_liquor_holds_more_oxygen_but_reacts_more_slowly() -> None:
    cold, warm = answer(temp_c=8.0), answer(temp_c=28.0)
    assert cold.saturation_mg_per_l > warm.saturation_mg_per_l
    assert cold.reaction_limited_min.p50 > warm.reaction_limited_min.p50


def test_more_alkali_speeds_the_reaction_not_the_air() -> None:
    """Common practice, no source: alkali speeds the conversion."""
    sour, alkaline = answer(ph=7.0), answer(ph=10.5)
    assert alkaline.needed_min.p50 < sour.needed_min.p50
    assert sour.held_back_by == "reaction"
    assert alkaline.held_back_by != "reaction"
    assert answer(bubble={"air_l_per_min": 3.0}, ph=10.5).held_back_by == "air"
    assert alkaline.air_limited_min.p50 == pytest.approx(sour.air_limited_min.p50, rel=0.35)


def test_stronger_liquor_takes_longer_and_wants_more_in_proportion() -> None:
    thin, strong = answer(indigo_g_per_l=0.1), answer(indigo_g_per_l=0.3)
    assert strong.demand_mg_per_l.p50 == pytest.approx(3 * thin.demand_mg_per_l.p50, rel=1e-3)
    assert strong.needed_min.p50 > thin.needed_min.p50


def test_minutes_needed_are_those_done_and_those_left() -> None:
    found = answer(done_min=10.0)
    assert found.needed_min.p95 == pytest.approx(10.0 + found.left_min.p95, abs=0.1)
    nothing = answer()
    assert nothing.needed_min == nothing.left_min


def test_pours_and_minutes_agree() -> None:
    """Own hand: at four pours a minute and forty pours done the clock stands at ten minutes."""
    found = answer(pour={}, liquor_l=10.0, done_min=10.0, done_pours=40)
    assert found.needed_pours is not None
    assert found.needed_pours.p50 == pytest.approx(4 * found.needed_min.p50, rel=0.01)


def test_counting_pours_alone_is_enough() -> None:
    found = answer(
        pour={"height_m": 0.6}, liquor_l=10.0, done_pours=60, readings=[{"after_pours": 60, "signs": {"foam": 1}}]
    )
    assert found.left_pours is not None
    assert found.left_pours.p50 > 0
    assert found.basis == "readings"


def test_readings_narrow_the_answer() -> None:
    seen = [{"after_min": 15.0, "signs": {"foam": 1, "liquor": 1}, "dissolved_oxygen_mg_l": 0.4}]
    blind, sighted = answer(done_min=15.0), answer(done_min=15.0, readings=seen)

    def width(found: AirAnswer) -> float:
        return found.needed_min.p95 / found.needed_min.p5

    assert width(sighted) < 0.7 * width(blind)
    assert blind.basis == "prior"
    assert sighted.basis == "readings"


def test_what_a_garden_taught_narrows_the_answer() -> None:
    taught = answer(learned={"kla_per_h": 18.0, "kla_sd_frac": 0.15, "demand_factor": 3.0, "demand_sd_frac": 0.15})
    blind = answer()
    assert taught.basis == "garden"
    assert taught.needed_min.p95 / taught.needed_min.p5 < 0.85 * blind.needed_min.p95 / blind.needed_min.p5


def test_forty_readings_leave_many_members_alive() -> None:
    readings = [
        {
            "after_min": float(minute),
            "dissolved_oxygen_mg_l": max(0.2, 0.4 * (minute - 20)),
            "signs": {"foam": min(3, minute // 8), "liquor": min(3, minute // 8)},
        }
        for minute in range(1, 41)
    ]
    found = answer(done_min=40.0, readings=readings)
    assert found.ess > 500
    assert found.advice == "stop"
    assert 10 < found.needed_min.p50 < 35


def test_the_same_seed_gives_the_same_answer() -> None:
    assert answer(done_min=5.0) == answer(done_min=5.0)


# --- advice --------------------------------------------------------------------------------------------------------


def test_advice_goes_from_going_on_to_looking_to_stopping() -> None:
    start = answer()
    assert start.advice == "go_on"
    assert start.look_again_min < start.left_min.p50
    middle = answer(done_min=22.0, readings=[{"after_min": 22.0, "signs": {"foam": 2, "liquor": 2}}])
    assert middle.advice == "look_again"
    end = answer(
        done_min=40.0,
        readings=[
            {"after_min": 15.0, "signs": {"foam": 1}, "dissolved_oxygen_mg_l": 0.3},
            {"after_min": 40.0, "signs": {"foam": 3, "liquor": 3}, "dissolved_oxygen_mg_l": 8.0},
        ],
    )
    assert end.advice == "stop"
    assert end.chance_done_frac > 0.9
    assert end.gain_in_10_min_frac < end.loss_in_10_min_frac
    assert end.left_min.p50 == 0


def test_going_on_too_long_costs_something_that_nobody_has_measured() -> None:
    lost = answer().overrun_loss_frac
    assert 0 < lost.p5 < lost.p50 < lost.p95 < 0.2
    assert lost.p95 / lost.p5 > 10, "a guess has a wide range"


def test_the_next_reading_is_ranked() -> None:
    found = answer(ph_sd=0.2).next_reading
    assert [each.narrows_frac for each in found] == sorted((each.narrows_frac for each in found), reverse=True)
    assert "ph" not in {each.reading for each in found}
    without = {key: value for key, value in LIQUOR.items() if key != "ph"} | {"whisk": {}}
    unread = airing(read(AirRecord, without), rng=np.random.default_rng(1), draws=2000)
    assert "ph" in {each.reading for each in unread.next_reading}
    assert unread.alkali_advice == "unknown"


# --- ammonia and pH ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("temp_c", "pct_per_h"), [(5.0, 0.11), (15.0, 0.30), (25.0, 0.66), (40.0, 1.6), (50.0, 2.5)])
def test_ammonia_carried_off_by_bubbles_as_worked(temp_c: float, pct_per_h: float) -> None:
    """Own hand, pH 9.5, 5 L/min in 20 L: 15 /h * K_aw * f, K_aw 2.66e-4 to 1.88e-3 and f 0.28 to 0.90 at 5 to 50 C."""
    found = bubbled_off_per_h(air_l_per_min=5.0, liquor_l=20.0, temp_c=temp_c, ph=9.5 * ONE)
    assert 100 * found[0] == pytest.approx(pct_per_h, rel=0.05)


@pytest.mark.parametrize(("temp_c", "pct_per_h"), [(5.0, 0.5), (15.0, 1.3), (25.0, 2.8), (40.0, 6.7), (50.0, 10.7)])
def test_ammonia_off_a_still_surface_as_worked(temp_c: float, pct_per_h: float) -> None:
    """Own hand, pH 9.5, film 5 mm/s, 0.07 m2 over 20 L: 3600 * 0.005 * 3.5 * K_aw * f."""
    found = surface_off_per_h(film_mm_per_s=5.0 * ONE, area_m2=0.07, liquor_l=20.0, temp_c=temp_c, ph=9.5 * ONE)
    assert 100 * found[0] == pytest.approx(pct_per_h, rel=0.06)


def test_ammonia_goes_faster_when_hot_and_stays_when_cold() -> None:
    cold, hot = (answer(alkali="ammonia", ammonia_mol=0.3, temp_c=temp_c) for temp_c in (10.0, 50.0))
    assert cold.ammonia_loss_per_h is not None and hot.ammonia_loss_per_h is not None
    assert hot.ammonia_loss_per_h.p50 > 5 * cold.ammonia_loss_per_h.p50
    assert cold.ammonia_loss_frac is not None and cold.ammonia_lost_mmol is not None
    assert cold.ammonia_lost_mmol.p50 == pytest.approx(300 * cold.ammonia_loss_frac.p50, rel=0.01)
    assert "ammonia-air" in {c.code for c in cold.cautions}
    assert answer().ammonia_loss_frac is None


@pytest.mark.parametrize(("ph", "advice"), [(8.2, "add_more"), (8.7, "watch"), (9.5, "enough")])
def test_a_low_ph_calls_for_alkali(ph: float, advice: str) -> None:
    found = answer(ph=ph)
    assert found.alkali_advice == advice
    assert ("ph-low" in {c.code for c in found.cautions}) == (ph < 9)


def test_a_falling_ph_is_said() -> None:
    falling = [{"after_min": 5.0, "ph": 9.8}, {"after_min": 25.0, "ph": 9.3}]
    steady = [{"after_min": 5.0, "ph": 9.5}, {"after_min": 25.0, "ph": 9.45}]
    assert "ph-falling" in {c.code for c in answer(done_min=25.0, readings=falling).cautions}
    assert "ph-falling" not in {c.code for c in answer(done_min=25.0, readings=steady).cautions}


# --- cautions and bad input ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"temp_c": 55.0}, "outside-range"),
        ({"temp_c": 55.0}, "scald"),
        ({"ph": 12.0}, "outside-range"),
        ({"ph": 12.0}, "ph-high"),
        ({"alkali": "lye"}, "alkaline-splash"),
        ({"liquor_l": 400.0}, "outside-range"),
        ({"liquor_l": 12.0, "pour": {"pour_l": 12.0}}, "lifting"),
        ({"pour": {"height_m": 5.0}}, "outside-range"),
    ],
)
def test_what_may_hurt_or_mislead_is_said(fields: dict[str, Any], code: str) -> None:
    assert code in {c.code for c in answer(**fields).cautions}


def test_an_ordinary_batch_is_answered_clean() -> None:
    assert answer(whisk={}).cautions == ()


WAYS_OF_AIRING = st.one_of(
    st.fixed_dictionaries(
        {
            "pour": st.fixed_dictionaries(
                {},
                optional={
                    "height_m": st.floats(0.01, 5.0),
                    "lip_width_m": st.floats(0.001, 5.0),
                    "flow_l_per_s": st.floats(0.01, 100.0),
                    "pours_per_min": st.floats(0.1, 100.0),
                },
            )
        }
    ),
    st.fixed_dictionaries({"whisk": st.fixed_dictionaries({"tool": st.sampled_from(["hand", "powered"])})}),
    st.fixed_dictionaries(
        {
            "bubble": st.fixed_dictionaries(
                {"air_l_per_min": st.floats(0.001, 10_000.0), "bubbles": st.sampled_from(["fine", "coarse"])}
            )
        }
    ),
    st.just({"paddle": {}}),
)


@settings(max_examples=60)
@given(
    way=WAYS_OF_AIRING,
    liquor_l=st.floats(0.01, 1e6),
    temp_c=st.floats(-2.0, 90.0),
    ph=st.none() | st.floats(2.0, 14.0),
    indigo_g_per_l=st.none() | st.floats(1e-4, 20.0),
    vessel_diameter_m=st.none() | st.floats(0.01, 100.0),
    done_min=st.floats(0.0, 1e5),
    foam=st.none() | st.integers(0, 3),
    oxygen=st.none() | st.floats(0.0, 3.0),
    alkali=st.sampled_from(["ammonia", "soda_ash"]),
)
def test_any_possible_record_is_answered_with_numbers(
    way: dict[str, Any], foam: int | None, oxygen: float | None, done_min: float, **fields: Any
) -> None:
    width_m = fields["vessel_diameter_m"]
    assume(width_m is None or fields["liquor_l"] / 1000.0 < 30.0 * width_m**2 * np.pi / 4.0)
    reading = {"after_min": done_min, "signs": {"foam": foam}, "dissolved_oxygen_mg_l": oxygen}
    record = read(AirRecord, way | fields | {"done_min": done_min, "readings": [reading]})
    found = airing(record, rng=np.random.default_rng(1), draws=200)
    json.dumps(dump(found), allow_nan=False)
    assert 0 <= found.left_min.p5 <= found.left_min.p50 <= found.left_min.p95
    assert 0 <= found.chance_done_frac <= 1
    assert 0 <= found.done_frac.p5 <= found.done_frac.p95 <= 1


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        (
            {"whisk": {}, "liquor_l": 1000.0, "vessel_diameter_m": 0.01},
            r"vessel_diameter_m: 1000 L would stand 1.3e\+04 m deep in it; give the inner width in metres",
        ),
        ({"whisk": {}, "pour": {}}, r"whisk: pour and whisk are given; give exactly one"),
        ({"whisk": {}, "done_pours": 3}, r"done_pours: this batch is aired by whisk; use done_min"),
        ({"indigo_g": 2.0}, r"indigo_g_per_l: indigo_g is given too"),
        ({"indigo_sd_g": 1.0}, r"indigo_sd_g: it belongs to indigo_g"),
        ({"ammonia_mol": 1.0}, r"ammonia_mol: ammonia is given, but the alkali is unknown"),
        ({"pour": {"pour_l": 30.0}}, r"pour.pour_l: 30 L is more than the liquor; at most 20 L"),
        ({"pour": {"pour_s": 5.0, "flow_l_per_s": 1.0}}, r"pour.flow_l_per_s: pour_s is given too"),
        ({"pour": {"pour_s": 20.0, "pours_per_min": 6.0}}, r"pour.pours_per_min: 6 pours of 20 s do not fit"),
        ({"done_min": 5.0, "readings": [{"after_min": 9.0}]}, r"readings\[0\].after_min: 9 is after now"),
        ({"done_min": 9.0, "readings": [{"after_min": 9.0}, {"after_min": 5.0}]}, r"readings\[1\].*earlier than"),
        ({"readings": [{"ph": 9.0}]}, r"readings\[0\].after_min: a reading needs either"),
        ({"readings": [{"after_min": 0.0, "signs": {"foam": 4}}]}, r"readings\[0\].signs.foam: 4 .* at most 3"),
        (
            {"readings": [{"after_min": 0.0, "dissolved_oxygen_mg_l": 40.0}]},
            r"dissolved_oxygen_mg_l: 40 mg/L is more than this liquor can hold",
        ),
        (
            {"bubble": {"air_l_per_min": 3.0, "depth_m": 1.0}, "vessel_diameter_m": 0.3},
            r"bubble.depth_m: 20 L in this vessel stand only 0.28 m deep",
        ),
        ({"pour": {}, "done_min": 5.0, "done_pours": 0}, r"done_pours: 0 pours in 5 minutes"),
        ({"temp_c": 95.0, "altitude_m": 5000.0}, r"temp_c: water boils at 95 C and 54"),
        ({"ph": 15.0}, r"ph: 15.0 is not possible here; it must be at most 14"),
        ({"liquor_l": 0.0}, r"liquor_l: 0.0 is not possible here; it must be more than 0"),
        ({"bubble": {}}, r"bubble.air_l_per_min: this field is missing"),
        ({"stir": {}}, r"stir: there is no such field"),
    ],
)
def test_impossible_records_are_refused_by_name(fields: dict[str, Any], message: str) -> None:
    with pytest.raises(InputError, match=message):
        answer(**fields)


def test_grams_mistaken_for_milligrams_are_noticed() -> None:
    given = {"liquor_l": 20.0, "temp_c": 20.0, "whisk": {}, "indigo_g": 2400.0}
    with pytest.raises(InputError, match=r"indigo_g: 2400 g in 20 L is 120 g/L; .* is it milligrams"):
        read(AirRecord, given)


def test_no_way_of_airing_is_refused() -> None:
    with pytest.raises(InputError, match=r"pour: no way of airing is given"):
        read(AirRecord, LIQUOR)
