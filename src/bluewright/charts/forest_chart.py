"""Results side by side: a row for each, a square in its range; what they say together as a diamond below."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from bluewright.charts.inputs import Span, check_words
from bluewright.charts.palette import GREEN, INDIGO, INK, LINEN, SMALL_SIZE, SOFT_INK, TEXT_SIZE
from bluewright.charts.parts import MARGIN, RIGHT, Entry, Panel, heading, key, prefix, range_said, sheet
from bluewright.charts.scale import Scale, outer_ticks
from bluewright.charts.svg import area, box, label, line, shortened, text_width
from bluewright.charts.waterfall import whisker
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _
from bluewright.words.numbers import with_range

ROW: Final = 46.0
Kind = Literal["result", "bound", "together"]


@dataclass(frozen=True, slots=True, kw_only=True)
class ForestRow:
    """One result; a `bound` says only that there is no more, `together` is what all say."""

    label: str
    kind: Kind
    amount: Span

    def __post_init__(self) -> None:
        check_words(label=self.label)


@dataclass(frozen=True, slots=True, kw_only=True)
class ForestChart:
    """What is drawn: the question, its answer, the rows from the top."""

    question: str
    answer: str
    name: str
    """What the level axis shows, with its unit."""
    unit: str
    rows: tuple[ForestRow, ...]

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer, name=self.name)
        if not self.rows:
            raise InputError(where="rows", what="there is none", right="draw them once there is a result")


def forest_chart(chart: ForestChart) -> str:
    """The chart as SVG text: words above each range, figures at the right, all on one axis from nothing on."""
    name = prefix(chart.question, chart.answer)
    head, y = heading(chart.question, answer=chart.answer)
    key_drawn, key_height = key(_entries(chart), top=y + 4)
    top = y + key_height + 8
    ticks = outer_ticks(0.0, max(row.amount.high for row in chart.rows), wanted=5)
    panel = Panel(
        x=Scale(0.0, ticks[-1].at, MARGIN + 8, RIGHT - 8), y=Scale(0.0, 1.0, top, top + ROW * len(chart.rows) + 8)
    )
    drawn = [head, key_drawn]
    for index, row in enumerate(chart.rows):
        drawn.append(_row(row, panel, chart.unit, top=top + ROW * index))
    drawn.append(panel.level_axis(ticks))
    drawn.append(label(RIGHT, panel.bottom + 37, chart.name, size=SMALL_SIZE, fill=SOFT_INK, anchor="end"))
    return sheet(*drawn, height=panel.bottom + 48, question=chart.question, summary=description(chart), name=name)


def description(chart: ForestChart) -> str:
    """What the drawing says, in sentences with figures."""
    rows = []
    for row in chart.rows:
        said = {"what": row.label, "share": _figures(row.amount, chart.unit)}
        rows.append((_("%(what)s: at most %(share)s.") if row.kind == "bound" else _("%(what)s: %(share)s.")) % said)
    return " ".join([chart.answer, *rows])


def _row(row: ForestRow, panel: Panel, unit: str, *, top: float) -> str:
    figures = _figures(row.amount, unit)
    room = RIGHT - MARGIN - text_width(figures, SMALL_SIZE) - 12
    size = TEXT_SIZE if text_width(row.label, TEXT_SIZE) <= room else SMALL_SIZE
    y = top + 30
    low, mid, high = (panel.x(value) for value in (row.amount.low, row.amount.mid, row.amount.high))
    drawn = [
        label(MARGIN, top + 15, shortened(row.label, size=size, width=room), size=size),
        label(RIGHT, top + 15, figures, size=SMALL_SIZE, fill=SOFT_INK, anchor="end"),
    ]
    if row.kind == "together":
        return "".join([*drawn, _diamond(low, mid, high, y)])
    if row.kind == "bound":
        return "".join([*drawn, line(panel.x.start, y, mid, y, **_DOTTED), _stop(mid, y)])
    return "".join([*drawn, whisker(low, high, y), _square(mid, y)])


_DOTTED: Final[dict[str, str | float | None]] = {"stroke": GREEN, "stroke_width": 2.0, "stroke_dasharray": "2 4"}


def _square(x: float, y: float) -> str:
    return box(x - 5, y - 5, 10, 10, fill=LINEN, stroke=INK, stroke_width=2.2)


def _diamond(low: float, mid: float, high: float, y: float) -> str:
    return area([(low, y), (mid, y - 8), (high, y), (mid, y + 8)], fill=INDIGO[3], stroke=INK, stroke_width=1.5)


def _stop(x: float, y: float) -> str:
    """A wall: no more than this."""
    return line(x, y - 9, x, y + 9, stroke=GREEN, stroke_width=3.0)


def _figures(span: Span, unit: str) -> str:
    return with_range(f"{span.mid:.2g}{unit}", f"{span.low:.2g}", f"{span.high:.2g}")


def _entries(chart: ForestChart) -> list[Entry]:
    kinds = {row.kind for row in chart.rows}
    found = []
    if "result" in kinds:
        found.append(Entry(sample=whisker(1, 25, 7) + _square(13, 7), text=range_said()))
    if "together" in kinds:
        found.append(Entry(sample=_diamond(0, 13, 26, 7), text=_("all together")))
    if "bound" in kinds:
        found.append(Entry(sample=line(0, 7, 20, 7, **_DOTTED) + _stop(21, 7), text=_("at most")))
    return found
