"""Washing: what stays, how many washes, when to stop."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import integrate

from bluewright.science.base.errors import InputError, ModelError
from bluewright.science.base.records import read
from bluewright.science.settle.wash import plan, residue_after_one_frac
from bluewright.science.settle.wash_record import WashAnswer, WashRecord

TAP = {"tap_ph": 7.4, "tap_conductivity_us_per_cm": 400.0}


def answer(**fields: object) -> WashAnswer:
    return plan(read(WashRecord, {"sludge_l": 2.0, "refill_l": 8.0} | fields), rng=np.random.default_rng(1))


@pytest.mark.parametrize(
    ("share", "washes", "percent"),
    [(0.30, 2, 9.0), (0.30, 4, 0.81), (0.20, 3, 0.8), (0.20, 4, 0.16), (0.10, 3, 0.1), (0.05, 2, 0.25)],
)
def test_what_stays_after_perfect_washes(share: float, washes: int, percent: float) -> None:
    """Own hand: f^n, as 0.3^2 = 9 %, 0.2^3 = 0.8 %."""
    once = residue_after_one_frac(sludge_l=np.array([share]), refill_l=1 - share, mixing_frac=1.0)
    assert 100 * once[0] ** washes == pytest.approx(percent, rel=1e-9)


def test_many_small_washes_beat_one_large() -> None:
    """Own hand: 18 L over 2 L of sludge leave 2/20 = 10 % at once, (2/8)^3 = 1.6 % as three of 6 L."""
    one = residue_after_one_frac(sludge_l=np.array([2.0]), refill_l=18.0, mixing_frac=1.0)[0]
    three = residue_after_one_frac(sludge_l=np.array([2.0]), refill_l=6.0, mixing_frac=1.0)[0] ** 3
    assert (one, three) == pytest.approx((0.1, 0.015625))
    found = answer(refill_l=6.0)
    residues = [split.residue_frac.p50 for split in found.splits]
    assert residues == sorted(residues, reverse=True)
    assert all(s.each_l * s.washes == pytest.approx(6.0 * found.washes.p50, rel=1e-3) for s in found.splits)


def test_endless_small_washes_are_an_overflow() -> None:
    """Reference library: SciPy integrates dm/dt = -m q/S, water through a stirred 2 L held full; 8 L leave exp(-4)."""
    found = integrate.solve_ivp(lambda _, m: -m / 2.0, (0.0, 8.0), [1.0], rtol=1e-9, atol=1e-12).y[0][-1]
    once = residue_after_one_frac(sludge_l=np.array([2.0]), refill_l=8.0 / 20_000, mixing_frac=1.0)[0]
    assert once**20_000 == pytest.approx(found, rel=1e-3)


def test_the_count_is_that_of_the_formula() -> None:
    """Own hand: f = 0.2 mixed at 0.95 is 0.24; ln 0.01 / ln 0.24 = 3.2, so 4 washes."""
    found = answer()
    assert (found.washes.p50, found.target_frac) == (4, 0.01)
    assert found.water_l.p50 == 32.0


@given(sludge_l=st.floats(0.1, 50.0), ratio=st.floats(0.3, 30.0), wanted=st.floats(0.001, 0.5), done=st.integers(0, 6))
def test_more_washes_leave_less(sludge_l: float, ratio: float, wanted: float, done: int) -> None:
    found = answer(sludge_l=sludge_l, refill_l=sludge_l * ratio, residue_frac=wanted, washes_done=done)
    middles = [found.residue_now_frac.p50, *(r.residue_frac.p50 for r in found.residues)]
    assert all(after < before for before, after in pairwise(middles))
    assert found.washes.p5 <= found.washes.p50 <= found.washes.p95
    assert found.washes_left.p50 == max(found.washes.p50 - done, 0)


def test_more_water_never_needs_more_washes() -> None:
    counts = [answer(refill_l=refill).washes.p50 for refill in (1.0, 2.0, 4.0, 8.0, 16.0, 32.0)]
    assert counts == sorted(counts, reverse=True)


def test_conductivity_narrows_what_is_left() -> None:
    """Own hand: 4,400 - 400 above the tap falls to 1,200 - 400: a fifth stays; so 4 % after two washes."""
    readings = [{"wash": 0, "conductivity_us_per_cm": 4400.0}, {"wash": 1, "conductivity_us_per_cm": 1200.0}]
    found = answer(readings=readings, **TAP)
    assert found.basis == "readings"
    assert found.residue_now_frac.p50 == pytest.approx(0.21, abs=0.02)
    assert found.residues[0].residue_frac.p50 == pytest.approx(0.043, abs=0.008)
    assert found.target_frac == pytest.approx(0.01, abs=0.001)  # a tenth of the tap's 400 over 4,000
    guess = answer(washes_done=1).residue_now_frac
    assert found.residue_now_frac.p95 - found.residue_now_frac.p5 < 0.7 * (guess.p95 - guess.p5)


@pytest.mark.parametrize(
    ("reading", "met"),
    [
        ({"ph": 7.8}, True),
        ({"ph": 8.2}, False),
        ({"conductivity_us_per_cm": 430.0}, True),
        ({"conductivity_us_per_cm": 460.0}, False),
        ({"conductivity_us_per_cm": 460.0, "ph": 7.4}, False),
    ],
)
def test_the_stop_rule(reading: dict[str, float], met: bool) -> None:
    """Common practice, no source: pH within 0.5 of the tap, or conductivity at most a tenth above it."""
    assert answer(readings=[{"wash": 3, **reading}], **TAP).rule_met is met


def test_without_a_reading_no_rule_is_judged() -> None:
    assert answer().rule_met is None


@pytest.mark.parametrize(
    ("fields", "code"),
    [
        ({"refill_l": 1.0}, "outside-range"),
        ({"readings": [{"wash": 1, "ph": 9.8}], **TAP}, "alkaline-rinse"),
        (
            {
                "readings": [{"wash": n, "conductivity_us_per_cm": c} for n, c in enumerate((900, 3000, 500, 2800))],
                **TAP,
            },
            "poor-fit",
        ),
    ],
)
def test_cautions_stand_beside_what_they_belong_to(fields: dict[str, object], code: str) -> None:
    assert code in {c.code for c in answer(**fields).cautions}
    assert not answer().cautions


def test_a_refill_that_washes_nothing_is_a_model_error() -> None:
    with pytest.raises(ModelError, match="over 200 washes"):
        answer(refill_l=0.01)


@pytest.mark.parametrize(
    ("fields", "message"),
    [
        (
            {"readings": [{"wash": 2, "ph": 8.0}, {"wash": 1, "ph": 8.5}], **TAP},
            r"readings\[1\].wash: wash 1 comes after",
        ),
        ({"readings": [{"wash": 2, "ph": 8.0}]}, r"tap_ph: readings\[0\].ph has nothing to be compared with"),
        ({"readings": [{"wash": 2, "ph": 15.0}], **TAP}, r"readings\[0\].ph: 15.0 is not possible here; .* at most 14"),
        (
            {"readings": [{"wash": 2, "ph": 8.0}], "washes_done": 1, **TAP},
            r"washes_done: 1 washes were done, but wash 2",
        ),
        ({"residue_frac": 1.0}, r"residue_frac: .* less than 1"),
        ({"sludge_l": -2.0}, r"sludge_l: .* more than 0"),
    ],
)
def test_what_cannot_be_is_refused_by_name(fields: dict[str, object], message: str) -> None:
    with pytest.raises(InputError, match=message):
        answer(**fields)
