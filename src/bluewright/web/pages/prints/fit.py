"""Tables that fit on one sheet: first fewer empty lines, then the middle of the longest lists is left out."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from django.utils.translation import ngettext

LINE_MM: Final = 3.6
PAD_MM: Final = 1.7
"""Above and below the text of a row, together with the line under it."""
BLANK_MM: Final = 7.5
"""Room for a pencil."""
GAP_MM: Final = 2.0
TEXT_GAP_MM: Final = 0.8
"""Below a paragraph."""
HEAD_MM: Final = 19.0
SHEET_MM: Final = {"a4": 297.0, "us-letter": 279.4}
WIDE_MM: Final = 186.0
"""Width within the margins of the narrower paper."""
MARGIN_MM: Final = 12.0
LETTER_MM: Final = 1.4
"""Width of a letter, on the wide side: text that seems to fit does fit."""
MOST_LINES: Final = 3
"""Lines of a cell; what is longer ends in three dots."""
FEWEST_ROWS: Final = 3
"""A list is not cut below its first, a word of what is left out, and its last."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row, and how many lines high it is on paper."""

    cells: tuple[str, ...]
    lines: int

    @property
    def high_mm(self) -> float:
        """Its height."""
        return LINE_MM * self.lines + PAD_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """One table of a sheet: its title stands in the first cell of its head."""

    title: str
    head: tuple[str, ...]
    """Names of the further columns."""
    widths: tuple[int, ...]
    """How wide the columns are beside each other."""
    rows: tuple[Row, ...]
    blanks: int
    """Empty lines for what is still to come."""

    @property
    def empty(self) -> range:
        """The empty lines, to be gone through."""
        return range(self.blanks)

    @property
    def high_mm(self) -> float:
        """Its height on paper, head and empty lines included."""
        head = _row((self.title, *self.head), self.widths)
        return head.high_mm + sum(row.high_mm for row in self.rows) + BLANK_MM * self.blanks


def table(
    title: str, columns: dict[str, int], rows: Sequence[tuple[str, ...]], *, first: int = 3, blanks: int = 0
) -> Table:
    """A table of so many columns, each with its width, beside a first one under the title."""
    widths = (first, *columns.values())
    return Table(
        title=title,
        head=tuple(columns),
        widths=widths,
        rows=tuple(_row(cells, widths) for cells in rows),
        blanks=blanks,
    )


def height_mm(tables: Sequence[Table]) -> float:
    """How high the tables stand under each other, gaps included."""
    return sum(GAP_MM + one.high_mm for one in tables)


def room_mm(paper: str) -> float:
    """How high tables may stand on a sheet below its head."""
    return SHEET_MM[paper] - 2 * MARGIN_MM - HEAD_MM - GAP_MM


def text_mm(texts: Sequence[str]) -> float:
    """How high paragraphs of small print over the whole width stand."""
    letters = int(WIDE_MM / LETTER_MM)
    return sum(LINE_MM * max(1, len(textwrap.wrap(text, letters))) + TEXT_GAP_MM for text in texts)


def fitted(tables: Sequence[Table], *, paper: str, beside_mm: float = 0.0) -> tuple[Table, ...]:
    """The tables, cut until they fit on the sheet beside what else stands there: eight with rows of one line always do,
    where nothing does."""
    rows, blanks = [len(one.rows) for one in tables], [one.blanks for one in tables]
    while True:
        found = tuple(
            replace(_cut(one, rows=n), blanks=empty) for one, n, empty in zip(tables, rows, blanks, strict=True)
        )
        if height_mm(found) + beside_mm <= room_mm(paper):
            return found
        if max(blanks) <= 1 and max(rows) <= FEWEST_ROWS:
            return tuple(replace(one, rows=tuple(replace(row, lines=1) for row in one.rows)) for one in found)
        longer = blanks if max(blanks) > 1 else rows
        longer[longer.index(max(longer))] -= 1


@lru_cache(maxsize=1024)
def _row(cells: tuple[str, ...], widths: tuple[int, ...]) -> Row:
    told = [
        textwrap.wrap(text, _letters(width, widths), max_lines=MOST_LINES, placeholder=" …")
        for text, width in zip(cells, widths, strict=True)
    ]
    return Row(cells=tuple(" ".join(lines) for lines in told), lines=max(1, *(len(lines) for lines in told)))


def _letters(width: int, widths: tuple[int, ...]) -> int:
    """How many letters stand in one line of a column."""
    return int((WIDE_MM * width / sum(widths) - 2) / LETTER_MM)


def _cut(table: Table, *, rows: int) -> Table:
    """The table in so many rows: its first and its last ones, and between them how many are left out."""
    if len(table.rows) <= rows:
        return table
    first, last = rows // 2, rows - 1 - rows // 2
    gone = len(table.rows) - first - last
    said = ngettext("%(n)d line left out", "%(n)d lines left out", gone) % {"n": gone}
    gap = _row(("…", said, *("",) * (len(table.widths) - 2)), table.widths)
    return replace(table, rows=(*table.rows[:first], gap, *table.rows[len(table.rows) - last :]))
