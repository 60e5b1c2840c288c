"""One quantity against another with its range: pH against dose, mass against drying time; with a target, a choice."""

from __future__ import annotations

from dataclasses import dataclass, field

from bluewright.charts.inputs import CurveBand, Point, Span, check_words
from bluewright.charts.palette import GREEN, SMALL_SIZE, SOFT_INK, TAN, TAN_INK
from bluewright.charts.parts import (
    RIGHT,
    Entry,
    Labels,
    Panel,
    band_entries,
    dot,
    hatch,
    heading,
    key,
    left_edge,
    middle_said,
    prefix,
    range_said,
    sheet,
    span_said,
)
from bluewright.charts.readout import Figures
from bluewright.charts.scale import Scale, inner_ticks, outer_ticks
from bluewright.charts.svg import box, label, line
from bluewright.science.base.bands import Band
from bluewright.words.language import gettext as _
from bluewright.words.numbers import figure, ranged


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """A level to be reached, drawn as a labelled line across the panel."""

    value: float
    label: str
    """`wanted: pH 9.5`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """What the answer proposes along x: a hatched stripe from low to high with a line at its middle."""

    span: Span
    label: str
    """`dose for all of it`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CurveChart:
    """A curve chart: its question, its answer in words, and what is drawn."""

    question: str
    answer: str
    x_name: str
    """What runs along the level axis, with unit: `ammonia added, ml`."""
    y_name: str
    """What runs up, with unit: `pH`."""
    band: CurveBand
    points: tuple[Point, ...] = ()
    """What was measured."""
    target: Target | None = None
    choice: Choice | None = None
    y_from_zero: bool = False
    range_text: str = field(default_factory=range_said)
    middle_text: str = field(default_factory=middle_said)

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer, x_name=self.x_name, y_name=self.y_name)


def curve_chart(chart: CurveChart) -> str:
    """The chart as SVG text; the level axis spans the band, the points and the choice."""
    name = prefix(chart.question, chart.answer)
    head, y = heading(chart.question, answer=chart.answer)
    key_drawn, key_height = key(_entries(chart, name), top=y + 4)
    top = y + key_height + 34
    panel = _panel(chart, top=top, height=220.0)
    drawn = [hatch(f"{name}-hatch", stroke=TAN), head, key_drawn]
    drawn.append(panel.upright_axis(chart.y_name))
    labels = Labels(panel)
    if chart.choice is not None:
        span = chart.choice.span
        drawn.append(panel.shade(span.low, span.high, fill=f"url(#{name}-hatch)", stroke=TAN, stroke_width=1.5))
        x = panel.x(span.mid)
        drawn.append(line(x, panel.top, x, panel.bottom, stroke=TAN_INK, stroke_width=2.0, stroke_dasharray="2 3"))
        labels.keep_clear(x - 2, panel.top, x + 2, panel.bottom)
    drawn.append(panel.band(chart.band))
    labels.avoid_line(chart.band)
    drawn.append(panel.level_axis(inner_ticks(panel.x.low, panel.x.high, wanted=6)))
    drawn.append(target_line(chart.target, panel, labels))
    drawn.append(_points(chart, panel, labels))
    drawn.append(label(RIGHT, panel.bottom + 38, chart.x_name, size=SMALL_SIZE, fill=SOFT_INK, anchor="end"))
    return sheet(
        *drawn, height=panel.bottom + 50, question=chart.question, summary=description(chart), name=name,
        figures=_figures(chart, panel),
    )  # fmt: skip


def _figures(chart: CurveChart, panel: Panel) -> Figures:
    """The curve place by place."""
    band = chart.band
    return Figures(
        heads=(chart.x_name, chart.y_name),
        places=tuple(
            (panel.x(x), (figure(x), ranged(Band(p5=low, p50=mid, p95=high), "")))
            for x, low, mid, high in zip(band.x, band.low, band.mid, band.high, strict=True)
        ),
        top=panel.top,
        bottom=panel.bottom,
    )


def description(chart: CurveChart) -> str:
    """What the drawing says, in sentences with figures."""
    band = chart.band
    said = [chart.answer, _("Shown: %(y)s against %(x)s.") % {"y": chart.y_name, "x": chart.x_name}]
    for at in (0, -1):
        span = span_said(Span(low=band.low[at], mid=band.mid[at], high=band.high[at]))
        said.append(_("At %(x)s: %(span)s.") % {"x": f"{band.x[at]:.3g}", "span": span})
    if chart.target is not None:
        said.append(f"{chart.target.label}.")
    if chart.choice is not None:
        said.append(f"{chart.choice.label}: {span_said(chart.choice.span)}.")
    if chart.points:
        said.append(_("Measured: %(points)s.") % {"points": ", ".join(_point(p) for p in chart.points)})
    return " ".join(said)


def _panel(chart: CurveChart, *, top: float, height: float) -> Panel:
    choice = [chart.choice.span.low, chart.choice.span.high] if chart.choice else []
    xs = [*chart.band.x, *(p.x for p in chart.points), *choice]
    target = [chart.target.value] if chart.target else []
    ys = [
        *chart.band.low,
        *chart.band.high,
        *(p.y for p in chart.points),
        *target,
        *([0.0] if chart.y_from_zero else []),
    ]
    ticks = outer_ticks(min(ys), max(ys), wanted=6)
    return Panel(
        x=Scale(min(xs), max(xs), left_edge(ticks), RIGHT - 8),
        y=Scale(ticks[0].at, ticks[-1].at, top + height, top),
        y_ticks=ticks,
    )


def _point(point: Point) -> str:
    return _("%(y)s at %(x)s") % {"y": f"{point.y:.3g}", "x": f"{point.x:.3g}"}


def _points(chart: CurveChart, panel: Panel, labels: Labels) -> str:
    places = [(point, *panel.at(point.x, point.y)) for point in chart.points]
    drawn = []
    for point, x, y in places:
        drawn.append(dot(x, y, point.label or _point(point)))
        labels.keep_clear(x - 5, y - 5, x + 5, y + 5)
    drawn += [labels.beside(x, y, point.label) for point, x, y in places if point.label]
    return "".join(drawn)


def target_line(target: Target | None, panel: Panel, labels: Labels) -> str:
    """The level across the panel, named where there is room; nothing without one."""
    if target is None:
        return ""
    y = panel.y(target.value)
    drawn = line(panel.x.start, y, panel.x.end, y, stroke=GREEN, stroke_width=2.4, stroke_dasharray="10 4")
    labels.avoid_level(y)
    named = labels.beside(panel.x.start, y, target.label)
    return drawn + named


def _entries(chart: CurveChart, name: str) -> list[Entry]:
    entries = band_entries(chart.range_text, chart.middle_text)
    if chart.choice is not None:
        span = chart.choice.span
        sample = (
            box(0, 0, 26, 14, fill=f"url(#{name}-hatch)", stroke=TAN, stroke_width=1.5) if span.high > span.low else ""
        )
        middle = line(13, 0, 13, 14, stroke=TAN_INK, stroke_width=2.0, stroke_dasharray="2 3")
        entries.append(Entry(sample=sample + middle, text=chart.choice.label))
    if chart.points:
        entries.append(Entry(sample=dot(13, 7, ""), text=_("measured")))
    return entries + target_entries(chart.target)


def target_entries(target: Target | None) -> list[Entry]:
    """What the key says of the level; nothing without one."""
    sample = line(0, 7, 26, 7, stroke=GREEN, stroke_width=2.4, stroke_dasharray="10 4")
    return [] if target is None else [Entry(sample=sample, text=target.label)]
