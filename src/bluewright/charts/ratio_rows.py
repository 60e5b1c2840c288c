"""Rows of ratios with their ranges, on one axis of so many times as much, with a line at no difference."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bluewright.charts.inputs import Span, check_words
from bluewright.charts.palette import INDIGO, INK, LINEN, SMALL_SIZE, SOFT_INK, TAN_INK, TEXT_SIZE
from bluewright.charts.parts import MARGIN, RIGHT, Entry, Panel, heading, key, prefix, range_said, sheet
from bluewright.charts.scale import Scale, Tick
from bluewright.charts.svg import area, element, label, line, shortened, text_width, words
from bluewright.charts.waterfall import whisker
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _

ROW: Final = 48.0
_WIDE: Final = (0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0)
_USUAL: Final = (0.3, 0.5, 0.7, 1.0, 1.5, 2.0, 3.0)
_CLOSE: Final = (0.7, 0.8, 0.9, 1.0, 1.1, 1.25, 1.4)
_LEAST_REACH: Final = math.log(1.3)
_MOST_REACH: Final = math.log(20.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class RatioRow:
    """One ratio with its range, figures in words, and single ratios that it is made of (tubs of one picking)."""

    label: str
    figures: str
    ratio: Span | None
    """Absent where there is no range."""
    singles: tuple[tuple[float, str], ...] = ()
    """Ratio, and its words for a pointer or a screen reader."""

    def __post_init__(self) -> None:
        check_words(label=self.label)
        values = [value for value, _said in self.singles]
        if self.ratio is not None:
            values += [self.ratio.low, self.ratio.mid, self.ratio.high]
        if any(value <= 0 for value in values):
            raise InputError(where="ratio", what="it is not above zero", right="give so many times as much")


@dataclass(frozen=True, slots=True, kw_only=True)
class RatioChart:
    """What is drawn: the question, its answer, and at least one row."""

    question: str
    answer: str
    name: str
    """What the axis shows."""
    rows: tuple[RatioRow, ...]

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer, name=self.name)
        if not self.rows:
            raise InputError(where="rows", what="there is none", right="draw them once there is a result")


def ratio_chart(chart: RatioChart) -> str:
    """The chart as SVG text."""
    head, y = heading(chart.question, answer=chart.answer)
    key_drawn, key_height = key(ratio_entries(chart.rows), top=y + 4)
    drawn, bottom = ratio_rows(chart.rows, top=y + key_height + 8, name=chart.name)
    summary = " ".join([chart.answer, *(_("%(what)s: %(share)s.") % _told(row) for row in chart.rows)])
    name = prefix(chart.question, chart.answer)
    return sheet(head, key_drawn, drawn, height=bottom, question=chart.question, summary=summary, name=name)


def _told(row: RatioRow) -> dict[str, str]:
    return {"what": row.label, "share": row.figures}


def ratio_rows(rows: Sequence[RatioRow], *, top: float, name: str) -> tuple[str, float]:
    """The rows from `top` downwards with their axis, and where they end on paper."""
    reach = _reach(rows)
    panel = Panel(
        x=Scale(-reach, reach, MARGIN + 8, RIGHT - 8), y=Scale(0.0, 1.0, top, top + ROW * len(rows) + 6)
    )  # fmt: skip
    none = panel.x(0.0)
    drawn = [line(none, panel.top, none, panel.bottom, stroke=TAN_INK, stroke_width=1.8, stroke_dasharray="7 4")]
    drawn += [_row(row, panel, top=top + ROW * index) for index, row in enumerate(rows)]
    drawn.append(panel.level_axis(_ticks(reach)))
    drawn.append(label(RIGHT, panel.bottom + 37, name, size=SMALL_SIZE, fill=SOFT_INK, anchor="end"))
    return "".join(drawn), panel.bottom + 48


def _row(row: RatioRow, panel: Panel, *, top: float) -> str:
    room = RIGHT - MARGIN - text_width(row.figures, SMALL_SIZE) - 12
    y = top + 32
    drawn = [
        label(MARGIN, top + 15, shortened(row.label, size=TEXT_SIZE, width=room), size=TEXT_SIZE, halo=True),
        label(RIGHT, top + 15, row.figures, size=SMALL_SIZE, fill=SOFT_INK, anchor="end", halo=True),
    ]
    if row.ratio is not None:
        low, mid, high = (panel.x(_inside(value, panel)) for value in (row.ratio.low, row.ratio.mid, row.ratio.high))
        drawn += [whisker(low, high, y), _diamond(mid, y)]
    drawn += [_single(panel.x(_inside(value, panel)), y, said) for value, said in row.singles]
    return "".join(drawn)


def _inside(ratio: float, panel: Panel) -> float:
    """Its logarithm, at the edge where it lies beyond: the figures beside say how far."""
    return min(max(math.log(ratio), panel.x.low), panel.x.high)


def _diamond(x: float, y: float) -> str:
    return area([(x - 7, y), (x, y - 8), (x + 7, y), (x, y + 8)], fill=INDIGO[3], stroke=INK, stroke_width=1.5)


def _single(x: float, y: float, said: str) -> str:
    title = element("title", words(said)) if said else ""
    return element("circle", title, cx=x, cy=y, r=3.4, fill=LINEN, stroke=INK, stroke_width=1.6)


def _reach(rows: Sequence[RatioRow]) -> float:
    values = [value for row in rows for value, _said in row.singles]
    values += [value for row in rows if row.ratio is not None for value in (row.ratio.low, row.ratio.high)]
    furthest = max((abs(math.log(value)) for value in values), default=0.0)
    return min(max(1.08 * furthest, _LEAST_REACH), _MOST_REACH)


def _ticks(reach: float) -> list[Tick]:
    return [
        Tick(at=math.log(place), label=_("as much") if place == 1 else f"× {place:g}")
        for place in (_CLOSE if reach < math.log(1.5) else _USUAL if reach < math.log(3.5) else _WIDE)
        if abs(math.log(place)) <= reach
    ]


def ratio_entries(rows: Sequence[RatioRow]) -> list[Entry]:
    """The key of such rows."""
    found = [Entry(sample=whisker(1, 25, 7) + _diamond(13, 7), text=range_said())]
    if any(row.singles for row in rows):
        found.append(Entry(sample=_single(13, 7, ""), text=_("one picking")))
    found.append(
        Entry(
            sample=line(0, 7, 26, 7, stroke=TAN_INK, stroke_width=1.8, stroke_dasharray="7 4"), text=_("no difference")
        )
    )
    return found
