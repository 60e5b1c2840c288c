"""A forecast against time: range and middle, now, nights, the best window, what was seen; temperature below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Final

from bluewright.charts.curve_chart import Target, target_entries, target_line
from bluewright.charts.inputs import CurveBand, Mark, TimeBand, Window, check_words
from bluewright.charts.palette import INK, NIGHT, SMALL_SIZE, TAN, TAN_INK
from bluewright.charts.parts import (
    HATCHED_MIDDLE,
    MARGIN,
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
    sight,
)
from bluewright.charts.readout import Figures
from bluewright.charts.scale import (
    Scale,
    Tick,
    day_spans,
    hour_ticks,
    hours_since,
    outer_ticks,
)
from bluewright.charts.svg import box, label, line, text_width
from bluewright.science.base.bands import Band
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _
from bluewright.words.numbers import day_of_year, moment, ranged, weekday, weekday_short, with_range

_HEIGHTS: Final = (190.0, 90.0)
"""Of the upper and the lower panel."""
BESIDE: Final = timedelta(hours=1)
"""How far apart the moments of two panels may lie to be told in one row."""
LONG_H: Final = 12 * 24.0
"""Beyond this the axis carries dates instead of hours and days."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TimePanel:
    """One quantity against time."""

    name: str
    """What it is and its unit, written above the axis: `blue to be had, g`."""
    unit: str
    """The unit alone, for the description: `g`."""
    band: TimeBand
    marks: tuple[Mark, ...] = ()
    """What was measured (with a value) or noticed (without)."""
    from_zero: bool = True
    """Whether the axis must show zero: yes for masses, no for temperatures."""
    target: Target | None = None
    """A level to be reached or kept."""
    behind: TimeBand | None = None
    """A second quantity of the same unit and moments, hatched behind the first: the whole that it is a part of."""
    behind_name: str = ""
    """What that is: `in the vat in all`."""

    def __post_init__(self) -> None:
        if self.behind is not None:
            check_words(behind_name=self.behind_name)
            if self.behind.times != self.band.times:
                raise InputError(where="behind.times", what="they are not those of the band", right="give the same")


@dataclass(frozen=True, slots=True, kw_only=True)
class BandChart:
    """A forecast chart: its question, its answer in words, and what is drawn."""

    question: str
    """The title, as a question: `When will tub 3 be at its best?`."""
    answer: str
    """One or two sentences that answer it; drawn below the title and read to those who cannot see the drawing."""
    upper: TimePanel
    lower: TimePanel | None = None
    """A second, lower panel on the same time axis: the temperature behind the forecast."""
    window: Window | None = None
    now: datetime | None = None
    nights: tuple[tuple[datetime, datetime], ...] = ()
    """From dusk to dawn, shaded; `scale.nights` makes them."""
    range_text: str = field(default_factory=range_said)
    middle_text: str = field(default_factory=middle_said)

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer, name=self.upper.name)
        start, end = self.upper.band.times[0], self.upper.band.times[-1]
        if self.lower is not None and sum(start <= time <= end for time in self.lower.band.times) < 2:
            raise InputError(
                where="lower.band.times",
                what="fewer than two of them lie within the upper panel's times",
                right="give both panels the same span of time",
            )


def band_chart(chart: BandChart) -> str:
    """The chart as SVG text. The time axis spans the upper panel's band; what lies outside is not drawn."""
    start, end = chart.upper.band.times[0], chart.upper.band.times[-1]
    name = prefix(chart.question, chart.answer, start.isoformat())
    head, y = heading(chart.question, answer=chart.answer)
    key_drawn, key_height = key(_entries(chart, name), top=y)
    drawn = [hatch(f"{name}-hatch", stroke=TAN), head, key_drawn]
    span_h = _hour(start, end)
    shown = [chart.upper] if chart.lower is None else [chart.upper, chart.lower]
    axes = [_axis(what, start, span_h, wanted=wanted) for what, wanted in zip(shown, (5, 3), strict=False)]
    x = Scale(0.0, span_h, left_edge(*axes), RIGHT)
    lift = 18.0 if _crowded(chart, x, start) else 0.0
    top = y + key_height + 30 + lift
    for at, (what, ticks) in enumerate(zip(shown, axes, strict=True)):
        panel = Panel(x=x, y=Scale(ticks[0].at, ticks[-1].at, top + _HEIGHTS[at], top), y_ticks=ticks)
        drawn.append(_quantity(chart, what, panel, name, lift=lift if at == 0 else 0.0))
        top = panel.bottom + 40
    axis, height = _time_axis(panel, start)
    return sheet(
        *drawn, axis, height=height, question=chart.question, summary=description(chart), name=name,
        figures=_figures(chart, x, top=y + key_height + 30 + lift, bottom=panel.bottom),
    )  # fmt: skip


