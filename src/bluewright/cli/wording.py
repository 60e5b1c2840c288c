"""How numbers are said in the text output: two or three figures, the likely range in brackets."""

from __future__ import annotations

import math
from collections.abc import Sequence

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution


def ranged(band: Band, unit: str, *, scale: float = 1.0) -> str:
    """`4.8 g (2.8 to 7.2)`: the middle, its unit, and the range that holds the truth nine times in ten."""
    low, mid, high = (figure(scale * value) for value in (band.p5, band.p50, band.p95))
    joint = "" if unit in {"", "%"} else " "
    return f"{mid}{joint}{unit} ({low} to {high})"


def litres(band: Band) -> str:
    """A band of litres in words."""
    return ranged(band, "L")


def frac(band: Band) -> str:
    """A band of a fraction as percent in words."""
    return ranged(band, "%", scale=100)


def figure(value: float) -> str:
    """Two figures below a hundred, three above it, never an exponent: `0.00012`, `0.5`, `4.8`, `12`, `1,230`."""
    if value == 0:
        return "0"
    digits = 2 if abs(value) < 99.5 else 3
    rounded = float(f"{value:.{digits}g}")
    if abs(rounded) >= 10:
        return f"{rounded:,.0f}"
    decimals = max(1 - math.floor(math.log10(abs(rounded))), 0)
    return f"{rounded:.{decimals}f}".rstrip("0").rstrip(".")


def cautions(found: Sequence[Caution]) -> list[str]:
    """A blank line and one line for each caution; nothing where there is none."""
    return ["", *(f"Take care: {caution.text}" for caution in found)] if found else []
