"""An answer of the science as a page shows it: its first sentence large, then the rest, tables, cautions, chart."""

from __future__ import annotations

from dataclasses import dataclass

from bluewright.web.ui.why import Link
from bluewright.words.said import Rows, Said


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A small table of an answer."""

    caption: str
    head: tuple[str, ...]
    rows: tuple[tuple[bool, tuple[str, ...]], ...]
    """Whether the row is the advised one, and its cells."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answered:
    """An answer in words, with its chart."""

    first: str
    lines: tuple[str, ...]
    tables: tuple[Table, ...]
    take_care: tuple[str, ...]
    """What could hurt someone."""
    to_know: tuple[str, ...]
    """What to know about the work or the figures."""
    chart: str
    """SVG text; empty where there is none."""
    why: Link | None = None
    """Where it says why the main figure is so."""


def answered(said: Said, *, chart: str = "", why: Link | None = None) -> Answered:
    """The parts of what is said."""
    texts = [part for part in said.parts if isinstance(part, str)]
    return Answered(
        first=texts[0],
        lines=tuple(texts[1:]),
        tables=tuple(shown_table(part) for part in said.parts if isinstance(part, Rows)),
        take_care=said.take_care,
        to_know=said.to_know,
        chart=chart,
        why=why,
    )


def shown_table(part: Rows) -> Table:
    """A table of what is said, as a page shows it."""
    rows = tuple((number == part.advised, row) for number, row in enumerate(part.rows))
    return Table(caption=part.caption, head=part.head, rows=rows)
