"""How a vat stands: conservation, what readings do, advice in small parts, and what is never said."""

import itertools
import re
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read
from bluewright.science.media.electrodes import OFFSET_MV, to_she_mv
from bluewright.science.vat.course import run
from bluewright.science.vat.kinds import KINDS, VatKind
from bluewright.science.vat.liquor import INDIGO_ELECTRONS, active_frac, take
from bluewright.science.vat.setting import setting
from bluewright.science.vat.state import state
from bluewright.science.vat.state_record import VatAnswer, VatRecord
from bluewright.words.said import text
from bluewright.words.vat_state import said
from tests.science.vat.simulated import made, moment, vat

BLUE = {"liquor_look": 0, "film": 0, "strip_s": 2}
CLEAR = {"liquor_look": 3, "film": 2, "strip_s": 45, "ph": 9.1}


def answer(**fields: Any) -> VatAnswer:
    return state(read(VatRecord, vat(**fields)), rng=np.random.default_rng(1))


def look(hours: float, **seen: Any) -> dict[str, Any]:
    return {"time": moment(hours)} | seen


def plain_vat(kind: VatKind, fibre: str = "wool", **fields: Any) -> VatAnswer:
    """A vat of any kind with nothing special."""
    own = KINDS[kind]
    added = [{"time": moment(0), "what": "powder", "mass_g": 60.0}]
    added += [{"time": moment(0), "what": own.reductant or "bran", "mass_g": 40.0}]
    return answer(kind=kind, fibre=fibre, additions=added, **({"dips": []} | fields))


@settings(max_examples=20, deadline=None)
@given(
    powder=st.floats(0.0, 300.0), reductant=st.floats(0.0, 200.0), heel=st.floats(0.0, 50.0), later=st.floats(0.0,
    60.0), cloth=st.floats(0.01, 5.0), poured=st.floats(0.1, 30.0), litres=st.floats(0.0, 30.0),
    reduced=st.floats(0.0, 1.0), seed=st.integers(0, 1000),
)  # fmt: skip
def test_indigo_and_electrons_are_neither_made_nor_lost(
    powder: float, reductant: float, heel: float, later: float, cloth: float, poured: float, litres: float,
    reduced: float, seed: int,
) -> None:  # fmt: skip
    """Pure in = pure there + pure on cloth; electrons given = left + in leuco + decayed + to air + gone with cloth."""
    case = made(
        heel_g=heel, hold_c=None,
        poured=[
            {"time": moment(2.5), "volume_l": litres, "pure_g": poured, "reduced_frac": reduced, "reductant_g": 3.0,
             "ph": 8.4},
            {"time": moment(3.5), "volume_l": litres},
        ],
        additions=[
            {"time": moment(0), "what": "powder", "mass_g": powder, "purity": {"mean_frac": 0.3, "sd_frac": 0.001}},
            {"time": moment(0.5), "what": "dithionite", "mass_g": reductant},
            {"time": moment(4.0), "what": "dithionite", "mass_g": later},
        ],
        dips=[{"time": moment(2.0), "cloth_kg": cloth, "fibre": "wool"},
              {"time": moment(3.0), "cloth_kg": cloth, "fibre": "cotton", "taken_g": 2.0}],
    )  # fmt: skip
    z = np.random.default_rng(seed).standard_normal((50, len(case.names)))
    course, batch = run(case, z, beyond_h=20.0), case.batch(z)
    last = course.rows[-1]
    share = case.purities["purity 0"].from_z(batch["purity_z"]) * 0.95
    assert last.volume_l == pytest.approx(20.0 + 2 * litres)
    given_g = powder * share + heel + poured
    assert course.whole_g()[-1] + last.mass_g(last.taken_mmol) == pytest.approx(given_g, rel=1e-9, abs=1e-9)
    book = last.book
    kept = (
        last.electrons_mmol
        + INDIGO_ELECTRONS * last.reduced_mmol
        + book.decayed_mmol
        + book.to_air_mmol
        + book.carried_mmol
    )
    assert kept == pytest.approx(book.given_mmol, rel=1e-9, abs=1e-9)
    for name in ("reduced_mmol", "waiting_mmol", "grains_mmol", "electrons_mmol", "taken_mmol"):
        assert np.all(course.of(name) >= 0.0)


