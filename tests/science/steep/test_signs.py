"""Signs and instruments given the state."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.base.levels import LAPSE_FRAC
from bluewright.science.steep.kinetics import Course
from bluewright.science.steep.numbers import NUMBERS
from bluewright.science.steep.signs import SIGNS, Sign, level_chances
from tests.science.steep.test_kinetics import steady

HOURS = np.arange(0.0, 241.0, 2.0)


@pytest.fixture(scope="module")
def course() -> Course:
    return steady("woad", 18.0, HOURS)


def mean_level(sign: Sign, course: Course) -> np.ndarray:
    return level_chances(sign.cue(course)[:, 0], sign) @ np.arange(4)


@pytest.mark.parametrize("name", list(SIGNS))
def test_chances_of_the_levels_add_up_to_one(name: str, course: Course) -> None:
    chances = level_chances(SIGNS[name].cue(course), SIGNS[name])
    assert np.allclose(chances.sum(axis=-1), 1)
    assert chances.min() >= LAPSE_FRAC / 4 - 1e-12


@pytest.mark.parametrize("name", ["bubbles", "scum", "limpness", "darkness", "smell"])
def test_these_signs_only_grow_as_the_steep_goes_on(name: str, course: Course) -> None:
    """Common practice, no source: they grow from fresh to overdone (bubbles subside only at the very end)."""
    assert (np.diff(mean_level(SIGNS[name], course)) > -1e-6).all()


@pytest.mark.parametrize("name", ["blue_cast", "alkali_green"])
def test_blue_cast_and_green_on_alkali_rise_and_fall_with_the_blue(name: str, course: Course) -> None:
    """Common practice, no source: stronger liquor shows more of a cast and turns greener on alkali."""
    level = mean_level(SIGNS[name], course)
    peak = int(np.argmax(course.recoverable_mmol_per_l[:, 0]))
    assert level[peak] > level[1] + 1
    assert level[peak] > level[-1]


def test_on_the_third_day_an_ordinary_tub_shows_middling_signs(course: Course) -> None:
    """Common practice, no source: limp leaves, a clear cast and a few bubbles, nothing foul, at the best time."""
    peak = int(np.argmax(course.recoverable_mmol_per_l[:, 0]))
    found = {name: mean_level(sign, course)[peak] for name, sign in SIGNS.items()}
    assert found["limpness"] > 1.5
    assert found["blue_cast"] > 1.2
    assert 0.2 < found["bubbles"] < 2
    assert found["smell"] < 1.5


@given(cue=st.floats(-5, 5), rise=st.floats(0.01, 3))
def test_a_stronger_cue_never_makes_a_high_level_less_likely(cue: float, rise: float) -> None:
    for sign in SIGNS.values():
        weak, strong = (level_chances(np.array([c]), sign)[0] for c in (cue, cue + rise))
        assert (np.cumsum(strong[::-1]) >= np.cumsum(weak[::-1]) - 1e-12).all()


def test_instruments_read_the_state(course: Course) -> None:
    zero = np.zeros(1)
    assert np.allclose(NUMBERS["temp_c"].mean(course, zero), 18.0)
    assert NUMBERS["ph"].mean(course, zero)[0, 0] == pytest.approx(7.2)
    oxygen = NUMBERS["dissolved_oxygen_mg_l"].mean(course, zero)
    assert oxygen[0, 0] == pytest.approx(9.47, abs=0.03), "published: 9.47 mg/L at 18 C (Benson and Krause 1984)"
    assert oxygen[-1, 0] < 0.1
    dye = NUMBERS["dye_index"].mean(course, zero)[:, 0]
    assert HOURS[dye.argmax()] == HOURS[course.recoverable_mmol_per_l[:, 0].argmax()]
    assert dye[0] < 0, "a liquor without blue reads below zero: its brown falls with the wavelength"


def test_an_instrument_with_its_own_error_uses_it() -> None:
    ph = NUMBERS["ph"]
    assert ph.scatter(np.array([6.0]), None)[0] == 0.25
    assert ph.scatter(np.array([6.0]), 0.05)[0] == 0.05
    assert replace(ph, sd_frac=0.1).scatter(np.array([6.0]), 0.05)[0] > 0.6
