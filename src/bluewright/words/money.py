"""Money as it is said: in the currency that the record names, with its decimals; nothing is exchanged."""

from __future__ import annotations

from bluewright.science.base.bands import Band
from bluewright.words.language import gettext as _
from bluewright.words.numbers import ranged


def money(band: Band, *, currency: str, decimals: int) -> str:
    """`17 EUR (12 to 23)`: two figures, and never finer than the smallest coin."""
    rounded = Band(p5=round(band.p5, decimals), p50=round(band.p50, decimals), p95=round(band.p95, decimals))
    return ranged(rounded, named(currency))


def price(value: float, *, currency: str, decimals: int) -> str:
    """`14 EUR`, `3.20 EUR`: money that was typed, with all its decimals unless they are nought."""
    whole = round(value, decimals) == round(value)
    return f"{value:,.{0 if whole else decimals}f} {named(currency)}"


def named(currency: str) -> str:
    """The currency as it was named, or that it is the reader's own."""
    return currency or _("in your money")
