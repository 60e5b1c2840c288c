"""Straining: liquor and blue balance."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.strain.balance import balance
from bluewright.science.strain.record import StrainAnswer, StrainRecord


def answer(**fields: object) -> StrainAnswer:
    return balance(read(StrainRecord, {"leaf_kg": 6.0, "water_l": 40.0} | fields), rng=np.random.default_rng(1))


def test_liquor_is_conserved() -> None:
    """Own hand: 40 L of water and 6 kg of leaf with 0.85 L/kg of sap are 45.1 L, run out or kept."""
    found = answer()
    assert found.liquor_out_l.p50 + found.kept_l.p50 == pytest.approx(45.1, rel=0.01)


def test_a_rinse_gain_follows_the_wash_formula() -> None:
    """Own hand: kept 1.3 L/kg * 6 kg = 7.8 L; 6 L of rinse, mixing 0.75: 7.8/45.1 * 0.75 * 6/13.8 = 5.6 %."""
    assert answer(rinse_l=6.0).gain_by_rinse_frac.p50 == pytest.approx(0.0564, rel=0.05)


@given(
    leaf_kg=st.floats(0.01, 1e3), per_kg=st.floats(0.5, 100.0), squeeze=st.sampled_from(["drained", "hand", "press"])
)
def test_blue_out_is_a_share(leaf_kg: float, per_kg: float, squeeze: str) -> None:
    found = answer(leaf_kg=leaf_kg, water_l=leaf_kg * per_kg, squeeze=squeeze, rinse_l=leaf_kg)
    assert 0 < found.blue_out_frac.p5 <= found.blue_out_frac.p50 <= found.blue_out_frac.p95 <= 1


def test_a_press_gets_more_than_hands_and_hands_more_than_a_sieve() -> None:
    drained, hand, press = (answer(squeeze=s).blue_out_frac.p50 for s in ("drained", "hand", "press"))
    assert drained < hand < press
    assert answer().gain_by_press_frac.p50 == pytest.approx(press - drained, abs=0.01)


def test_a_measured_liquor_narrows_the_answer() -> None:
    guessed, measured = answer(), answer(liquor_out_l=36.0)
    assert measured.basis == "readings"
    assert measured.liquor_out_l.p50 == pytest.approx(36.0, rel=0.02)
    assert guessed.basis == "prior"


def test_more_liquor_than_was_put_in_is_refused() -> None:
    with pytest.raises(InputError, match=r"liquor_out_l: 60 L is more than the water and the leaf .* at most 46 L"):
        answer(liquor_out_l=60.0)


def test_a_packed_tub_is_answered_with_a_caution() -> None:
    assert "outside-range" in {c.code for c in answer(water_l=8.0).cautions}
    assert "outside-range" not in {c.code for c in answer().cautions}


@given(leaf_kg=st.floats(1e-3, 1e5), per_kg=st.floats(1e-5, 1e3), rinse_l=st.floats(0, 1e4))
def test_every_gain_is_a_share_even_in_a_tub_without_water(leaf_kg: float, per_kg: float, rinse_l: float) -> None:
    found = answer(leaf_kg=leaf_kg, water_l=min(leaf_kg * per_kg, 1e6), rinse_l=rinse_l)
    for gain in (found.gain_by_hand_frac, found.gain_by_press_frac, found.gain_by_rinse_frac, found.blue_out_frac):
        assert 0 <= gain.p5 <= gain.p50 <= gain.p95 <= 1
    assert found.dilution_frac <= 1


def test_hardly_any_liquor_is_still_a_balance() -> None:
    """Own hand: a drop of 1 uL out of 45.1 L leaves all of it in the leaves, and a rinse is then the gain."""
    found = answer(liquor_out_l=1e-6, rinse_l=6.0)
    assert found.kept_l.p50 == pytest.approx(45.1, rel=0.01)
    assert found.blue_out_frac.p50 == pytest.approx(found.gain_by_rinse_frac.p50, rel=1e-4)


def test_leaves_that_gave_back_all_that_went_in_are_cautioned() -> None:
    """Own hand: 40 + 0.85 * 6 = 45.1 L went in, and leaves keep 0.05 L/kg at the least: 44.8 L can come out."""
    assert "too-much-liquor" in {c.code for c in answer(liquor_out_l=45.5).cautions}
    assert answer(liquor_out_l=45.5).kept_l.p5 == pytest.approx(0.3, rel=0.01)
    assert "too-much-liquor" not in {c.code for c in answer(liquor_out_l=40.0).cautions}
