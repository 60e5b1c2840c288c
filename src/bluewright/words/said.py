"""An answer as it is said: sentences and tables in order, then cautions; a terminal and a page show the same."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from bluewright.science.base.cautions import Caution
from bluewright.words.numbers import NOTES, cautions
from bluewright.words.own_text import own_text

GAP = 3
"""Spaces between the columns of a table in text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """A small table within an answer; the row numbered `advised` (from 0) is the one that is advised."""

    caption: str = ""
    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    advised: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """The answer itself first, then what belongs to it, then what to be careful of."""

    parts: tuple[str | Rows, ...]
    cautions: tuple[Caution, ...]

    @property
    def first(self) -> str:
        """The answer in one line."""
        return next(part for part in self.parts if isinstance(part, str))

    @property
    def take_care(self) -> tuple[str, ...]:
        """What could hurt someone."""
        return tuple(own_text(caution.text) for caution in self.cautions if caution.code not in NOTES)

    @property
    def to_know(self) -> tuple[str, ...]:
        """What to know about the work or the figures."""
        return tuple(own_text(caution.text) for caution in self.cautions if caution.code in NOTES)


def text(said: Said) -> str:
    """The whole of it as plain lines; a table stands between blank lines, its columns under each other."""
    lines = [line for part in said.parts for line in ([part] if isinstance(part, str) else _table(part))]
    while lines and not lines[-1]:
        lines.pop()
    return "\n".join(lines + cautions(said.cautions))


def _table(part: Rows) -> Iterator[str]:
    rows = (part.head, *part.rows)
    widths = [max(len(row[k]) for row in rows) + GAP for k in range(len(part.head))]
    yield ""
    if part.caption:
        yield f"{part.caption}:"
    for number, row in enumerate(rows, start=-1):
        mark = "  <- advised" if number == part.advised and number >= 0 else ""
        yield f"  {''.join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()}{mark}"
    yield ""
