"""A value with its spread: the 5, 50 and 95 % points of what is believed."""

from __future__ import annotations

import math
from datetime import datetime
from typing import Final

import numpy as np

from bluewright.science.base.records import answer
from bluewright.science.base.sourced import Floats

NINETY_Z: Final = 1.6448536269514722
"""Standard deviations from the middle of a normal to its 5 and 95 % points: nine tenths of it lie between. Exact."""


@answer
class Band:
    """The 5, 50 and 95 % points of a quantity; the unit is that of the field that holds the band."""

    p5: float
    """Nineteen times in twenty the truth is believed to be above this."""
    p50: float
    """The middle: as likely above as below."""
    p95: float
    """Nineteen times in twenty the truth is believed to be below this."""


@answer
class BandAt:
    """A band at one place along a curve; units of both stand in the name of the field that holds the curve."""

    at: float
    """Where: hours, minutes, millilitres."""
    p5: float
    """Nineteen times in twenty the truth is believed to be above this."""
    p50: float
    """The middle."""
    p95: float
    """Nineteen times in twenty the truth is believed to be below this."""


@answer
class BandAtTime:
    """A band at a moment; the unit stands in the name of the field that holds the curve."""

    time: datetime
    """The moment."""
    p5: float
    """Nineteen times in twenty the truth is believed to be above this."""
    p50: float
    """The middle."""
    p95: float
    """Nineteen times in twenty the truth is believed to be below this."""


def curve(at: Floats, samples: Floats, *, weights: Floats | None = None) -> tuple[BandAt, ...]:
    """The band of `samples` (n, k) at each of `at` (k,), rounded to four figures."""
    rows = quantiles(samples, [0.05, 0.5, 0.95], weights=weights).T
    return tuple(
        BandAt(at=significant(place), p5=significant(low), p50=significant(mid), p95=significant(high))
        for place, (low, mid, high) in zip(at, rows, strict=True)
    )


def band(samples: Floats, *, weights: Floats | None = None, digits: int = 4) -> Band:
    """The band of `samples` (shape (n,)), rounded to `digits` significant digits; weighted if weights are given."""
    low, mid, high = quantiles(samples, [0.05, 0.5, 0.95], weights=weights)
    return Band(p5=significant(low, digits), p50=significant(mid, digits), p95=significant(high, digits))


def normal_band(mean: float, sd: float, *, digits: int = 4) -> Band:
    """The band of a normal with that mean and standard deviation, both in one unit, to `digits` significant digits."""
    low, high = mean - NINETY_Z * sd, mean + NINETY_Z * sd
    return Band(p5=significant(low, digits), p50=significant(mean, digits), p95=significant(high, digits))


def sd_of(value: Band | BandAt) -> float:
    """The standard deviation of a normal with the ends of a band, in the band's unit."""
    return (value.p95 - value.p5) / (2.0 * NINETY_Z)


def log_sd_of(value: Band) -> float:
    """The standard deviation of the logarithm of a log-normal with the ends of a band, which lie above 0."""
    return math.log(value.p95 / value.p5) / (2.0 * NINETY_Z)


def quantiles(samples: Floats, at: list[float], *, weights: Floats | None = None) -> Floats:
    """Quantiles of `samples` (shape (n,) or (n, k): along the first axis) at the given probabilities.

    Unweighted: linear between order statistics. Weighted: the least sample below or at which lies at least that
    share of the weight (the inverse of the weighted distribution function, without interpolation, so that a sample
    of next to no weight cannot pull a tail towards itself).
    """
    if weights is None:
        ranked = np.sort(samples, axis=0)  # np.quantile takes the same values at ten times the price
        place = np.asarray(at) * (len(ranked) - 1)
        lower = place.astype(int)
        part = (place - lower).reshape(-1, *([1] * (ranked.ndim - 1)))
        upper = np.where(place > lower, lower + 1, lower)
        return np.asarray(ranked[lower] + part * (ranked[upper] - ranked[lower]))
    columns = samples[:, None] if samples.ndim == 1 else samples
    order = np.argsort(columns, axis=0)
    ranked = np.take_along_axis(columns, order, axis=0)
    cumulated = np.cumsum(weights[order], axis=0)
    levels = np.asarray(at)[:, None] * cumulated[-1]
    last = len(columns) - 1
    found = [
        ranked[np.minimum(np.searchsorted(cumulated[:, k], levels[:, k]), last), k] for k in range(columns.shape[1])
    ]
    result = np.stack(found, axis=1)
    return result[:, 0] if samples.ndim == 1 else result


def significant(value: float, digits: int = 4) -> float:
    """`value` rounded to `digits` significant digits (0 stays 0)."""
    return float(f"{float(value):.{digits}g}")
