"""Costs as a table for other programs: a row for each batch, with its ends, in the manner of the season book."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.cost.cost_record import BatchCost, CostAnswer
from bluewright.web.pages.book.export import Cell, as_csv

BANDS: Final = (
    "work_h", "water_l", "pure_g", "work_h_per_g", "cost_money", "carried_money", "cost_money_per_g"
)  # fmt: skip
COLUMNS: Final = (
    "batch", "state", *(f"{name}{end}" for name in BANDS for end in ("", "_low", "_high")), "currency",
)  # fmt: skip


def costs_csv(found: CostAnswer | None, *, bom: bool = False) -> Iterator[str]:
    """Each batch of a season: middles and the ends of their likely ranges."""
    rows = () if found is None else (_row(one, found.inputs.currency) for one in found.batches)
    yield from as_csv(COLUMNS, rows, bom=bom)


def _row(one: BatchCost, currency: str) -> Sequence[Cell]:
    bands: list[Band | None] = [getattr(one, name) for name in BANDS]
    ends = [end for band in bands for end in ((None,) * 3 if band is None else (band.p50, band.p5, band.p95))]
    return (one.id, one.state, *ends, currency)