def test_a_heel_counts_from_when_it_was_poured_in() -> None:
    """10 g of pure indigo at hour 3: not there at hour 2, and there at hour 4; of the start it was there all along."""
    late = [{"time": moment(3.0), "volume_l": 0.0, "pure_g": 10.0, "pure_sd_g": 0.5}]
    without, later, first = answer(dips=[]), answer(dips=[], poured=late), answer(dips=[], heel_g=10.0, heel_sd_g=0.5)

    def at(found: VatAnswer, hours: float) -> float:
        curve = found.total_curve_g
        times = [(one.time - found.inputs.started).total_seconds() / 3600 for one in curve]
        return float(np.interp(hours, times, [one.p50 for one in curve]))

    assert at(later, 2.0) == pytest.approx(at(without, 2.0), rel=0.02)
    assert at(later, 4.0) == pytest.approx(at(without, 4.0) + 10.0, rel=0.03)
    assert at(first, 2.0) == pytest.approx(at(without, 2.0) + 10.0, rel=0.03)
    assert later.total_g.p50 == pytest.approx(first.total_g.p50, rel=0.03)


def test_water_thins_a_vat_and_takes_some_of_its_reductant() -> None:
    """20 L and 10 L of water: the same indigo in 30 L, and the pH lower, by at most log10(1.5) = 0.18 (own hand)."""
    plain = answer(dips=[])
    thin = answer(dips=[], poured=[{"time": moment(4.9), "volume_l": 10.0}])
    assert thin.volume_l == 30.0
    assert thin.total_g == plain.total_g
    assert thin.active_g_per_l.p50 < plain.active_g_per_l.p50
    assert 0.0 < plain.ph.p50 - thin.ph.p50 < 0.18
    assert thin.reductant_g_per_l is not None and plain.reductant_g_per_l is not None
    assert thin.reductant_g_per_l.p50 < plain.reductant_g_per_l.p50 / 1.5


@pytest.mark.parametrize(
    ("kind", "poured", "where"),
    [
        ("ferment", {"volume_l": 1.0, "pure_g": 1.0, "reductant_g": 2.0}, "reductant_g"),
        ("dithionite", {"volume_l": 1.0, "reduced_frac": 0.5}, "pure_g"),
        ("dithionite", {"volume_l": 1.0, "pure_g": -1.0}, "pure_g"),
    ],
)
def test_what_cannot_be_poured_is_refused(kind: VatKind, poured: dict[str, Any], where: str) -> None:
    with pytest.raises(InputError, match=rf"poured\[0\].{where}"):
        plain_vat(kind, poured=[{"time": moment(2.0)} | poured])


def test_a_clear_vat_is_dyed_in_and_a_blue_one_is_not() -> None:
    clear = answer(now=moment(2.0), dips=[], readings=[look(2.0, **CLEAR)])
    assert clear.advice == "dye"
    blue = answer(readings=[look(5.0, **BLUE)])
    assert blue.advice == "sharpen"
    assert blue.ready_chance < 0.2
    assert clear.ready_chance > 0.8
    assert blue.active_g_per_l.p50 < clear.active_g_per_l.p50


def test_sharpening_is_the_half_dose_of_the_trade() -> None:
    """Common practice, no source: dithionite 0.3 to 0.5 g/L at a time, in a vat that has gone green."""
    found = answer(readings=[look(5.0, liquor_look=1, film=1, strip_s=5)])
    assert found.advice == "sharpen"
    part = next(part for part in found.parts if part.what == "dithionite")
    assert 0.2 < part.mass_g.p50 / 20.0 < 0.6
    assert found.look_again_at.isoformat() > moment(5.25)


def test_without_any_reading_it_answers_widely_and_says_so() -> None:
    found = answer()
    assert found.basis == "prior"
    assert "vat-unseen" in {caution.code for caution in found.cautions}
    assert found.reduced_g.p95 > 1.5 * found.reduced_g.p5


def test_millivolts_alone_decide_nothing() -> None:
    """Thirty minutes after the powder the same vat, told only a potential: the chance of being ready moves, not to a
    gate."""
    low, high = (answer(now=moment(1.5), dips=[], readings=[look(1.5, potential_mv=mv)]) for mv in (-850.0, -400.0))
    assert high.ready_chance < low.ready_chance
    assert high.ready_chance > 0.02
    assert "mv-weak" in {caution.code for caution in low.cautions}


