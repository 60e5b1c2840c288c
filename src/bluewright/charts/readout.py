"""What a chart says place by place: read off under a finger, and as a table below the drawing.

A drawing carries its figures with it, in one attribute, so that page, script and table cannot disagree with it.
"""

from __future__ import annotations

import html
import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bluewright.charts.svg import number

MOST_ROWS: Final = 25
"""Of the table; the finger reads every place."""
_CARRIED: Final = re.compile(r"""<svg[^>]*? data-figures=(?:"([^"]*)"|'([^']*)')""")


@dataclass(frozen=True, slots=True, kw_only=True)
class Figures:
    """The figures of a drawing: heads of the columns, and for each place its `x` in the drawing and a cell a column."""

    heads: tuple[str, ...]
    places: tuple[tuple[float, tuple[str, ...]], ...]
    top: float
    """Where the line under the finger begins, in the drawing."""
    bottom: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """The same as a table, thinned to what a person reads."""

    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]


def carried(figures: Figures) -> str:
    """The figures as the text of the attribute `data-figures`."""
    plain = {
        "heads": figures.heads,
        "top": float(number(figures.top)),
        "bottom": float(number(figures.bottom)),
        "places": [[float(number(x)), *cells] for x, cells in figures.places],
    }
    return json.dumps(plain, ensure_ascii=False, separators=(",", ":"))


def table_of(drawing: str) -> Table | None:
    """The table of a drawing's figures; None where it carries none."""
    found = _CARRIED.match(drawing)
    if found is None:
        return None
    plain = json.loads(html.unescape(found[1] or found[2]))
    rows = [tuple(str(cell) for cell in place[1:]) for place in plain["places"]]
    return Table(heads=tuple(plain["heads"]), rows=tuple(_thinned(rows)))


def _thinned(rows: Sequence[tuple[str, ...]]) -> list[tuple[str, ...]]:
    """At most so many rows, evenly chosen, the first and the last among them."""
    last = len(rows) - 1
    if last < MOST_ROWS:
        return list(rows)
    return [rows[round(k * last / (MOST_ROWS - 1))] for k in range(MOST_ROWS)]
