"""Hours of the invented season: some by the clock, some from memory, most not noted at all, as it goes."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime, timedelta
from typing import Any, Final, NamedTuple

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Batch, Bed, Garden, WorkNote

PRICES: Final[dict[str, Any]] = {
    "currency": "EUR", "wage_money_per_h": 12.0, "water_money_per_m3": 3.2, "price_money_per_g": 14.0,
    "margin_frac": 0.1,
}  # fmt: skip
"""What a garden that sells a little blue may reckon with."""


class Note(NamedTuple):
    """Work of so many days ago: its kind, minutes, whether a clock took them, and for which batch or bed."""

    days_ago: int
    kind: str
    spent_min: float
    by_clock: bool = False
    batch: str = ""
    bed: str = ""


NOTES: Final = (
    Note(96, "bed", 150.0, bed="Long bed"),
    Note(88, "bed", 90.0, bed="Wall bed"),
    Note(84, "picking", 38.0, by_clock=True, batch="First cut"),
    Note(83, "looking", 35.0, batch="First cut"),
    Note(82, "airing", 52.0, by_clock=True, batch="First cut"),
    Note(66, "bed", 120.0, bed="Long bed"),
    Note(55, "picking", 45.0, by_clock=True, batch="Second cut"),
    Note(53, "airing", 44.0, by_clock=True, batch="Second cut"),
    Note(50, "washing", 40.0, batch="Second cut"),
    Note(20, "other", 60.0),
)


def write_hours(of: Garden, *, batches: Mapping[str, Batch], beds: Mapping[str, Bed], now: datetime, by: Any) -> None:
    """Write the notes; what names a batch or a bed that is not there is for the whole season."""
    for told in NOTES:
        began_at = (now - timedelta(days=told.days_ago)).replace(hour=9, minute=30, second=0, microsecond=0)
        row = WorkNote(
            garden=of, kind=told.kind, began_at=began_at, spent_min=told.spent_min,
            spent_typed="" if told.by_clock else f"{told.spent_min:g} min", batch=batches.get(told.batch),
            bed=beds.get(told.bed),
        )  # fmt: skip
        keep(row, by=by)
