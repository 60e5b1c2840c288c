"""Single results against the date: a ring for each, a cross on the axis for what gave nothing, the middle of all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from statistics import median
from typing import Final

from bluewright.charts.inputs import check_words
from bluewright.charts.palette import INDIGO, INK, TAN_INK
from bluewright.charts.parts import RIGHT, Entry, Panel, dot, heading, key, left_edge, prefix, sheet
from bluewright.charts.scale import Scale, Tick, hour_ticks, hours_since, outer_ticks
from bluewright.charts.svg import Look, element, line, number
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _
from bluewright.words.language import ngettext
from bluewright.words.numbers import day_of_year

HEIGHT: Final = 190.0
RINGS: Final = 150
"""Up to so many results are rings with words; more are dots in one stroke of the pen."""
YEARS_H: Final = 500 * 24.0
"""A longer time has years on its axis instead of dates."""
DAY_H: Final = 24.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Result:
    """One result; a value of None is one that came to nothing."""

    time: datetime
    value: float | None
    label: str
    """For a pointer or a screen reader."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DotsChart:
    """What is drawn: the question, its answer, and the results, at least one with a value."""

    question: str
    answer: str
    name: str
    """What the upright axis shows, with its unit."""
    results: tuple[Result, ...]
    ring_text: str
    """What a ring is."""
    cross_text: str
    """What a cross is."""

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer, name=self.name)
        values = [one.value for one in self.results if one.value is not None]
        if not values:
            raise InputError(where="results", what="none has a value", right="draw them once there is one")
        if min(values) < 0:
            raise InputError(where="results", what=f"{min(values):g} is below zero", right="give what was weighed")


def dots_chart(chart: DotsChart) -> str:
    """The chart as SVG text, with an axis from the first to the last result, with some room on both sides."""
    results = sorted(chart.results, key=lambda one: one.time)
    room = max(timedelta(hours=DAY_H), (results[-1].time - results[0].time) / 40)
    start = results[0].time - room
    hours = hours_since(start, [one.time for one in results], where="results")
    values = [one.value for one in results if one.value is not None]
    middle = median(values)
    name = prefix(chart.question, chart.answer, start.isoformat())
    head, y = heading(chart.question, answer=chart.answer)
    key_drawn, key_height = key(_entries(chart), top=y)
    ticks = outer_ticks(0.0, max(values) or 1.0)
    top, span_h = y + key_height + 30, hours[-1] + room / timedelta(hours=1)
    upright = Scale(ticks[0].at, ticks[-1].at, top + HEIGHT, top)
    panel = Panel(x=Scale(0.0, span_h, left_edge(ticks), RIGHT), y=upright, y_ticks=ticks)
    drawn = [panel.upright_axis(chart.name), panel.level_axis(time_ticks(start, span_h))]
    at_middle = panel.y(middle)
    drawn.append(line(panel.x.start, at_middle, panel.x.end, at_middle, **_MIDDLE))
    places = list(zip(results, hours, strict=True))
    crosses = [(panel.x(hour), one.label) for one, hour in places if one.value is None]
    drawn.append(_crosses(crosses, panel.bottom))
    drawn.append(_dots([(*panel.at(hour, one.value), one.label) for one, hour in places if one.value is not None]))
    shown = {"n": str(len(values)), "low": f"{min(values):.3g}", "high": f"{max(values):.3g}", "name": chart.name}
    told = ngettext(
        "Shown: %(n)s result from %(low)s to %(high)s, %(name)s.",
        "Shown: %(n)s results from %(low)s to %(high)s, %(name)s.",
        len(values),
    )
    summary = f"{chart.answer} {told % shown}"
    return sheet(head, key_drawn, *drawn, height=panel.bottom + 30, question=chart.question, summary=summary, name=name)


def time_ticks(start: datetime, span_h: float) -> list[Tick]:
    """Dates for a season, years for longer, as ticks in hours since `start`."""
    if span_h <= YEARS_H:
        times = [(tick.at, start + timedelta(hours=tick.at)) for tick in hour_ticks(start, span_h, most=7)]
        return [Tick(at=at, label=day_of_year(time) if time.hour == 0 else "") for at, time in times]
    last = (start + timedelta(hours=span_h)).year
    begun = [
        (year, start.replace(year=year, month=1, day=1, hour=0, minute=0)) for year in range(start.year + 1, last + 1)
    ]
    return [Tick(at=(first - start) / timedelta(hours=1), label=str(year)) for year, first in begun]


_MIDDLE: Final[Look] = {"stroke": TAN_INK, "stroke_width": 1.8, "stroke_dasharray": "7 4"}
_CROSS: Final = "m-4 -4l8 8m0 -8l-8 8"


def _entries(chart: DotsChart) -> list[Entry]:
    found = [Entry(sample=dot(13, 7, ""), text=chart.ring_text)]
    if any(one.value is None for one in chart.results):
        cross = element("path", d=f"M13 7{_CROSS}", stroke=INK, stroke_width=2.2)
        found.append(Entry(sample=cross, text=chart.cross_text))
    found.append(Entry(sample=line(0, 7, 26, 7, **_MIDDLE), text=_("middle: half gave more, half less")))
    return found


def _dots(places: Sequence[tuple[float, float, str]]) -> str:
    """Rings with words while there are few; else all in one path, so that thousands stay small."""
    if len(places) <= RINGS:
        return "".join(dot(x, y, text) for x, y, text in places)
    steps = "".join(f"M{x:.1f} {y:.1f}h0" for x, y, _text in places)
    return element("path", d=steps, stroke=INDIGO[4], stroke_width=4.0, stroke_linecap="round", fill="none")


def _crosses(places: Sequence[tuple[float, str]], bottom: float) -> str:
    steps = "".join(f"M{number(x)} {number(bottom)}{_CROSS}" for x, _text in places)
    return element("path", d=steps, stroke=INK, stroke_width=2.2, fill="none") if steps else ""
