"""Faults: textbook cases come out first, chances are coherent, the next look is worth what it tells, nothing sour is
said."""

import re
from typing import Any, get_args

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.vat.fault_table import BASE_CHANCE, LEAK, SHOWS, SOUR_IN
from bluewright.science.vat.faults import LOOK_TABLES, SIGNS, cure_of, faults, network, observed, weigh
from bluewright.science.vat.faults_record import Cause, FaultAnswer, FaultRecord, SignName
from bluewright.science.vat.kinds import KINDS, VatKind
from bluewright.words.said import text
from bluewright.words.vat_faults import CAUSES, CURES, said
from bluewright.words.vat_faults import SIGNS as ASKED

LOOKS = sorted(set(SIGNS) - {"ph_high", "ph_low", "cold"})
SEEN = st.dictionaries(st.sampled_from(LOOKS), st.booleans(), max_size=8)
KIND = st.sampled_from(sorted(KINDS))


def answer(**fields: Any) -> FaultAnswer:
    return faults(read(FaultRecord, {"kind": "dithionite", "fibre": "wool"} | fields), rng=np.random.default_rng(1))


def chances(found: FaultAnswer) -> dict[Cause, float]:
    return {one.cause: one.at_work_chance for one in found.causes}


@pytest.mark.parametrize(
    ("fields", "cause"),
    [
        ({"liquor_blue": True, "blues_at_once": True, "temp_c": 48.0, "ph": 9.1}, "reductant_spent"),
        ({"white_cloud": True, "liquor_blue": False, "ph": 7.9}, "little_alkali"),
        ({"slimy": True, "harsh": True, "ph": 11.4}, "much_alkali"),
        ({"grains": True, "liquor_blue": False, "cup_clears": False, "temp_c": 48.0}, "coarse_powder"),
        ({"pale": True, "liquor_blue": False, "no_film": True, "gets_paler": False, "ph": 9.0, "temp_c": 48.0},
         "little_indigo"),
        ({"stays_yellow": True, "gets_paler": True, "liquor_blue": False}, "over_reduced"),
        ({"liquor_blue": True, "cup_clears": False, "fresh_tin_clears": True}, "reductant_dead"),
        ({"liquor_blue": True, "temp_c": 20.0, "cup_warm_clears": True, "cup_clears": False}, "too_cold"),
        ({"kind": "ferment", "foul": True, "lifeless": False}, "putrid"),
        ({"kind": "ferment", "fibre": "cotton", "lifeless": True, "foul": False, "no_film": True}, "stalled"),
        ({"streaks": True, "rubs_off": False, "grains": False, "liquor_blue": False}, "poor_scour"),
        ({"rubs_off": True, "streaks": False, "liquor_blue": False, "grains": False, "blues_at_once": False},
         "too_strong"),
    ],
)  # fmt: skip
def test_textbook_cases_come_out_first(fields: dict[str, Any], cause: Cause) -> None:
    """As Mairet 1938 and craft practice read these signs: dark spots, white turbidity, sliminess, blue at once, and
    so on."""
    found = answer(**fields)
    assert found.causes[0].cause == cause
    assert found.causes[0].at_work_chance > 1.8 * BASE_CHANCE[cause].value


@settings(max_examples=25, deadline=None)
@given(kind=KIND, seen=SEEN, ph=st.none() | st.floats(0, 14), temp=st.none() | st.floats(0, 100))
def test_chances_are_coherent(kind: VatKind, seen: dict[str, bool], ph: float | None, temp: float | None) -> None:
    """Of every table the sets add up to 1; each cause lies within 0 and 1 and within its range; with none comes to
    1."""
    record = read(FaultRecord, {"kind": kind, "fibre": "silk", "ph": ph, "temp_c": temp} | seen)
    net = network(kind, rng=np.random.default_rng(1), tables=20)
    posterior = weigh(net, observed(record))
    assert posterior.sum(axis=1) == pytest.approx(np.ones(20))
    assert np.all(posterior >= 0.0)
    each = posterior @ net.at_work_frac
    assert np.all(each <= 1.0 + 1e-12)
    assert np.all(posterior[:, 0] <= 1.0 - each.max(axis=1) + 1e-9)
    found = answer(kind=kind, ph=ph, temp_c=temp, **seen)
    assert [one.at_work_chance for one in found.causes] == sorted(
        (one.at_work_chance for one in found.causes), reverse=True
    )
    for one in found.causes:
        assert one.chance_range_frac.p5 <= one.chance_range_frac.p95
    assert all(0.0 <= test.tells_frac <= 1.0 for test in found.next_tests)


def test_without_signs_the_chances_are_the_base_chances() -> None:
    """Own hand: causes are independent beforehand; sets of four and more, left out, take next to nothing away."""
    net = network("dithionite", rng=np.random.default_rng(1), tables=1)
    each = (weigh(net, {}) @ net.at_work_frac)[0]
    for cause, chance in zip(net.causes, each, strict=True):
        assert chance == pytest.approx(BASE_CHANCE[cause].value, abs=0.03)


