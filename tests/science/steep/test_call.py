"""The strain call as a whole: records in, answers out."""

import json
from datetime import datetime, timedelta
from importlib import resources
from itertools import pairwise

import numpy as np
import pytest

from bluewright.science import thread
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read
from bluewright.science.steep import call
from bluewright.science.steep.answer import SteepAnswer
from bluewright.science.steep.record import SteepRecord

EXAMPLE = json.loads(resources.files("bluewright").joinpath("examples", "steep-call.json").read_text("utf-8"))
START = datetime.fromisoformat(EXAMPLE["started"])


def later(hours: float) -> str:
    return (START + timedelta(hours=hours)).isoformat()


def ask(members: int = 600, seed: int = 1, **fields: object) -> SteepAnswer:
    rec = read(SteepRecord, EXAMPLE | fields)
    return call.answer(thread.begin_steep(rec, rng=np.random.default_rng(seed), members=members))


def width(found: SteepAnswer) -> float:
    """How far apart the ends of the band of the share of the best are."""
    return found.frac_of_best_now.p95 - found.frac_of_best_now.p5


def test_the_documented_example_is_answered_with_every_field_of_the_contract() -> None:
    found = dump(ask())
    expected = {
        "version", "id", "advice", "strain_at", "look_again_at", "window", "recoverable_g", "frac_of_best_now",
        "chance_past_peak", "options", "next_reading", "curve", "ess", "cautions", "sources",
    }  # fmt: skip
    assert expected <= set(found)
    assert set(found["window"]) == {"from", "to"}
    assert set(found["recoverable_g"]) == {"now", "best"}
    assert found["id"] == "tub-3"
    assert found["advice"] in {"strain", "wait", "strain_past_peak"}
    clock = datetime.fromisoformat(found["strain_at"])
    assert (clock.hour, clock.minute) in {(8, 0), (18, 0)}
    assert found["strain_at"].endswith("+01:00")


def test_the_same_seed_gives_the_same_answer_and_another_seed_nearly_so() -> None:
    assert ask(seed=3) == ask(seed=3)
    one, other = ask(members=2000, seed=3), ask(members=2000, seed=4)
    assert one.frac_of_best_now.p50 == pytest.approx(other.frac_of_best_now.p50, abs=0.03)
    assert one.recoverable_g.best.p50 == pytest.approx(other.recoverable_g.best.p50, rel=0.15)


def test_with_nothing_but_leaf_and_water_it_still_answers_widely() -> None:
    bare = ask(readings=[], temps=[], leaf={}, tub={}, can_strain=None)
    assert bare.basis == "prior"
    assert "no-temperature" in {c.code for c in bare.cautions}
    assert width(bare) > width(ask())
    assert bare.ess == 600


def test_readings_narrow_the_forecast() -> None:
    looks = [
        {"time": later(h), "signs": {"bubbles": b, "limpness": limp, "blue_cast": cast, "smell": 0}, "temp_c": 16.0}
        for h, b, limp, cast in [(20, 0, 1, 1), (31, 1, 2, 2), (44, 1, 2, 2)]
    ]
    assert width(ask(readings=looks)) < width(ask(readings=[]))


def test_a_warmer_tub_is_ready_sooner() -> None:
    cool, warm = (
        ask(temps=[{"time": later(h), "where": "tub", "temp_c": t} for h in (0, 12, 24, 36, 44)]) for t in (12.0, 22.0)
    )
    assert warm.strain_at < cool.strain_at
    assert warm.chance_past_peak > cool.chance_past_peak


def test_foul_and_frothing_means_past_the_peak_and_crisp_and_clear_means_wait() -> None:
    foul = {"bubbles": 3, "scum": 3, "limpness": 3, "darkness": 3, "smell": 3}
    crisp = {"bubbles": 0, "scum": 0, "limpness": 0, "darkness": 0, "smell": 0, "blue_cast": 0}
    late, early = (
        ask(readings=[{"time": later(40), "signs": signs}, {"time": later(44), "signs": signs}])
        for signs in (foul, crisp)
    )
    assert late.chance_past_peak > 0.5
    assert late.advice == "strain_past_peak"
    assert early.advice == "wait"
    assert early.chance_past_peak < 0.05


def test_a_falling_jar_index_says_that_the_peak_is_past() -> None:
    """A photo of a jar made alkaline is the best single reading: its fall is the fall of the blue."""
    rising = [{"time": later(h), "dye_index": d} for h, d in [(12, 0.1), (22, 0.25), (32, 0.4), (44, 0.55)]]
    falling = [{"time": later(h), "dye_index": d} for h, d in [(12, 0.5), (22, 0.55), (32, 0.35), (44, 0.2)]]
    assert ask(readings=falling).chance_past_peak > 0.6
    assert ask(readings=rising).chance_past_peak < 0.2


