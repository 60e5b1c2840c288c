"""How far two colours may be off each other by the way they were taken, and what a difference means to the eye."""

from __future__ import annotations

from typing import Final, Literal

from bluewright.science.base.sourced import Sourced

Taken = Literal["same_photo", "same_card", "instrument", "apart"]
"""How the colours were taken: side by side in one photo; in photos corrected by one card; with one spectrometer or
colour meter; or in photos that share nothing."""
Size = Literal["unseen", "beside", "plain", "large", "other"]
"""What a difference is to the eye: not seen; seen side by side; plain; large; another colour."""


def _apart(value: float, low: float, high: float, note: str) -> Sourced:
    return Sourced(
        value=value, unit="1", source="common-practice", low=low, high=high, grade="guess",
        note=f"CIEDE2000 by which two colours that are the same come out apart: {note}",
    )  # fmt: skip


APART_SD: Final[dict[Taken, Sourced]] = {
    "same_photo": _apart(0.5, 0.3, 1.0, "two boxes of one photo, lit alike (simulated and judged)"),
    "same_card": _apart(1.5, 1.0, 2.0, "two photos corrected by the same card (simulated and judged)"),
    "instrument": _apart(0.2, 0.05, 0.5, "one spectrometer, cloth moved and read again"),
    "apart": _apart(4.0, 3.0, 5.0, "two photos without a card in common (simulated and judged)"),
}
"""Spread of a difference where the colours bring none of their own."""
SIZES: Final[tuple[tuple[float, Size], ...]] = (
    (1.0, "unseen"), (2.0, "beside"), (5.0, "plain"), (10.0, "large"), (float("inf"), "other"),
)  # fmt: skip
"""Up to which CIEDE2000 each word goes: 1 is about the least that an eye sees, side by side (common practice)."""
TOLD_APART: Final = Sourced(
    value=7.815, unit="1", source="common-practice", low=7.81, high=7.82, grade="exact",
    note="95 % point of chi-square with three degrees of freedom",
)  # fmt: skip
OTHER_OBSERVER: Final = Sourced(
    value=3.0, unit="1", source="common-practice", low=2.0, high=3.0, grade="guess",
    note="CIEDE2000 between the Lab of one indigo-dyed cloth for the 10 degree and the 2 degree observer, and between "
    "D50 and D65, at middle and deep shades (simulated)",
)  # fmt: skip