@pytest.mark.parametrize(
    ("electrode", "offset"), [("calomel", 244.0), ("silver_sat_kcl", 197.0), ("silver_3m_kcl", 210.0)]
)
def test_electrodes_are_told_apart(electrode: Any, offset: float) -> None:
    """Handbook, from memory: at 25 C +0.244 V, +0.197 V and +0.210 V against hydrogen."""
    assert to_she_mv(-700.0, electrode=electrode) == -700.0 + offset
    one = answer(readings=[look(5.0, potential_mv=-700.0, electrode=electrode)])
    other = answer(readings=[look(5.0, potential_mv=-700.0 + offset, electrode="she")])
    assert one.she_mv == other.she_mv == (-700.0 + offset,)
    assert one.reduced_g == other.reduced_g
    assert OFFSET_MV["she"].value == 0


def test_cloth_takes_blue_out_and_a_known_amount_exactly() -> None:
    found = answer(dips=[{"time": moment(2.0), "cloth_kg": 1.0, "fibre": "wool", "taken_g": 5.0, "taken_sd_g": 0.0}])
    assert found.taken_g.p5 == found.taken_g.p95 == pytest.approx(5.0)
    more = answer(dips=[{"time": moment(2.0 + 0.1 * k), "cloth_kg": 1.0, "fibre": "wool"} for k in range(6)])
    assert more.total_g.p50 < answer(dips=[]).total_g.p50
    assert more.taken_g.p50 > 5.0


def test_bath_balance_is_that_of_the_table() -> None:
    """Own hand: share taken K/(K + R), a litre of K carried along: K 20 and R 30 give 0.40."""
    for pull, ratio, share in ((20.0, 30.0, 0.40), (50.0, 50.0, 0.50), (5.0, 100.0, 0.05)):
        case = made(additions=[], dips=[], heel_g=10.0)
        now = run(case, np.zeros((1, len(case.names)))).rows[0]
        now.reduced_mmol, now.waiting_mmol = now.waiting_mmol, now.reduced_mmol
        before = float(now.reduced_mmol[0])
        take(now, active_frac=np.ones(1), clears_l_per_kg=np.full(1, pull - 1.0), litres_per_kg=ratio)
        assert float(now.taken_mmol[0]) / before == pytest.approx(share, abs=0.005)


def test_below_its_ph_leuco_clouds() -> None:
    """Own hand: at pH 7 nine tenths of 1 g/L is without charge and next to none of it dissolves; at pH 10.3 all
    does."""
    one = np.ones(1)
    low = active_frac(7.0 * one, reduced_g_per_l=one, acid_g_per_l=0.03 * one)
    high = active_frac(10.33 * one, reduced_g_per_l=one, acid_g_per_l=0.03 * one)
    assert float(low[0]) == pytest.approx(0.097 + 0.03, abs=0.002)
    assert float(high[0]) > 0.999


def test_a_low_ph_asks_for_a_small_part_of_alkali_only() -> None:
    found = answer(now=moment(2.0), dips=[], readings=[look(2.0, ph=7.4, liquor_look=1), look(2.0, ph=7.5)])
    assert found.advice == "more_alkali"
    assert [part.what for part in found.parts] == ["soda_ash"]
    assert found.parts[0].mass_g.p50 < 15.0, "a small part, half of what it lacks"


def test_a_cold_vat_is_warmed_and_an_empty_one_filled() -> None:
    assert answer(hold_c=22.0, readings=[look(5.0, temp_c=22.0, liquor_look=1)]).advice == "warm"
    assert answer(additions=[], dips=[]).advice == "add_indigo"


def test_a_vat_sharpened_again_and_again_is_retired() -> None:
    added = vat()["additions"] + [
        {"time": moment(3.2 + 0.4 * k), "what": "dithionite", "mass_g": 0.5} for k in range(5)
    ]
    found = answer(additions=added, readings=[look(4.9, **BLUE), look(5.0, **BLUE)])
    assert found.sharpened == 5
    assert found.advice == "retire"
    assert "spent-vat" in {caution.code for caution in found.cautions}