@pytest.mark.parametrize(("method", "hours", "temp_c"), [("hot", 0.1, 80.0), ("warm", 8.0, 35.0)])
def test_warm_and_hot_steeps_are_told_in_their_own_time(method: str, hours: float, temp_c: float) -> None:
    """Common practice: about ten minutes at 80 C, under a day at 35 C."""
    temps = [{"time": later(0), "where": "tub", "temp_c": temp_c}]
    found = ask(method=method, now=later(hours), readings=[], temps=temps, leaf={"cut": "torn"}, can_strain=None)
    opens_h = (found.window.from_ - START).total_seconds() / 3600
    closes_h = (found.window.to - START).total_seconds() / 3600
    low, high = {"hot": (1 / 60, 1.0), "warm": (2.0, 40.0)}[method]
    assert low < opens_h < closes_h < high
    codes = {c.code for c in found.cautions}
    assert ("scald" in codes) == (method == "hot")
    assert ("fermentation-gas" in codes) == (method != "hot"), "minutes in hot water do not ferment"


def test_grams_follow_the_leaf() -> None:
    one, two = ask(leaf_kg=3.0, water_l=20.0), ask(leaf_kg=6.0, water_l=40.0)
    assert two.recoverable_g.best.p50 == pytest.approx(2 * one.recoverable_g.best.p50, rel=0.15)


def test_the_curve_is_a_band_from_nothing_to_past_the_window() -> None:
    found = ask()
    assert found.curve[0].p95 == 0
    assert all(p.p5 <= p.p50 <= p.p95 for p in found.curve)
    assert found.curve[-1].time > found.window.to
    assert [p.time for p in found.curve] == [p.time for p in found.temp_curve_c]


def test_the_best_of_a_slow_tub_is_foretold_beyond_the_usual_hours_and_drawn_to_there() -> None:
    """Crisp and pale after two and a half days: leaf that dies slowly has its best at up to twice the usual hour."""
    fresh = {"limpness": 0, "blue_cast": 0, "bubbles": 0, "alkali_green": 1}
    slow = ask(400, now=later(60), readings=[{"time": later(h), "signs": fresh} for h in (30, 60)])
    ends_h = (slow.curve[-1].time - START) / timedelta(hours=1)
    assert slow.best_h.p50 > 120
    assert slow.best_h.p95 > 1.5 * slow.best_h.p50  # not cut off where the hours of a usual tub end
    assert slow.best_h.p95 < 0.9 * ends_h
    apart = max(after.time - one.time for one, after in pairwise(slow.temp_curve_c))
    assert apart < timedelta(hours=8), "day and night are drawn"
    assert (ask(400).curve[-1].time - START) / timedelta(hours=1) < 150


def test_the_next_reading_is_never_one_just_taken_and_never_worth_less_than_nothing() -> None:
    signs = {"bubbles": 1, "limpness": 1}
    found = ask(readings=[{"time": EXAMPLE["now"], "signs": signs, "ph": 6.5}])
    offered = {r.reading for r in found.next_reading}
    assert not offered & {"bubbles", "limpness", "ph"}
    assert all(r.expected_gain_frac >= 0 for r in found.next_reading)
    gains = [r.expected_gain_frac for r in found.next_reading]
    assert gains == sorted(gains, reverse=True)


def test_what_the_garden_taught_moves_the_forecast() -> None:
    quick = {"version": 1, "moves": {"kill_25c_per_h": {"centre_z": 1.5, "spread_z": 0.4}}}
    assert ask(readings=[], garden=quick).basis == "garden"
    assert ask(readings=[], garden=quick).chance_past_peak > ask(readings=[]).chance_past_peak


def test_forty_readings_do_not_collapse_the_ensemble() -> None:
    looks = [
        {"time": later(h), "ph": round(7.0 - h / 60, 1), "temp_c": 16.5,
         "signs": {"bubbles": min(2, int(h / 20)), "limpness": min(3, int(h / 14)), "blue_cast": min(2, int(h / 12))}}
        for h in np.linspace(2, 44, 40)
    ]  # fmt: skip
    assert ask(members=1000, readings=looks).ess > 500


def test_a_sign_that_does_not_fit_is_named() -> None:
    looks = [{"time": later(h), "signs": {"limpness": 0, "smell": 0}} for h in (10, 20, 30)]
    odd = {"time": later(44), "signs": {"limpness": 0, "smell": 3}}
    found = ask(readings=[*looks, odd])
    assert any("smell 3" in c.text for c in found.cautions if c.code == "surprising-reading")


