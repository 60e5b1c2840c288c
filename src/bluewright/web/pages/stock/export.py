"""Stock as a table for other programs: a row for each jar."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Final
from zoneinfo import ZoneInfo

from bluewright.journal.bridge.stock import pure_left_g
from bluewright.journal.models import Jar
from bluewright.journal.queries.jars import left_g, put_in_g
from bluewright.web.pages.book.export import Cell, as_csv

COLUMNS: Final = (
    "jar_id", "jar", "filled_at", "put_in_g", "taken_g", "adjusted_g", "left_g", "pure_left_g", "pure_left_low_g",
    "pure_left_high_g", "stands", "note",
)  # fmt: skip


def stock_csv(jars: Sequence[Jar], *, zone: ZoneInfo, bom: bool = False) -> Iterator[str]:
    """Each jar: put in, taken, booked at weighings, left, and the pure blue of that."""
    yield from as_csv(COLUMNS, (_row(jar, zone) for jar in jars), bom=bom)


def _row(jar: Jar, zone: ZoneInfo) -> Sequence[Cell]:
    pure, taken = pure_left_g(jar), list(jar.taken.all())
    return (
        jar.pk, jar.name, jar.filled_at.astimezone(zone), put_in_g(jar),
        float(sum(row.taken_g for row in taken if row.weighed_g is None)),
        float(-sum(row.taken_g for row in taken if row.weighed_g is not None)), left_g(jar),
        pure and pure.p50, pure and pure.p5, pure and pure.p95, jar.stands, jar.note,
    )  # fmt: skip
