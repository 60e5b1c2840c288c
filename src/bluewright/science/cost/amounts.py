"""Amounts of alkali in the measure that they are weighed or measured out in."""

from __future__ import annotations

from typing import Literal

from bluewright.science.base.bands import quantiles, significant
from bluewright.science.base.records import answer
from bluewright.science.base.sourced import Floats

Measure = Literal["g", "ml"]


@answer
class Amount:
    """An amount in its own measure."""

    unit: Measure
    """`g` if it is weighed out, `ml` if it is measured out."""
    p5: float
    """Nineteen times in twenty the truth is believed to be above this."""
    p50: float
    """The middle."""
    p95: float
    """Nineteen times in twenty the truth is believed to be below this."""


def amount(samples: Floats, *, unit: Measure) -> Amount:
    """The band of `samples` (n,) in their measure, rounded to four figures."""
    low, mid, high = quantiles(samples, [0.05, 0.5, 0.95])
    return Amount(unit=unit, p5=significant(low), p50=significant(mid), p95=significant(high))
