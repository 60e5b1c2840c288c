"""Differences: the published pairs, another library, and what a difference must obey."""

from __future__ import annotations

import numpy as np
import pytest
from coloraide import Color
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.colour.differences import cie76, ciede2000, cmc, parts, weighted_parts
from tests.published import Row, rows

LAB = st.tuples(st.floats(0, 100), st.floats(-60, 60), st.floats(-60, 60))
PAIRS = rows("sharma-2005")
BLUES = np.random.default_rng(7).uniform([15, -15, -45], [90, 25, 30], (200, 3))
"""Where indigo, its liquors and its grounds lie."""


@pytest.mark.parametrize("pair", PAIRS, ids=lambda row: f"pair {row.given['pair']:.0f}")
def test_ciede2000_gives_the_published_difference_both_ways(pair: Row) -> None:
    one, other = ([pair.given[f"{axis}_{n}"] for axis in "lab"] for n in (1, 2))
    assert pair.agrees(float(ciede2000(one, other)))
    assert pair.agrees(float(ciede2000(other, one)))


def test_all_pairs_of_the_source_are_there() -> None:
    assert len(PAIRS) == 34


def test_differences_agree_with_another_library() -> None:
    """coloraide, pure Python, by other hands."""
    for one, other in zip(BLUES[:100], BLUES[100:], strict=True):
        a, b = (Color("lab-d65", list(lab)) for lab in (one, other))
        assert float(ciede2000(one, other)) == pytest.approx(a.delta_e(b, method="2000", space="lab-d65"), abs=1e-6)
        assert float(cie76(one, other)) == pytest.approx(a.delta_e(b, method="76", space="lab-d65"), abs=1e-9)
        for ratio in (2.0, 1.0):
            theirs = a.delta_e(b, method="cmc", space="lab-d65", l=ratio, c=1.0)
            assert float(cmc(other, one, l_factor=ratio)) == pytest.approx(theirs, abs=1e-6)


def test_cmc_asks_which_of_the_two_is_the_standard() -> None:
    """Three libraries (coloraide, colour-science, scikit-image) agree on this pair: 1.221 one way, 1.262 the other."""
    one, other = [25.0, 2.0, -18.0], [23.8, 2.4, -16.9]
    found = sorted([float(cmc(one, other)), float(cmc(other, one))])
    assert found == pytest.approx([1.221, 1.262], abs=0.001)


@given(LAB, LAB)
def test_the_parts_make_up_the_plain_distance(one: tuple[float, ...], other: tuple[float, ...]) -> None:
    """By definition of the difference of hue (CIE 15:2004, 8.2.3)."""
    apart = parts(one, other)
    whole = np.sqrt(apart.lightness**2 + apart.chroma**2 + apart.hue**2)
    assert float(whole) == pytest.approx(float(cie76(one, other)), abs=1e-6)


def test_a_colour_is_nothing_apart_from_itself_and_shapes_are_kept() -> None:
    many = BLUES.reshape(2, 50, 2, 3)
    for formula in (ciede2000, cie76, cmc):
        assert formula(many, many).shape == (2, 50, 2)
        assert float(np.abs(formula(many, many)).max()) == pytest.approx(0.0, abs=1e-9)


def test_many_colours_are_told_beside_one() -> None:
    for formula in (ciede2000, cie76, cmc):
        assert formula(BLUES, BLUES[0]).shape == (200,)
        assert float(formula(BLUES, BLUES[0])[7]) == pytest.approx(float(formula(BLUES[7], BLUES[0])))


def test_signs_follow_the_sample() -> None:
    """Own hand: 10 darker, 5 duller; the hue of a blue at 270 degrees that turns to 280 goes towards red, above 0."""
    apart = parts([40.0, 0.0, -20.0], [50.0, 0.0, -25.0])
    assert (float(apart.lightness), float(apart.chroma), float(apart.hue)) == pytest.approx((-10.0, -5.0, 0.0))
    turned = 25.0 * np.array([0.0, np.cos(np.radians(280)), np.sin(np.radians(280))]) + [50.0, 0.0, 0.0]
    assert float(parts(turned, [50.0, 0.0, -25.0]).hue) == pytest.approx(50.0 * np.sin(np.radians(5.0)))
    assert float(weighted_parts(turned, [50.0, 0.0, -25.0]).hue) > 0
