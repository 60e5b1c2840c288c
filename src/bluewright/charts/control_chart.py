"""Whether something stays as it should: how far off it came out each time, with the limit that calls for a look."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime, timedelta
from statistics import median
from typing import Final

from bluewright.charts.dots_chart import time_ticks
from bluewright.charts.inputs import check_words
from bluewright.charts.palette import INK, TAN, TAN_INK
from bluewright.charts.parts import RIGHT, Entry, Panel, dot, heading, key, left_edge, prefix, sheet
from bluewright.charts.readout import Figures
from bluewright.charts.scale import Scale, hours_since, outer_ticks
from bluewright.charts.svg import Look, area, element, line, words
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _
from bluewright.words.language import ngettext
from bluewright.words.numbers import figure, moment

HEIGHT: Final = 180.0
DAY_H: Final = 24.0
_LIMIT: Final[Look] = {"stroke": TAN, "stroke_width": 2.2, "stroke_dasharray": "10 4"}
_MIDDLE: Final[Look] = {"stroke": INK, "stroke_width": 1.4, "stroke_dasharray": "2 3"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Session:
    """One time: when, and how far off it came out (CIEDE2000, 0 or more)."""

    time: datetime
    de00: float
    label: str = ""
    """For a pointer or a screen reader."""

    def __post_init__(self) -> None:
        if not 0 <= self.de00 < 1000:
            raise InputError(where="de00", what=f"{self.de00:g} is no difference", right="give 0 or more")


@dataclass(frozen=True, slots=True, kw_only=True)
class ControlChart:
    """The question, its answer, the sessions, and the limit."""

    question: str
    answer: str
    sessions: tuple[Session, ...]
    limit_de00: float = 2.0
    """Above it something has changed: fading, dirt, another light."""

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer)
        if not self.sessions:
            raise InputError(where="sessions", what="there are none", right="draw it once there is one")


def control_chart(chart: ControlChart) -> str:
    """The chart as SVG text: rings within the limit, triangles above it, joined in the order of time."""
    sessions = sorted(chart.sessions, key=lambda one: one.time)
    room = max(timedelta(hours=DAY_H), (sessions[-1].time - sessions[0].time) / 40)
    start = sessions[0].time - room
    hours = hours_since(start, [one.time for one in sessions], where="sessions")
    name = prefix(chart.question, chart.answer, start.isoformat())
    head, y = heading(chart.question, answer=chart.answer)
    keyed, key_height = key(_entries(chart), top=y)
    ticks = outer_ticks(0.0, max(chart.limit_de00 * 1.25, *(one.de00 for one in sessions)))
    top, span_h = y + key_height + 30, hours[-1] + room / timedelta(hours=1)
    upright = Scale(ticks[0].at, ticks[-1].at, top + HEIGHT, top)
    panel = Panel(x=Scale(0.0, span_h, left_edge(ticks), RIGHT), y=upright, y_ticks=ticks)
    drawn = [panel.upright_axis(_("how far off, CIEDE2000")), panel.level_axis(time_ticks(start, span_h))]
    for value, look in ((chart.limit_de00, _LIMIT), (_middle(chart), _MIDDLE)):
        drawn.append(line(panel.x.start, panel.y(value), panel.x.end, panel.y(value), **look))
    places = [(panel.at(hour, one.de00), one) for one, hour in zip(sessions, hours, strict=True)]
    if len(places) > 1:
        steps = "L".join(f"{x:.1f} {y:.1f}" for (x, y), _one in places)
        drawn.append(element("path", d=f"M{steps}", stroke=INK, stroke_width=1.2, fill="none"))
    drawn += [_mark(x, y, one, above=one.de00 > chart.limit_de00) for (x, y), one in places]
    figures = Figures(
        heads=(_("when"), _("how far off, CIEDE2000")),
        places=tuple((x, (moment(one.time), _cell(one, chart))) for (x, _y), one in places),
        top=panel.top,
        bottom=panel.bottom,
    )
    return sheet(
        head, keyed, *drawn, height=panel.bottom + 30, question=chart.question, summary=description(chart), name=name,
        figures=figures,
    )  # fmt: skip


def description(chart: ControlChart) -> str:
    """What the drawing says, in sentences with figures."""
    above = sum(one.de00 > chart.limit_de00 for one in chart.sessions)
    told = {
        "n": len(chart.sessions), "above": above, "limit": figure(chart.limit_de00), "middle": figure(_middle(chart)),
        "last": figure(max(chart.sessions, key=lambda one: one.time).de00),
    }  # fmt: skip
    said = ngettext(
        "Shown: %(n)d time, middle %(middle)s, the last %(last)s; %(above)d above the limit of %(limit)s.",
        "Shown: %(n)d times, middle %(middle)s, the last %(last)s; %(above)d above the limit of %(limit)s.",
        len(chart.sessions),
    )
    return f"{chart.answer} {said % told}"


def _middle(chart: ControlChart) -> float:
    return median(one.de00 for one in chart.sessions)


def _cell(one: Session, chart: ControlChart) -> str:
    return _("%(de)s, above the limit") % {"de": figure(one.de00)} if one.de00 > chart.limit_de00 else figure(one.de00)


def _mark(x: float, y: float, one: Session, *, above: bool) -> str:
    if not above:
        return dot(x, y, one.label)
    said = element("title", words(one.label)) if one.label else ""
    return element("g", said, area([(x, y - 7), (x - 7, y + 5), (x + 7, y + 5)], fill=TAN, stroke=TAN_INK))


def _entries(chart: ControlChart) -> list[Entry]:
    entries = [Entry(sample=dot(13, 7, ""), text=_("one time"))]
    if any(one.de00 > chart.limit_de00 for one in chart.sessions):
        shape = area([(13, 0), (6, 12), (20, 12)], fill=TAN, stroke=TAN_INK)
        entries.append(Entry(sample=shape, text=_("above the limit")))
    entries.append(
        Entry(sample=line(0, 7, 26, 7, **_LIMIT), text=_("limit %(limit)s") % {"limit": figure(chart.limit_de00)})
    )
    entries.append(Entry(sample=line(0, 7, 26, 7, **_MIDDLE), text=_("middle of all")))
    return entries
