"""How numbers are said on pages: two figures, the range that holds the truth nine times in ten."""

from __future__ import annotations

from datetime import datetime

from bluewright.science.base.bands import Band


def moment(time: datetime) -> str:
    """`Sun 5 Jul 18:00`."""
    return f"{time:%a} {time.day} {time:%b %H:%M}"


def percent(value: float) -> str:
    """A fraction as a whole percent, never a false 0 or 100."""
    if 0 < value < 0.005:
        return "under 1 %"
    if 0.995 < value < 1:
        return "over 99 %"
    return f"{100 * value:.0f} %"


def share_words(band: Band) -> str:
    """`86 % (69 to 98)`; a share that is hardly there in words."""
    if band.p95 < 0.01:
        return "next to nothing"
    return f"{100 * band.p50:.0f} % ({100 * band.p5:.0f} to {100 * band.p95:.0f})"


def band_words(band: Band, unit: str) -> str:
    """`6.9 g (2.3 to 21)`."""
    return f"{figure(band.p50)} {unit} ({figure(band.p5)} to {figure(band.p95)})"


def figure(value: float) -> str:
    """Two figures, no exponent."""
    if value == 0:
        return "0"
    rounded = float(f"{value:.2g}")
    return f"{rounded:,.0f}" if abs(rounded) >= 10 else f"{rounded:g}"