def _figures(chart: BandChart, x: Scale, *, top: float, bottom: float) -> Figures:
    """Both panels moment by moment; the lower one by its nearest moment, if it has one within an hour."""
    start = chart.upper.band.times[0]
    return Figures(
        heads=(_("time"), chart.upper.name, *_behind_name(chart), *([chart.lower.name] if chart.lower else [])),
        places=tuple(
            (
                x(_hour(start, time)),
                (moment(time), _said(chart.upper.band, at), *_behind(chart, at), *_beneath(chart.lower, time)),
            )
            for at, time in enumerate(chart.upper.band.times)
        ),
        top=top,
        bottom=bottom,
    )


def _behind_name(chart: BandChart) -> list[str]:
    return [f"{chart.upper.behind_name}, {chart.upper.unit}"] if chart.upper.behind is not None else []


def _behind(chart: BandChart, at: int) -> list[str]:
    return [_said(chart.upper.behind, at)] if chart.upper.behind is not None else []


def _beneath(lower: TimePanel | None, time: datetime) -> list[str]:
    if lower is None:
        return []
    at = min(range(len(lower.band.times)), key=lambda k: abs(lower.band.times[k] - time))
    return [_said(lower.band, at) if abs(lower.band.times[at] - time) <= BESIDE else ""]


def _said(band: TimeBand, at: int) -> str:
    return ranged(Band(p5=band.low[at], p50=band.mid[at], p95=band.high[at]), "")


def description(chart: BandChart) -> str:
    """What the drawing says, in sentences with figures."""
    band, unit = chart.upper.band, chart.upper.unit
    peak = max(range(len(band.mid)), key=band.mid.__getitem__)
    names = {"name": chart.upper.name, "middle": chart.middle_text, "range": chart.range_text}
    said = [chart.answer, _("Shown: %(name)s, %(middle)s and %(range)s.") % names]
    points = (
        (_("First: %(figures)s on %(when)s."), 0),
        (_("Highest middle: %(figures)s on %(when)s."), peak),
        (_("Last: %(figures)s on %(when)s."), len(band.mid) - 1),
    )
    for words, at in points:
        figures = with_range(f"{band.mid[at]:.3g} {unit}", f"{band.low[at]:.3g}", f"{band.high[at]:.3g}")
        said.append(words % {"figures": figures, "when": moment(band.times[at])})
    if chart.upper.behind is not None:
        last = {"name": chart.upper.behind_name, "figures": f"{_said(chart.upper.behind, -1)} {unit}".rstrip()}
        said.append(_("Hatched behind it: %(name)s, at last %(figures)s.") % last)
    if chart.window is not None:
        span = {"what": chart.window.label, "start": moment(chart.window.start), "end": moment(chart.window.end)}
        said.append(_("%(what)s: %(start)s to %(end)s.") % span)
    if chart.upper.target is not None:
        said.append(f"{chart.upper.target.label}.")
    if chart.now is not None:
        said.append(_("Now: %(when)s.") % {"when": moment(chart.now)})
    if chart.lower is not None:
        low, high = f"{min(chart.lower.band.low):.3g}", f"{max(chart.lower.band.high):.3g} {chart.lower.unit}"
        below = {"name": chart.lower.name, "low": low, "high": high}
        said.append(_("Below: %(name)s, between %(low)s and %(high)s.") % below)
    return " ".join(said)


def _entries(chart: BandChart, name: str) -> list[Entry]:
    entries = band_entries(chart.range_text, chart.middle_text)
    if chart.upper.behind is not None:
        sample = box(0, 1, 26, 12, fill=f"url(#{name}-hatch)", stroke=TAN_INK, stroke_width=0.9)
        entries.append(Entry(sample=sample + line(0, 7, 26, 7, **HATCHED_MIDDLE), text=chart.upper.behind_name))
    marks = [*chart.upper.marks, *(chart.lower.marks if chart.lower else ())]
    if chart.window is not None:
        sample = box(0, 0, 26, 14, fill=f"url(#{name}-hatch)", stroke=TAN, stroke_width=1.5)
        entries.append(Entry(sample=sample, text=chart.window.label))
    if any(mark.value is not None for mark in marks):
        entries.append(Entry(sample=dot(13, 7, ""), text=_("measured")))
    if any(mark.value is None for mark in marks):
        entries.append(Entry(sample=sight(13, 13, ""), text=_("seen")))
    if chart.nights:
        entries.append(Entry(sample=box(0, 0, 26, 14, fill=NIGHT, stroke=INK, stroke_width=0.6), text=_("night")))
    return entries + target_entries(chart.upper.target)


def _axis(what: TimePanel, start: datetime, span_h: float, *, wanted: int) -> list[Tick]:
    """Round numbers around everything that is shown."""
    marks = [mark.value for mark in what.marks if mark.value is not None and 0 <= _hour(start, mark.time) <= span_h]
    kept = [*([0.0] if what.from_zero else []), *([what.target.value] if what.target else [])]
    kept += [*what.behind.low, *what.behind.high] if what.behind is not None else []
    return outer_ticks(min(*what.band.low, *marks, *kept), max(*what.band.high, *marks, *kept), wanted=wanted)


