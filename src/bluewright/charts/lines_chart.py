"""Two straight lines of one slope on scales of powers: depth of cloth against mass of pigment."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bluewright.charts.inputs import check_words
from bluewright.charts.palette import INDIGO, LINEN, SMALL_SIZE, SOFT_INK, TAN, TAN_INK
from bluewright.charts.parts import RIGHT, Entry, Panel, dot, heading, key, left_edge, prefix, sheet
from bluewright.charts.scale import Scale, Tick
from bluewright.charts.svg import Look, area, label, line, path
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _
from bluewright.words.numbers import figure

HEIGHT: Final = 230.0
FIRST: Final[Look] = {"stroke": INDIGO[4], "stroke_width": 2.4}
SECOND: Final[Look] = {"stroke": TAN_INK, "stroke_width": 2.4, "stroke_dasharray": "9 4"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Pairs:
    """The points of one line, all above zero, and the line: ln(y) = level + slope ln(x)."""

    name: str
    points: tuple[tuple[float, float], ...]
    slope: float
    level: float


@dataclass(frozen=True, slots=True, kw_only=True)
class LinesChart:
    """What is drawn: rings and a full line for the first, triangles and a broken line for the second."""

    question: str
    answer: str
    x_name: str
    y_name: str
    first: Pairs
    second: Pairs

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer, x_name=self.x_name, y_name=self.y_name)
        values = [value for pair in (*self.first.points, *self.second.points) for value in pair]
        if len(values) < 4 or min(values) <= 0:
            raise InputError(where="points", what="a scale of powers holds nothing below zero", right="leave it out")


def lines_chart(chart: LinesChart) -> str:
    """The chart as SVG text."""
    name = prefix(chart.question, chart.answer)
    head, y = heading(chart.question, answer=chart.answer)
    key_drawn, key_height = key(_entries(chart), top=y + 4)
    both = (*chart.first.points, *chart.second.points)
    x_ticks, y_ticks = power_ticks([x for x, _y in both]), power_ticks([y for _x, y in both])
    top = y + key_height + 34
    panel = Panel(
        x=Scale(x_ticks[0].at, x_ticks[-1].at, left_edge(y_ticks), RIGHT - 8),
        y=Scale(y_ticks[0].at, y_ticks[-1].at, top + HEIGHT, top),
        y_ticks=y_ticks,
    )
    drawn = [head, key_drawn, panel.upright_axis(chart.y_name)]
    drawn += [_line(panel, chart.first, FIRST), _line(panel, chart.second, SECOND)]
    drawn += [dot(*_at(panel, pair), "") for pair in chart.first.points]
    drawn += [_triangle(*_at(panel, pair)) for pair in chart.second.points]
    drawn.append(panel.level_axis(x_ticks))
    drawn.append(label(RIGHT, panel.bottom + 38, chart.x_name, size=SMALL_SIZE, fill=SOFT_INK, anchor="end"))
    return sheet(*drawn, height=panel.bottom + 50, question=chart.question, summary=description(chart), name=name)


def description(chart: LinesChart) -> str:
    """What the drawing says, in sentences with figures."""
    told = []
    for pairs in (chart.first, chart.second):
        said = ", ".join(_("%(y)s at %(x)s") % {"y": figure(y), "x": figure(x)} for x, y in sorted(pairs.points))
        told.append(f"{pairs.name}: {said}.")
    return " ".join([chart.answer, _("Shown: %(y)s against %(x)s.") % {"y": chart.y_name, "x": chart.x_name}, *told])


def power_ticks(values: Sequence[float]) -> list[Tick]:
    """1, 2 and 5 times powers of ten around the values, at their logarithms; labels as the numbers themselves."""
    low, high = min(values) / 1.05, max(values) * 1.05
    steps = [
        f * 10.0**k for k in range(math.floor(math.log10(low)) - 1, math.ceil(math.log10(high)) + 1) for f in (1, 2, 5)
    ]
    first = max(step for step in steps if step <= low)
    last = min((step for step in steps if step >= high), default=10 * steps[-1])
    return [Tick(at=math.log(step), label=f"{step:g}") for step in steps if first <= step <= last]


def _at(panel: Panel, pair: tuple[float, float]) -> tuple[float, float]:
    return panel.at(math.log(pair[0]), math.log(pair[1]))


def _line(panel: Panel, pairs: Pairs, look: Look) -> str:
    """The line over the masses of its points, cut to the panel."""
    ends = [math.log(min(x for x, _y in pairs.points)), math.log(max(x for x, _y in pairs.points))]
    places = [(x, min(max(pairs.level + pairs.slope * x, panel.y.low), panel.y.high)) for x in ends]
    return path([panel.at(x, y) for x, y in places], **look)


def _triangle(x: float, y: float) -> str:
    return area([(x, y - 6), (x - 5.5, y + 4), (x + 5.5, y + 4)], fill=LINEN, stroke=TAN, stroke_width=2.2)


def _entries(chart: LinesChart) -> list[Entry]:
    return [
        Entry(sample=line(0, 7, 26, 7, **FIRST) + dot(13, 7, ""), text=chart.first.name),
        Entry(sample=line(0, 7, 26, 7, **SECOND) + _triangle(13, 7), text=chart.second.name),
    ]
