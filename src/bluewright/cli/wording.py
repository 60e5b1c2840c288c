"""How numbers are said in the text output: two or three figures, the likely range in brackets."""

from __future__ import annotations

from collections.abc import Sequence

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution


def ranged(band: Band, unit: str, *, scale: float = 1.0) -> str:
    """`4.8 g (2.8 to 7.2)`: the middle, its unit, and the range that holds nineteen ends out of twenty."""
    low, mid, high = (figure(scale * value) for value in (band.p5, band.p50, band.p95))
    joint = "" if unit == "%" else " "
    return f"{mid}{joint}{unit} ({low} to {high})"


def litres(band: Band) -> str:
    """A band of litres in words."""
    return ranged(band, "L")


def frac(band: Band) -> str:
    """A band of a fraction as percent in words."""
    return ranged(band, "%", scale=100)


def figure(value: float) -> str:
    """Three figures below ten, whole numbers of at most three figures above, never an exponent below a million."""
    if value == 0:
        return "0"
    if abs(value) >= 100:
        return f"{float(f'{value:.3g}'):,.0f}"
    return f"{value:.2g}" if abs(value) < 10 else f"{value:.0f}"


def cautions(found: Sequence[Caution]) -> list[str]:
    """A blank line and one line for each caution; nothing where there is none."""
    return ["", *(f"Take care: {caution.text}" for caution in found)] if found else []