def _crowded(chart: BandChart, x: Scale, start: datetime) -> bool:
    """Whether `now` would stand on the name of the upper axis."""
    name_end = MARGIN + text_width(chart.upper.name, SMALL_SIZE) + 24
    return chart.now is not None and x.start - 24 < x(_hour(start, chart.now)) < name_end


def _quantity(chart: BandChart, what: TimePanel, panel: Panel, name: str, *, lift: float) -> str:
    """One panel from back to front: nights, grid, window, band, now, marks."""
    start, main = chart.upper.band.times[0], what is chart.upper
    drawn = [panel.shade(_hour(start, dusk), _hour(start, dawn), fill=NIGHT) for dusk, dawn in chart.nights]
    drawn.append(panel.upright_axis(what.name, lift=lift))
    if chart.window is not None and main:
        edges = _hour(start, chart.window.start), _hour(start, chart.window.end)
        drawn.append(panel.shade(*edges, fill=f"url(#{name}-hatch)", stroke=TAN, stroke_width=1.5))
    if what.behind is not None:
        behind = _against_hours(what.behind, start, panel.x.high)
        drawn.append(panel.hatched_band(behind, fill=f"url(#{name}-hatch)"))
    band = _against_hours(what.band, start, panel.x.high)
    drawn.append(panel.band(band))
    labels = Labels(panel)
    labels.avoid_line(band)
    if chart.now is not None and 0 <= _hour(start, chart.now) <= panel.x.high:
        drawn.append(_now(panel, panel.x(_hour(start, chart.now)), labels, named=main))
    drawn.append(panel.level_axis(()))
    drawn.append(target_line(what.target, panel, labels))
    drawn.append(_marks(what.marks, panel, start, labels))
    return "".join(drawn)


def _now(panel: Panel, x: float, labels: Labels, *, named: bool) -> str:
    drawn = line(
        x, panel.top - (6 if named else 0), x, panel.bottom, stroke=TAN_INK, stroke_width=2.0, stroke_dasharray="2 3"
    )
    labels.keep_clear(x - 2, panel.top, x + 2, panel.bottom)
    if not named:
        return drawn
    said = _("now")
    half = text_width(said, SMALL_SIZE) / 2
    middle = min(max(x, panel.x.start + half), panel.x.end - half)
    return drawn + label(
        middle, panel.top - 10, said, size=SMALL_SIZE, fill=TAN_INK, anchor="middle", weight="bold", halo=True
    )


def _marks(marks: Sequence[Mark], panel: Panel, start: datetime, labels: Labels) -> str:
    """Points and sights first, so that no label is put over one; then the labels where there is room."""
    places = [
        (mark, panel.x(hour), panel.bottom if mark.value is None else panel.y(mark.value))
        for mark in marks
        if 0 <= (hour := _hour(start, mark.time)) <= panel.x.high
    ]
    drawn = []
    for mark, x, y in places:
        drawn.append(sight(x, y, mark.label) if mark.value is None else dot(x, y, mark.label))
        labels.keep_clear(x - 5, y - (11 if mark.value is None else 5), x + 5, y + (0 if mark.value is None else 5))
    drawn += [labels.beside(x, y - (8 if mark.value is None else 0), mark.label) for mark, x, y in places if mark.label]
    return "".join(drawn)


def _time_axis(panel: Panel, start: datetime) -> tuple[str, float]:
    """Times of day under the panel and, below them, the days; and how far down that reaches."""
    span_h = panel.x.high
    ticks = hour_ticks(start, span_h, most=10)
    if span_h > LONG_H:
        dated = [Tick(at=tick.at, label=day_of_year(start + timedelta(hours=tick.at))) for tick in ticks]
        return panel.level_axis(dated), panel.bottom + 30
    drawn = [panel.level_axis(ticks)]
    y = panel.bottom + (38 if any(tick.label for tick in ticks) else 24)
    for low, high, noon in day_spans(start, span_h):
        left, right = panel.x(low), panel.x(high)
        if low > 0:
            drawn.append(line(left, y - 14, left, y + 6, stroke=INK, stroke_width=1.0))
        choices = (weekday(noon), weekday_short(noon), str(noon.day))
        text = next((t for t in choices if text_width(t, SMALL_SIZE) < right - left - 6), "")
        drawn.append(label((left + right) / 2, y, text, size=SMALL_SIZE, anchor="middle") if text else "")
    return "".join(drawn), y + 12


def _against_hours(band: TimeBand, start: datetime, span_h: float) -> CurveBand:
    """The band in hours since `start`; a lower panel's band is cut to the span of the upper one."""
    hours = hours_since(start, band.times, where="times")
    kept = [at for at, hour in enumerate(hours) if -1e-9 <= hour <= span_h + 1e-9]
    return CurveBand(
        x=tuple(hours[at] for at in kept),
        low=tuple(band.low[at] for at in kept),
        mid=tuple(band.mid[at] for at in kept),
        high=tuple(band.high[at] for at in kept),
    )


def _hour(start: datetime, time: datetime) -> float:
    return (time - start) / timedelta(hours=1)
