"""How much heavier dyed cloth is, and how little that tells."""

import pytest

from bluewright.science.dyeing.gain import gain


def test_two_weighings_bone_dry_leave_only_the_scale() -> None:
    """Own hand: 0.5 g twice, sqrt(2) 0.5 = 0.707 g, 1.645 of it 1.163 g."""
    found = gain(100.0, 102.0, fibre="cotton", basis="dry")
    band = found.gain_g
    assert (band.p5, band.p50, band.p95) == pytest.approx((0.837, 2.0, 3.163), abs=0.001)
    assert (found.scale_off_g, found.water_off_g) == pytest.approx((1.163, 0.0), abs=0.001)


def test_the_air_of_the_room_weighs_more_than_the_scale() -> None:
    """Own hand: 1000 g of wool, 862 g dry; water 8.62 g, scale 1 g (a thousandth): sqrt(2) 8.68 = 12.27, 20.2 of it."""
    found = gain(1000.0, 1030.0, fibre="wool", basis="conditioned")
    assert (found.gain_g.p5, found.gain_g.p95) == pytest.approx((9.8, 50.2), abs=0.1)
    assert found.water_off_g == pytest.approx(20.05, abs=0.05)


def test_one_s_own_scale_counts_instead_of_the_usual_one() -> None:
    """Own hand: 0.01 g twice leaves 1.645 sqrt(2) 0.01 = 0.0233 g; a finer scale tells no more about the water."""
    fine, usual = (gain(100.0, 102.0, fibre="cotton", basis="dry", scale_sd_g=sd) for sd in (0.01, None))
    assert fine.gain_g.p95 == pytest.approx(2.023, abs=1e-3)
    assert usual.gain_g.p95 - usual.gain_g.p5 > 40 * (fine.gain_g.p95 - fine.gain_g.p5)
    damp = gain(100.0, 102.0, fibre="cotton", basis="conditioned", scale_sd_g=0.01)
    assert damp.water_off_g > 90 * damp.scale_off_g
