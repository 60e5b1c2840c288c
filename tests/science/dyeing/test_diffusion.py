"""Crank's solutions against print, against a second library, and against their own sums."""

import numpy as np
import pytest
from scipy.special import j0, j1, jn_zeros

from bluewright.science.dyeing.diffusion import (
    EARLY,
    SIDES,
    bessel,
    bessel_zeros,
    outer_frac,
    profile_frac,
    uptake_frac,
)
from tests.published import rows


@pytest.mark.parametrize("row", rows("crank-1975"), ids=lambda row: f"{row.what} {row.value}")
def test_the_printed_times_give_the_printed_shares(row):
    assert row.agrees(float(uptake_frac(row.given["fourier"], body=row.what)))


def test_bessel_functions_and_their_zeros_agree_with_a_second_library():
    x = np.linspace(0.0, 250.0, 4001)
    assert bessel(0, x) == pytest.approx(j0(x), abs=1e-12)
    assert bessel(1, x) == pytest.approx(j1(x), abs=1e-12)
    assert bessel_zeros() == pytest.approx(jn_zeros(0, len(bessel_zeros())), abs=1e-11)


@pytest.mark.parametrize("body", SIDES)
def test_a_profile_sums_up_to_what_was_taken_and_its_outer_part_to_the_outer_mean(body):
    """Summed by Gauss and Legendre's points inside and outside of 0.8: the waves turn at most 30 times between."""
    d, a = SIDES[body], 0.8
    fourier = np.array([EARLY * 1.0001, 0.01, 0.1, 0.6])
    points, weights = np.polynomial.legendre.leggauss(120)
    x = np.concatenate([a * (points + 1) / 2, a + (1 - a) * (points + 1) / 2])
    w = np.concatenate([a * weights / 2, (1 - a) * weights / 2])
    shell = profile_frac(fourier, radius_frac=x, body=body) * d * x ** (d - 1) * w
    assert shell.sum(axis=1) == pytest.approx(uptake_frac(fourier, body=body), abs=1e-9)
    outer = shell[:, x >= a].sum(axis=1) / (1 - a**d)
    assert outer == pytest.approx(outer_frac(fourier, inner_radius_frac=a, body=body), abs=1e-9)


@pytest.mark.parametrize("body", SIDES)
def test_series_and_skin_meet_and_uptake_rises_from_none_to_all(body):
    before, after = uptake_frac([EARLY * (1 - 1e-9), EARLY * (1 + 1e-9)], body=body)
    assert before == pytest.approx(after, rel=2e-4)
    t = np.geomspace(1e-7, 20.0, 200)
    taken = uptake_frac(t, body=body)
    assert np.all(np.diff(taken) >= 0)
    assert taken[0] < 0.003
    assert taken[-1] == pytest.approx(1.0)


@pytest.mark.parametrize("body", SIDES)
def test_the_outer_part_never_has_less_than_the_whole_and_all_of_a_thin_skin(body):
    t = np.geomspace(1e-6, 5.0, 60)
    whole, outer = uptake_frac(t, body=body), outer_frac(t, inner_radius_frac=0.8, body=body)
    assert np.all(outer >= whole - 1e-12)
    skin = 1 - 0.8 ** SIDES[body]
    assert outer[0] * skin == pytest.approx(whole[0], rel=1e-9)
    assert outer_frac(t, inner_radius_frac=0.0, body=body) == pytest.approx(whole)
