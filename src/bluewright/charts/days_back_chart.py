"""By when must each step begin? A line for each want from today to the day it must be ready, a mark for each step."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, Literal

from bluewright.charts.inputs import check_words
from bluewright.charts.palette import GREEN, INDIGO, INK, LINEN, TEXT_SIZE
from bluewright.charts.parts import MARGIN, RIGHT, Entry, Panel, heading, key, prefix, sheet
from bluewright.charts.scale import Scale, Tick
from bluewright.charts.svg import area, box, element, label, line, shortened, words
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _
from bluewright.words.numbers import month_said, weekday

ROW: Final = 50.0
Kind = Literal["sow", "cut", "step", "ready"]


@dataclass(frozen=True, slots=True, kw_only=True)
class DayMark:
    """A step and the last day to begin it."""

    day: date
    kind: Kind
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DaysRow:
    """One want: its name, and its marks in order, the day on which it is ready last."""

    label: str
    marks: tuple[DayMark, ...]

    def __post_init__(self) -> None:
        check_words(label=self.label)
        if not self.marks:
            raise InputError(where="marks", what="there is none", right="give at least the day when it is ready")


@dataclass(frozen=True, slots=True, kw_only=True)
class DaysBackChart:
    """What is drawn: the question, its answer, today, a row for each want."""

    question: str
    answer: str
    today: date
    rows: tuple[DaysRow, ...]

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer)
        if not self.rows:
            raise InputError(where="rows", what="there is none", right="draw them once something has a day")


def days_back_chart(chart: DaysBackChart) -> str:
    """The chart as SVG text: months along the foot, today as an upright line, marks told apart by shape."""
    name = prefix(chart.question, chart.answer)
    head, y = heading(chart.question, answer=chart.answer)
    key_drawn, key_height = key(_entries(chart), top=y + 4)
    top = y + key_height + 8
    first, last = _ends(chart)
    panel = Panel(
        x=Scale(first.toordinal(), last.toordinal(), MARGIN + 8, RIGHT - 8),
        y=Scale(0.0, 1.0, top, top + ROW * len(chart.rows) + 4),
    )
    today = panel.x(chart.today.toordinal())
    drawn = [head, key_drawn, line(today, top, today, panel.bottom, stroke=GREEN, stroke_width=2.0)]
    drawn += [_row(row, panel, top=top + ROW * index) for index, row in enumerate(chart.rows)]
    drawn.append(panel.level_axis(_months(first, last)))
    return sheet(*drawn, height=panel.bottom + 30, question=chart.question, summary=description(chart), name=name)


def description(chart: DaysBackChart) -> str:
    """What the drawing says, in sentences."""
    rows = []
    for row in chart.rows:
        told = "; ".join(_said(mark) for mark in row.marks)
        rows.append(_("%(what)s: %(days)s.") % {"what": row.label, "days": told})
    return " ".join([chart.answer, *rows])


def _said(mark: DayMark) -> str:
    return _("%(what)s by %(day)s") % {"what": mark.label, "day": weekday(mark.day)}


def _row(row: DaysRow, panel: Panel, *, top: float) -> str:
    y = top + 32
    places = [panel.x(mark.day.toordinal()) for mark in row.marks]
    name = shortened(row.label, size=TEXT_SIZE, width=RIGHT - MARGIN)
    drawn = [
        label(MARGIN, top + 17, name, size=TEXT_SIZE, halo=True),
        line(min(places), y, max(places), y, stroke=INDIGO[3], stroke_width=3.0),
    ]
    drawn += [_mark(mark, x, y) for mark, x in zip(row.marks, places, strict=True)]
    return "".join(drawn)


def _mark(mark: DayMark, x: float, y: float) -> str:
    return element("g", element("title", words(_said(mark))), _SHAPES[mark.kind](x, y))


def _sown(x: float, y: float) -> str:
    return area([(x, y - 8), (x - 7, y + 6), (x + 7, y + 6)], fill=LINEN, stroke=INK, stroke_width=2.0)


def _cut(x: float, y: float) -> str:
    return box(x - 6, y - 6, 12, 12, fill=GREEN, stroke=INK, stroke_width=1.6)


def _step(x: float, y: float) -> str:
    return line(x, y - 7, x, y + 7, stroke=INK, stroke_width=2.0)


def _ready(x: float, y: float) -> str:
    return area([(x - 8, y), (x, y - 8), (x + 8, y), (x, y + 8)], fill=INDIGO[4], stroke=INK, stroke_width=1.6)


_SHAPES: Final = {"sow": _sown, "cut": _cut, "step": _step, "ready": _ready}


def _entries(chart: DaysBackChart) -> list[Entry]:
    kinds = {mark.kind for row in chart.rows for mark in row.marks}
    told: dict[Kind, str] = {
        "sow": _("sow, for one cut"), "cut": _("last cut"), "step": _("each further step"), "ready": _("ready"),
    }  # fmt: skip
    found = [Entry(sample=_SHAPES[kind](13, 7), text=text) for kind, text in told.items() if kind in kinds]
    return [*found, Entry(sample=line(13, 0, 13, 14, stroke=GREEN, stroke_width=2.0), text=_("today"))]


def _ends(chart: DaysBackChart) -> tuple[date, date]:
    days = [chart.today, *(mark.day for row in chart.rows for mark in row.marks)]
    first, last = min(days), max(days)
    room = timedelta(days=max(7, (last - first).days // 12))
    return first - room, last + room


def _months(first: date, last: date) -> list[Tick]:
    """The first of each month."""
    found, day = [], (first.replace(day=1) + timedelta(days=32)).replace(day=1)
    while day <= last:
        found.append(Tick(at=day.toordinal(), label=month_said(day.month)))
        day = (day + timedelta(days=32)).replace(day=1)
    return found