def test_a_vat_that_is_too_hot_is_told_so() -> None:
    """Mairet 1938: above 60 C a stock is ruined."""
    assert "too-hot" in {caution.code for caution in answer(hold_c=66.0).cautions}
    assert "too-hot" not in {caution.code for caution in answer(hold_c=50.0).cautions}


def test_a_young_fermented_vat_waits_and_a_hungry_one_is_fed() -> None:
    young = plain_vat("ferment", hold_c=38.0, now=moment(48.0))
    assert young.advice == "wait"
    assert (young.look_again_at - young.inputs.now).total_seconds() > 24 * 3600
    old = plain_vat(
        "ferment", hold_c=38.0, now=moment(60 * 24.0), readings=[look(60 * 24.0, liquor_look=1, film=1, ph=9.4)]
    )
    assert old.advice == "feed"
    assert {part.what for part in old.parts} == {"bran", "madder"}


def test_a_fermented_vat_gets_ready_in_one_to_two_weeks() -> None:
    """Craft practice: 7 to 14 days, up to 30. Unseen, a fed vat is most probably ready within that time, and not on
    day two."""
    chances = [plain_vat("ferment", hold_c=38.0, now=moment(24.0 * day)).ready_chance for day in (2, 7, 10)]
    assert chances[0] < 0.2
    assert max(chances[1:]) > 0.3


def test_more_looks_make_it_surer() -> None:
    few = answer(readings=[look(1.5, ph=9.1)])
    many = answer(readings=[look(1.5, **CLEAR), look(3.0, **CLEAR), look(5.0, **CLEAR)])
    assert many.ph.p95 - many.ph.p5 < few.ph.p95 - few.ph.p5
    assert many.short_chance < few.short_chance


@pytest.mark.parametrize(
    ("kind", "seen"), list(itertools.product(KINDS, [{}, BLUE, CLEAR, {"ph": 7.0}, {"ph": 12.5, "liquor_look": 0}]))
)
def test_nothing_ever_advises_acid_into_a_sulphur_vat(kind: VatKind, seen: dict[str, Any]) -> None:
    """Whatever the state: where acid or vinegar is named at all, it is to forbid it."""
    found = plain_vat(kind, readings=[look(5.0, **seen)] if seen else [])
    for sentence in re.split(r"(?<=[.:;])\s", text(said(found))):
        if re.search(r"\b(acid|vinegar|sour)\b", sentence, re.I):
            assert re.search(r"\b(never|no|not|apart)\b", sentence, re.I), sentence
    assert ("never-acid" in {caution.code for caution in found.cautions}) == KINDS[kind].sulphur
    assert not {part.what for part in found.parts} & {"vinegar", "acid"}
    assert dump(found)["ready_chance"] == pytest.approx(found.ready_chance)


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({"now": moment(-1.0)}, "now: it is before the vat was started"),
        ({"readings": [{"time": moment(9.0), "ph": 9.0}]}, "readings[0].time"),
        ({"additions": [{"time": moment(0), "what": "ferrous_sulphate", "mass_g": 1.0}]}, "does not go into a vat"),
        ({"additions": [{"time": moment(0), "what": "powder", "mass_g": -1.0}]}, "mass_g: -1"),
        ({"additions": [{"time": moment(0), "what": "lye", "mass_g": 1.0,
                         "purity": {"mean_frac": 0.5, "sd_frac": 0.1}}]}, "only powder has a purity"),
        ({"readings": [{"time": moment(1.0), "liquor_look": 4}]}, "liquor_look: 4"),
        ({"readings": [{"time": moment(1.0), "potential_mv": -700.0, "electrode": "copper"}]}, "electrode"),
    ],
)  # fmt: skip
def test_an_impossible_story_is_refused(fields: dict[str, Any], told: str) -> None:
    with pytest.raises(InputError) as caught:
        answer(**fields)
    assert told in str(caught.value)


def test_the_same_record_and_seed_give_the_same_answer() -> None:
    assert answer(readings=[look(5.0, **CLEAR)]) == answer(readings=[look(5.0, **CLEAR)])
    assert setting(read(VatRecord, vat())).names[0] == "reaches"
