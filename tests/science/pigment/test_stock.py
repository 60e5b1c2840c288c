"""Pure blue of a jar by its purity alone, and of several jars together."""

import numpy as np
import pytest

from bluewright.science.base.bands import Band
from bluewright.science.media.purity import Known
from bluewright.science.pigment.stock import part_of, pure_of, together


def rng() -> np.random.Generator:
    return np.random.default_rng(1)


def test_pure_blue_is_mass_without_its_water_times_purity() -> None:
    """Own hand: 40 g, 5 % water, 35 % indigo: 40 * 0.95 * 0.35 = 13.3 g; 4000 draws of a spread of a seventh."""
    found = pure_of(40.0, purity=Known(mean_frac=0.35, sd_frac=0.05), scale_sd_g=0.5, rng=rng())
    assert found.p50 == pytest.approx(13.3, rel=0.01)
    assert found.p5 < 0.85 * 13.3
    assert found.p95 > 1.15 * 13.3


def test_a_surer_purity_gives_a_narrower_band() -> None:
    """Own hand: with purity all but certain the scale is left: 1 g of 40 g, 2.5 %; nine in ten within 1.645 of it."""
    found = pure_of(40.0, purity=Known(mean_frac=0.35, sd_frac=0.001), scale_sd_g=1.0, rng=rng())
    half_width = (found.p95 - found.p5) / 2 / found.p50
    assert half_width == pytest.approx(1.645 * np.hypot(0.025, 0.01), rel=0.08)


def test_half_of_a_jar_holds_half_of_its_blue() -> None:
    assert part_of(Band(p5=1.0, p50=2.0, p95=4.0), share_frac=0.5) == Band(p5=0.5, p50=1.0, p95=2.0)


def test_the_blue_of_jars_adds_up_end_to_end() -> None:
    found = together([Band(p5=1.0, p50=2.0, p95=4.0), Band(p5=10.0, p50=13.0, p95=17.0)])
    assert found == Band(p5=11.0, p50=15.0, p95=21.0)


def test_doubts_that_are_one_doubt_add_up_as_said() -> None:
    """Simulated: jars whose blue is wrong by the same factor; the band of the sum is the sum of the bands."""
    factor = np.exp(0.4 * np.random.default_rng(2).standard_normal(200_000))
    one, other = 3.0 * factor, 8.0 * factor
    ends = [np.quantile(masses, (0.05, 0.5, 0.95)) for masses in (one, other, one + other)]
    found = together([Band(p5=e[0], p50=e[1], p95=e[2]) for e in ends[:2]])
    assert (found.p5, found.p50, found.p95) == pytest.approx(tuple(ends[2]), rel=1e-3)