def test_one_cause_and_one_sign_by_hand() -> None:
    """Own hand for the odds that a sign brings: P(yes) with and without the cause, all other causes absent."""
    net = network("dithionite", rng=np.random.default_rng(1), tables=1)
    sign: SignName = "white_cloud"
    alone = [
        float(row.sum()) == 1.0 and row[net.causes.index("little_alkali")] == 1.0 for row in net.at_work_frac
    ].index(True)
    shown = SHOWS["little_alkali"][sign].value
    expected = 1 - (1 - LEAK[sign].value) * (1 - shown)
    assert net.shows_frac(sign)[0, alone] == pytest.approx(expected)
    before, after = weigh(net, {})[0], weigh(net, {sign: True})[0]
    odds = (after[alone] / after[0]) / (before[alone] / before[0])
    assert odds == pytest.approx(expected / LEAK[sign].value)


def test_one_cause_explains_another_away() -> None:
    """A read cold makes the spent reductant less probable behind the same blue liquor."""
    blue = chances(answer(liquor_blue=True))
    cold = chances(answer(liquor_blue=True, temp_c=20.0))
    warm = chances(answer(liquor_blue=True, temp_c=48.0))
    assert cold["reductant_spent"] < blue["reductant_spent"] < warm["reductant_spent"]
    assert warm["too_cold"] < blue["too_cold"] < cold["too_cold"]


def test_signs_of_one_look_weigh_less_together() -> None:
    """Dependence: skin and liquor are seen with one look, so that both are less than twice the evidence."""
    net = network("dithionite", rng=np.random.default_rng(1), tables=1)
    spent = net.at_work_frac[:, net.causes.index("reductant_spent")]

    def log_odds(seen: dict[SignName, bool]) -> float:
        posterior = weigh(net, seen)[0]
        chance = float(posterior @ spent)
        return float(np.log(chance / (1 - chance)))

    start = log_odds({})
    both = log_odds({"liquor_blue": True, "no_film": True}) - start
    assert both < 0.95 * (log_odds({"liquor_blue": True}) - start + log_odds({"no_film": True}) - start)


def test_the_next_look_is_worth_what_it_tells_on_average() -> None:
    """Mutual information is the doubt before less the mean doubt after, by hand over both outcomes of the best look."""
    record = read(FaultRecord, {"kind": "dithionite", "fibre": "wool", "liquor_blue": True})
    found = faults(record, rng=np.random.default_rng(1))
    name = found.next_tests[0].sign
    net = network("dithionite", rng=np.random.default_rng(1))
    mean = weigh(net, observed(record)).mean(axis=0)
    shown = net.shows_frac(name)[:LOOK_TABLES].mean(axis=0)

    def doubt(chance: np.ndarray) -> float:
        kept = chance[chance > 0]
        return float(-(kept * np.log2(kept)).sum())

    yes = float(mean @ shown)
    after = yes * doubt(mean * shown / yes) + (1 - yes) * doubt(mean * (1 - shown) / (1 - yes))
    assert found.next_tests[0].tells_frac == pytest.approx((doubt(mean) - after) / doubt(mean), rel=0.01)
    assert found.doubt_bits == pytest.approx(doubt(mean), rel=0.01)


def test_the_tin_is_tried_where_a_dead_and_a_spent_reductant_look_alike() -> None:
    found = answer(liquor_blue=True, blues_at_once=True, ph=9.0, temp_c=48.0)
    assert {test.sign for test in found.next_tests[:2]} & {"fresh_tin_clears", "cup_clears"}


@settings(max_examples=40, deadline=None)
@given(kind=KIND, seen=SEEN, ph=st.none() | st.floats(6, 14))
def test_no_cure_advises_acid_into_a_sulphur_vat(kind: VatKind, seen: dict[str, bool], ph: float | None) -> None:
    """Over any signs: vinegar only where sugar or bran reduce, and each sentence with acid in it forbids it."""
    found = answer(kind=kind, ph=ph, **seen)
    cures = {one.cure for one in found.causes}
    assert ("sour_gently" in cures) == (kind in SOUR_IN)
    if KINDS[kind].sulphur:
        assert "never-acid" in {caution.code for caution in found.cautions}
        for sentence in re.split(r"(?<=[.:;?])\s", text(said(found))):
            if re.search(r"\b(acids?|vinegar|sour)\b", sentence, re.I):
                assert re.search(r"\b(never|no|not|nothing|apart)\b", sentence, re.I), sentence


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("cause", get_args(Cause))
def test_every_cause_has_words_signs_and_a_cure(kind: VatKind, cause: Cause) -> None:
    assert CAUSES[cause] and CURES[cure_of(cause, kind)]
    assert max(one.value for one in SHOWS[cause].values()) >= 0.65, "at least one sign that it nearly always shows"
    assert set(ASKED) == set(SIGNS) == set(LEAK)


def test_readings_become_signs_by_the_set_points() -> None:
    def seen(**fields: Any) -> dict[SignName, bool]:
        return observed(read(FaultRecord, {"kind": "dithionite", "fibre": "wool"} | fields))

    assert seen(ph=10.4) == {"ph_high": True, "ph_low": False}
    assert seen(ph=8.0) == {"ph_high": False, "ph_low": True}
    assert seen(temp_c=25.0) == {"cold": True}
    assert seen(temp_c=48.0) == {"cold": False}
    assert observed(read(FaultRecord, {"kind": "dithionite", "fibre": "cotton", "ph": 10.9}))["ph_high"] is False


@pytest.mark.parametrize(
    ("fields", "told"), [({"ph": 15.0}, "ph: 15"), ({"kind": "zinc"}, "kind"), ({"liquor_blue": "yes"}, "liquor_blue")]
)
def test_an_impossible_record_is_refused(fields: dict[str, Any], told: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(**fields)
    assert told in str(caught.value)