# --- one reading more --------------------------------------------------------------------------------------------

LOOKS = [{"time": later(h), "signs": {"limpness": 1 + (h > 25), "bubbles": 1}, "ph": 6.5} for h in (15.0, 31.0)]
NEW = {"time": later(44), "signs": {"limpness": 2, "blue_cast": 2}, "ph": 6.3, "temp_c": 16.0}


def test_one_reading_more_on_a_kept_ensemble_agrees_with_starting_afresh() -> None:
    before = read(SteepRecord, EXAMPLE | {"readings": LOOKS})
    after = read(SteepRecord, EXAMPLE | {"readings": [*LOOKS, NEW]})
    kept = thread.begin_steep(before, rng=np.random.default_rng(1))
    grown, found = thread.next_strain_call(kept, after, rng=np.random.default_rng(2))
    fresh = thread.strain_call(after, rng=np.random.default_rng(3))
    assert grown.setting.record == after
    assert grown.setting.temps_known == 2, "the kept paths stayed; the new temperature came in as a reading"
    assert found.chance_past_peak == pytest.approx(fresh.chance_past_peak, abs=0.08)
    assert found.frac_of_best_now.p50 == pytest.approx(fresh.frac_of_best_now.p50, abs=0.04)


def test_a_changed_past_starts_afresh() -> None:
    before = read(SteepRecord, EXAMPLE | {"readings": LOOKS})
    changed = read(SteepRecord, EXAMPLE | {"readings": [LOOKS[0] | {"ph": 5.0}, LOOKS[1], NEW]})
    kept = thread.begin_steep(before, rng=np.random.default_rng(1), members=300)
    grown, _ = thread.next_strain_call(kept, changed, rng=np.random.default_rng(2))
    assert grown.setting.temps_known == 3


# --- what is refused ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"plant": "spinach"}, r"plant: 'spinach' is not possible here; use one of 'woad'"),
        ({"leaf_kg": 0}, r"leaf_kg: 0 is not possible here; it must be more than 0"),
        ({"readings": [{"time": later(5), "ph": 15}]}, r"readings\[0\]\.ph: 15 .* at most 14"),
        ({"readings": [{"time": later(5), "signs": {"scum": 4}}]}, r"readings\[0\]\.signs\.scum: 4 .* at most 3"),
        ({"readings": [{"time": later(5)}, {"time": later(4)}]}, r"readings\[1\]\.time: it is earlier"),
        ({"readings": [{"time": later(90)}]}, r"readings\[0\]\.time: .* is after now"),
        ({"readings": [{"time": later(-1)}]}, r"readings\[0\]\.time: .* before the steep started"),
        ({"now": later(-1)}, r"now: .* before the steep started"),
        ({"temps": [{"time": later(90), "where": "air", "temp_c": 20}]}, r"temps\[0\]\.time: .* still to come"),
        ({"temps": [{"time": later(0), "where": "barn", "temp_c": 20}]}, r"temps\[0\]\.where: 'barn'"),
        ({"can_strain": ["8 am"]}, r"can_strain\[0\]: '8 am' is not a time of day; write it like 08:00"),
        ({"started": "yesterday"}, r"started: 'yesterday' is not a time"),
        ({"started": "2026-07-03T11:00"}, r"started: .* offset"),
        ({"leaf_lb": 3}, r"leaf_lb: there is no such field"),
        ({"water_l": "40 qt"}, r"water_l: '40 qt' is not possible here; give a bare number"),
        ({"garden": {"moves": {"luck": {"centre_z": 1, "spread_z": 1}}}}, r"garden\.moves\.luck: .* no such parameter"),
    ],
)  # fmt: skip
def test_bad_records_are_refused_by_field_with_what_would_be_right(fields: dict[str, object], said: str) -> None:
    with pytest.raises(InputError, match=said):
        read(SteepRecord, EXAMPLE | fields)


def test_a_winter_forecast_below_freezing_is_answered_as_cold_water() -> None:
    """A tub of liquor stays at 0 C while it freezes; the model goes no lower and the answer still comes."""
    frost = [{"time": later(h), "where": "air", "temp_c": -12.0, "forecast": h > 44} for h in range(0, 120, 6)]
    found = ask(temps=frost, readings=[])
    assert found.advice == "wait"
    assert min(p.p5 for p in found.temp_curve_c) >= 0
    (said,) = (c.text for c in found.cautions if c.code == "outside-range")
    assert "a mean of 0 C" in said
    assert "kg of leaf" not in said, "only what lies outside is named"
