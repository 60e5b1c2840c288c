"""How much heavier dyed cloth is, and how little that tells."""

import pytest

from bluewright.science.dyeing.gain import gain_g


def test_two_weighings_bone_dry_leave_only_the_scale() -> None:
    """Own hand: 0.5 g twice, sqrt(2) 0.5 = 0.707 g, 1.645 of it 1.163 g."""
    found = gain_g(100.0, 102.0, fibre="cotton", basis="dry")
    assert (found.p5, found.p50, found.p95) == pytest.approx((0.837, 2.0, 3.163), abs=0.001)


def test_the_air_of_the_room_weighs_more_than_the_scale() -> None:
    """Own hand: 1000 g of wool, 862 g dry; water 8.62 g, scale 1 g (a thousandth): sqrt(2) 8.68 = 12.27, 20.2 of it."""
    found = gain_g(1000.0, 1030.0, fibre="wool", basis="conditioned")
    assert (found.p5, found.p95) == pytest.approx((9.8, 50.2), abs=0.1)
