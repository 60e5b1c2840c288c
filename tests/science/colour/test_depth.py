"""Depth: Kubelka and Munk's own algebra, and what a photo's red light is worth."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.science.colour import depth
from bluewright.science.colour.spaces import lab_of_linear


def test_k_over_s_of_round_reflectances() -> None:
    """Own hand: 0.5^2/1 = 0.25; 0.9^2/0.2 = 4.05; 0.95^2/0.1 = 9.025; white has none."""
    np.testing.assert_allclose(depth.k_over_s([0.5, 0.10, 0.05, 1.0]), [0.25, 4.05, 9.025, 0.0])


@given(st.floats(0.004, 1.0))
def test_reflectance_comes_back(share: float) -> None:
    assert float(depth.reflectance_of_k_over_s(depth.k_over_s(share))) == pytest.approx(share, rel=1e-6)


def test_no_cloth_is_deeper_than_its_surface_lets_it() -> None:
    """Own hand: 0.996^2/0.008 = 124.0, also for red light that a wide blue pushes below nothing."""
    np.testing.assert_allclose(depth.k_over_s([0.0, -0.01, 0.004]), 124.002)


def test_the_dye_is_what_the_ground_does_not_explain() -> None:
    """Own hand: 4.05 dyed on a ground of 0.25 leaves 3.80."""
    assert float(depth.dye_k_over_s(4.05, ground=0.25)) == pytest.approx(3.80)


def test_depth_of_lab_is_that_of_its_red_light() -> None:
    linear = np.array([[0.10, 0.2, 0.4], [0.5, 0.6, 0.7]])
    np.testing.assert_allclose(depth.red_k_over_s_of_lab(lab_of_linear(linear)), [4.05, 0.25], rtol=1e-9)
