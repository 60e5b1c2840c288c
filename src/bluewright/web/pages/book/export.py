"""The book as tables for other programs: CSV by RFC 4180, decimal points, dates with offset, units in the names."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from typing import Final
from uuid import UUID
from zoneinfo import ZoneInfo

from bluewright.journal.bridge import book as bridge
from bluewright.journal.bridge.book import Line
from bluewright.journal.models import Garden, Steep
from bluewright.journal.queries import book
from bluewright.web.pages.book.page import stage

BATCH_COLUMNS: Final = (
    "batch_id", "begun_at", "batch", "tubs", "beds", "leaf_kg", "leaf_about", "plant", "steep_h", "tub_temp_c",
    "alkali", "ph", "aired_min", "aired_pours", "pigment_g", "pigment_g_per_kg", "purity_frac", "purity_low_frac",
    "purity_high_frac", "purity_measured", "stage", "how_far", "note",
)  # fmt: skip
LOOK_COLUMNS: Final = (
    "kind", "thing_id", "thing", "look_id", "taken_at", "ph", "temp_c", "dissolved_oxygen_mg_l", "bubbles", "scum",
    "blue_cast", "limpness", "darkness", "smell", "alkali_green", "foam", "liquor", "after_pours", "after_min", "note",
)  # fmt: skip
NO_BATCH: Final = "no batch"
BOM: Final = "\ufeff"
"""Told by some spreadsheet programs from text in their own letters."""
FORMULA: Final = ("=", "+", "-", "@", "\t", "\r")
"""A text that begins so would be run as a formula by spreadsheet programs; an apostrophe before it stops that."""
CHUNK: Final = 200
"""Batches are read so many at a time."""
DIGITS: Final = 6

Cell = object


def batches_csv(of: Garden, *, bom: bool = False) -> Iterator[str]:
    """Every batch of a garden, the newest first, then the tubs that are in none, in parts."""
    yield from as_csv(BATCH_COLUMNS, _batches(of), bom=bom)


def looks_csv(of: Garden, *, bom: bool = False) -> Iterator[str]:
    """Every look at a tub and at the liquor of a batch, in parts."""
    zone = ZoneInfo(of.time_zone)
    rows = ([_in_zone(cell, zone) for cell in row] for row in book.looks(of))
    yield from as_csv(LOOK_COLUMNS, rows, bom=bom)


def as_csv(columns: Sequence[str], rows: Iterable[Sequence[Cell]], *, bom: bool) -> Iterator[str]:
    """A table as CSV text, some hundred rows at a time."""
    held = io.StringIO()
    writer = csv.writer(held)
    held.write(BOM if bom else "")
    writer.writerow(columns)
    for at, row in enumerate(rows, start=1):
        writer.writerow([cell(one) for one in row])
        if at % CHUNK == 0:
            yield held.getvalue()
            held.seek(0)
            held.truncate()
    yield held.getvalue()


def cell(value: Cell) -> str:
    """A value as a table of another program reads it; a text is never a formula there."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.{DIGITS}f}".rstrip("0").rstrip(".")
    if isinstance(value, datetime):
        return value.isoformat(timespec="seconds")
    text = str(value)
    return f"'{text}" if text.startswith(FORMULA) else text


def _in_zone(value: Cell, zone: ZoneInfo) -> Cell:
    return value.astimezone(zone) if isinstance(value, datetime) else value


def _batches(of: Garden) -> Iterator[Sequence[Cell]]:
    zone = ZoneInfo(of.time_zone)
    listed = book.listed(book.begun(of))
    for at in range(0, len(listed), CHUNK):
        rows = listed[at : at + CHUNK]
        pours = book.pours(of, book.begun(of).filter(pk__in=[UUID(row.key) for row in rows]))
        for line in bridge.lines(rows, bridge.baskets(pours, [row.key for row in rows])):
            yield _batch(line, zone)
    waiting = book.waiting(of)
    for at in range(0, len(waiting), CHUNK):
        for tub in book.tubs(waiting[at : at + CHUNK]):
            yield _waiting(tub, zone)


def _batch(line: Line, zone: ZoneInfo) -> Sequence[Cell]:
    tubs, purity = line.basket.tubs, line.purity_frac
    return (
        line.key, line.begun_at.astimezone(zone), line.name, "; ".join(tub.name for tub in tubs),
        "; ".join(line.beds), line.basket.leaf_kg or None, line.basket.about,
        "; ".join(sorted({tub.plant for tub in tubs})), line.basket.steep_h, line.tub_temp_c,
        "; ".join(line.alkalis), line.ph, line.aired_min, line.aired_pours, line.pigment_g, line.g_per_kg,
        purity and purity.p50, purity and purity.p5, purity and purity.p95, line.measured if purity else None,
        line.stage, stage(line), line.note,
    )  # fmt: skip


def _waiting(tub: Steep, zone: ZoneInfo) -> Sequence[Cell]:
    strains = list(tub.strains.all())
    steep_h = (strains[0].strained_at - tub.started_at).total_seconds() / 3600 if strains else None
    known = {
        "begun_at": tub.started_at.astimezone(zone), "tubs": tub.name, "plant": tub.plant, "steep_h": steep_h,
        "leaf_kg": float(sum(part.leaf_kg for part in tub.leaf.all())), "stage": NO_BATCH, "note": tub.note,
    }  # fmt: skip
    return [known.get(column) for column in BATCH_COLUMNS]
