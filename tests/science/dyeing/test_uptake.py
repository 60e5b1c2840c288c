"""What fibre takes from a bath: by hand, by published heats, by algebra."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.dyeing.priors import (
    AFFINITY_L_PER_KG,
    DI_OF_MONO,
    LIQUOR_IN_YARN_L_PER_KG,
    PORE_M2_PER_S,
    SILK_FULL_G_PER_KG,
)
from bluewright.science.dyeing.uptake import equilibrium_g_per_kg, isotherm_g_per_kg, ph_factor, temp_factor
from bluewright.science.media.leuco import leuco_forms
from tests.published import rows


@pytest.mark.parametrize(
    ("affinity", "shares"),
    [
        # by hand: K / (K + R) at R = 10, 20, 30, 50, 100 litres to a kilogram
        (5, [0.33, 0.20, 0.14, 0.09, 0.05]),
        (20, [0.67, 0.50, 0.40, 0.29, 0.17]),
        (50, [0.83, 0.71, 0.625, 0.50, 0.33]),
        (200, [0.95, 0.91, 0.87, 0.80, 0.67]),
    ],
)
def test_a_straight_isotherm_takes_k_over_k_plus_r_of_the_bath(affinity, shares):
    liquor = np.array([10.0, 20.0, 30.0, 50.0, 100.0])
    taken = equilibrium_g_per_kg(1.3, affinity_l_per_kg=affinity, exponent=1.0, liquor_l_per_kg=liquor, fibre="wool")
    assert taken / (1.3 * liquor) == pytest.approx(np.array(shares), abs=0.0051)


@given(
    c=st.floats(0.001, 20), affinity=st.floats(0.1, 1000), exponent=st.floats(0.3, 1.3), liquor=st.floats(3, 300),
    fibre=st.sampled_from(["cotton", "silk", "wool"]),
)  # fmt: skip
def test_at_equilibrium_the_fibre_holds_what_its_isotherm_says_of_the_bath_that_is_left(
    c, affinity, exponent, liquor, fibre
):
    taken = equilibrium_g_per_kg(c, affinity_l_per_kg=affinity, exponent=exponent, liquor_l_per_kg=liquor, fibre=fibre)
    left, held = c - float(taken) / liquor, float(taken)
    full = SILK_FULL_G_PER_KG.value
    by_hand = held / affinity / (1 - held / full) if fibre == "silk" else (held / affinity) ** (1 / exponent)
    assert left == pytest.approx(by_hand, abs=1e-9 * c)


def test_an_empty_bath_gives_nothing():
    taken = equilibrium_g_per_kg(0.0, affinity_l_per_kg=5.0, exponent=0.6, liquor_l_per_kg=30.0, fibre="cotton")
    assert float(taken) == 0.0


def test_silk_takes_less_warm_by_the_published_heat():
    (row,) = rows("silk-indigo", "affinity at 50 over 33 C")
    assert row.agrees(temp_factor(50, fibre="silk") / temp_factor(33, fibre="silk"))


def test_the_diffusivity_measured_in_silk_lies_within_what_is_believed_of_it():
    (row,) = rows("silk-indigo", "diffusivity, 1e-12 m2/s")
    z = np.array([-1.0, 1.0])
    affinity = AFFINITY_L_PER_KG["silk"].centre * temp_factor(row.given["temp_c"], fibre="silk")
    held = LIQUOR_IN_YARN_L_PER_KG.value
    low, high = 1e12 * PORE_M2_PER_S.from_z(z) * held / (held + affinity)
    assert low / 2 < row.value < high


def test_silk_never_takes_more_than_it_can_hold():
    much = isotherm_g_per_kg(
        np.float64(500.0), affinity_l_per_kg=np.float64(25.0), exponent=np.float64(1.0), fibre="silk"
    )
    assert 0.99 * SILK_FULL_G_PER_KG.value < float(much) < SILK_FULL_G_PER_KG.value


@pytest.mark.parametrize(("ph", "by_hand"), [(11.0, 1.0), (12.0, 0.85), (12.5, 0.62), (13.0, 0.33)])
def test_cottons_liking_falls_with_the_single_charge(ph, by_hand):
    """By hand: share of the single charge over that at pH 11; the double one counts beside it."""
    single = leuco_forms(ph).mono_frac / leuco_forms(11.0).mono_frac
    assert float(single) == pytest.approx(by_hand, abs=0.01)
    more = DI_OF_MONO.value * float(leuco_forms(ph).di_frac)
    assert by_hand - 0.02 <= ph_factor(ph, fibre="cotton") <= by_hand + more + 0.01


def test_wool_likes_its_usual_ph_and_little_strong_alkali():
    assert ph_factor(9.0, fibre="wool") == pytest.approx(1.0)
    assert ph_factor(13.0, fibre="wool") < 0.6
