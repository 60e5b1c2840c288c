"""Several indices against minutes, each reading a dot with its range: told apart by dash, shape and label."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bluewright.charts.inputs import Span, check_words
from bluewright.charts.palette import GREEN, INDIGO, INK, LINEN, SMALL_SIZE, SOFT_INK, TAN_INK
from bluewright.charts.parts import (
    RIGHT,
    Entry,
    Labels,
    Panel,
    heading,
    key,
    left_edge,
    prefix,
    sheet,
    span_said,
)
from bluewright.charts.readout import Figures
from bluewright.charts.scale import Scale, inner_ticks, outer_ticks
from bluewright.charts.svg import Look, area, element, label, line, path, words
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _
from bluewright.words.numbers import figure

HEIGHT: Final = 220.0
MOST_LINES: Final = 2
LOOKS: Final[tuple[Look, ...]] = (
    {"stroke": INDIGO[4], "stroke_width": 2.6},
    {"stroke": TAN_INK, "stroke_width": 2.2, "stroke_dasharray": "6 4"},
)
_LEVEL: Final[Look] = {"stroke": GREEN, "stroke_width": 2.0, "stroke_dasharray": "10 4"}
_EVENT: Final[Look] = {"stroke": INK, "stroke_width": 1.6, "stroke_dasharray": "2 3"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Series:
    """One index: its name, and readings as minute and range, in order."""

    name: str
    readings: tuple[tuple[float, Span], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """Something done at a minute: a dose."""

    at: float
    label: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SeriesChart:
    """What is drawn; at least one series with a reading, at most two."""

    question: str
    answer: str
    x_name: str
    y_name: str
    series: tuple[Series, ...]
    level: tuple[float, str] | None = None
    """A height that matters, and what it is."""
    events: tuple[Event, ...] = ()

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer, x_name=self.x_name, y_name=self.y_name)
        if not any(one.readings for one in self.series):
            raise InputError(where="series", what="there is no reading", right="draw them once there is one")
        if len(self.series) > MOST_LINES:
            raise InputError(where="series", what="they could not be told apart", right=f"at most {MOST_LINES}")


def series_chart(chart: SeriesChart) -> str:
    """The chart as SVG text."""
    name = prefix(chart.question, chart.answer)
    head, y = heading(chart.question, answer=chart.answer)
    key_drawn, key_height = key(_entries(chart), top=y + 4)
    panel = _panel(chart, top=y + key_height + 34)
    labels = Labels(panel)
    drawn = [panel.upright_axis(chart.y_name), panel.level_axis(inner_ticks(panel.x.low, panel.x.high, wanted=6))]
    if chart.level is not None:
        at = panel.y(chart.level[0])
        drawn.append(line(panel.x.start, at, panel.x.end, at, **_LEVEL))
    drawn += [_event(event, panel, labels) for event in chart.events]
    drawn += [_line(one, panel, number) for number, one in enumerate(chart.series)]
    drawn.append(label(RIGHT, panel.bottom + 38, chart.x_name, size=SMALL_SIZE, fill=SOFT_INK, anchor="end"))
    return sheet(
        head, key_drawn, *drawn, height=panel.bottom + 50, question=chart.question, summary=description(chart),
        name=name, figures=_figures(chart, panel),
    )  # fmt: skip


def description(chart: SeriesChart) -> str:
    """What the drawing says, in sentences with figures."""
    said = [chart.answer, _("Shown: %(y)s against %(x)s.") % {"y": chart.y_name, "x": chart.x_name}]
    for one in chart.series:
        rows = ", ".join(_("%(y)s at %(x)s") % {"y": span_said(span), "x": figure(at)} for at, span in one.readings)
        said += [f"{one.name}: {rows}."] if rows else []
    return " ".join(said)


def _panel(chart: SeriesChart, *, top: float) -> Panel:
    readings = [reading for one in chart.series for reading in one.readings]
    xs = [at for at, _span in readings] + [event.at for event in chart.events]
    ys = [value for _at, span in readings for value in (span.low, span.high)]
    ys += [chart.level[0]] if chart.level else []
    ticks = outer_ticks(min(ys), max(ys) if max(ys) > min(ys) else min(ys) + 1.0, wanted=6)
    room = max((max(xs) - min(xs)) / 25, 0.5)
    return Panel(
        x=Scale(min(xs) - room, max(xs) + room, left_edge(ticks), RIGHT - 8),
        y=Scale(ticks[0].at, ticks[-1].at, top + HEIGHT, top),
        y_ticks=ticks,
    )


def _event(event: Event, panel: Panel, labels: Labels) -> str:
    x = panel.x(event.at)
    return line(x, panel.top, x, panel.bottom, **_EVENT) + labels.beside(x, panel.top + 14, event.label)


def _line(one: Series, panel: Panel, number: int) -> str:
    look = LOOKS[number]
    places = [(panel.x(at), span) for at, span in one.readings]
    drawn = [path([(x, panel.y(span.mid)) for x, span in places], **look)] if len(places) > 1 else []
    solid: Look = {"stroke": look["stroke"], "stroke_width": 1.8}
    for (x, span), (at, _span) in zip(places, one.readings, strict=True):
        drawn.append(line(x, panel.y(span.low), x, panel.y(span.high), **solid))
        told = _("%(y)s at %(x)s") % {"y": span_said(span), "x": figure(at)}
        drawn.append(_spot(number, x, panel.y(span.mid), f"{one.name}: {told}"))
    return "".join(drawn)


def _spot(number: int, x: float, y: float, text: str) -> str:
    """A ring for the first series, a square for the second."""
    said = element("title", words(text)) if text else ""
    look: Look = {"fill": LINEN, "stroke": LOOKS[number]["stroke"], "stroke_width": 2.2}
    if number == 0:
        return element("circle", said, cx=x, cy=y, r=4.4, **look)
    return element("g", said, area([(x - 4, y - 4), (x + 4, y - 4), (x + 4, y + 4), (x - 4, y + 4)], **look))


def _entries(chart: SeriesChart) -> list[Entry]:
    found = [
        Entry(sample=line(0, 7, 26, 7, **LOOKS[number]) + _spot(number, 13, 7, ""), text=one.name)
        for number, one in enumerate(chart.series)
        if one.readings
    ]
    if chart.level is not None:
        found.append(Entry(sample=line(0, 7, 26, 7, **_LEVEL), text=chart.level[1]))
    return found


def _figures(chart: SeriesChart, panel: Panel) -> Figures:
    minutes = sorted({at for one in chart.series for at, _span in one.readings})
    by_minute = [dict(one.readings) for one in chart.series]
    return Figures(
        heads=(chart.x_name, *(one.name for one in chart.series)),
        places=tuple((panel.x(at), (figure(at), *_cells(by_minute, at))) for at in minutes),
        top=panel.top,
        bottom=panel.bottom,
    )


def _cells(by_minute: Sequence[dict[float, Span]], at: float) -> list[str]:
    return [span_said(rows[at]) if at in rows else "–" for rows in by_minute]
