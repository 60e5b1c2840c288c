"""Bands and quantiles."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import stats

from bluewright.science.base.bands import (
    NINETY_Z,
    Band,
    band,
    curve,
    log_sd_of,
    normal_band,
    quantiles,
    sd_of,
    significant,
)

AT = [0.05, 0.5, 0.95]


def test_a_band_is_the_five_fifty_and_ninety_five_percent_points() -> None:
    """Own hand: 0, 1, ..., 100 has its 5 % point at 5, its middle at 50, its 95 % point at 95."""
    found = band(np.arange(101.0))
    assert (found.p5, found.p50, found.p95) == (5.0, 50.0, 95.0)


def test_nine_tenths_of_a_normal_are_those_of_the_reference_library() -> None:
    """Reference library: scipy.stats.norm; there and back for a mean of 10 and a standard deviation of 2."""
    assert pytest.approx(stats.norm.ppf(0.95), rel=1e-15) == NINETY_Z
    found = normal_band(10.0, 2.0, digits=12)
    assert [found.p5, found.p50, found.p95] == pytest.approx(stats.norm(10, 2).ppf(AT), rel=1e-11)
    assert sd_of(found) == pytest.approx(2.0, rel=1e-11)


def test_the_spread_of_a_log_normal_is_read_off_its_band() -> None:
    """Reference library: scipy.stats.lognorm with a median of 3 and a standard deviation of the log of 0.4."""
    low, mid, high = stats.lognorm(0.4, scale=3.0).ppf(AT)
    assert log_sd_of(Band(p5=low, p50=mid, p95=high)) == pytest.approx(0.4, rel=1e-12)


def test_unweighted_quantiles_are_those_of_the_reference_library() -> None:
    """Reference library: scipy.stats.mstats.mquantiles with alphap=betap=1 (linear between order statistics)."""
    samples = np.random.default_rng(1).gamma(2.0, size=501)
    expected = stats.mstats.mquantiles(samples, AT, alphap=1, betap=1)
    np.testing.assert_allclose(quantiles(samples, AT), expected, rtol=1e-12)


def test_weighted_quantiles_meet_the_exact_ones_of_a_known_distribution() -> None:
    """Reference library: draws of N(0, 2) weighted into N(1, 1) have the quantiles of scipy.stats.norm(1, 1)."""
    samples = np.random.default_rng(2).normal(0.0, 2.0, size=200_000)
    weights = stats.norm.pdf(samples, 1, 1) / stats.norm.pdf(samples, 0, 2)
    np.testing.assert_allclose(quantiles(samples, AT, weights=weights), stats.norm.ppf(AT, 1, 1), atol=0.02)


@given(st.lists(st.floats(-1e6, 1e6), min_size=40, max_size=200))
def test_equal_weights_change_little_and_quantiles_rise(values: list[float]) -> None:
    samples = np.array(values)
    plain, weighted = quantiles(samples, AT), quantiles(samples, AT, weights=np.ones(len(values)))
    for found in (plain, weighted):
        assert found[0] <= found[1] <= found[2]
        assert samples.min() <= found[0]
        assert found[2] <= samples.max()
    ranked = np.sort(samples)
    for at, one, other in zip(AT, plain, weighted, strict=True):
        middle = at * (len(values) - 1)
        assert ranked[max(int(middle) - 1, 0)] <= one <= ranked[min(int(middle) + 2, len(values) - 1)]
        assert ranked[max(int(middle) - 1, 0)] <= other <= ranked[min(int(middle) + 2, len(values) - 1)]


def test_quantiles_of_a_table_go_down_its_columns() -> None:
    table = np.random.default_rng(3).normal(size=(400, 3)) + np.array([0.0, 10.0, 20.0])
    weights = np.random.default_rng(4).random(400)
    for given_ in (None, weights):
        whole = quantiles(table, AT, weights=given_)
        assert whole.shape == (3, 3)
        for k in range(3):
            np.testing.assert_allclose(whole[:, k], quantiles(table[:, k], AT, weights=given_))


def test_a_weight_of_nothing_counts_for_nothing() -> None:
    samples, weights = np.array([1.0, 2.0, 3.0, 1e9]), np.array([1.0, 1.0, 1.0, 0.0])
    assert quantiles(samples, AT, weights=weights)[1] == pytest.approx(2.0)
    assert quantiles(samples, AT, weights=weights)[2] <= 3.0


@pytest.mark.parametrize(
    ("value", "digits", "expected"),
    [(0.0, 4, 0.0), (1234.5678, 4, 1235.0), (0.000123456, 3, 0.000123), (-9.9996, 4, -10.0), (1e-300, 2, 1e-300)],
)
def test_significant_digits(value: float, digits: int, expected: float) -> None:
    assert significant(value, digits) == expected


def test_a_curve_is_the_band_at_each_place() -> None:
    """Own hand: samples 0 to 100 times 1 and times 2 have their middles at 50 and 100, four figures kept."""
    ramp = np.arange(101.0)
    found = curve(np.array([0.123456, 2.0]), np.stack([ramp, 2 * ramp], axis=1))
    assert [(point.at, point.p5, point.p50, point.p95) for point in found] == [
        (0.1235, 5.0, 50.0, 95.0),
        (2.0, 10.0, 100.0, 190.0),
    ]
