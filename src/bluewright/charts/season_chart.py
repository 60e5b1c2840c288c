"""What happens on which day of the season? Beds and tubs as rows along the weeks: cuts as leaves, tubs as bars.

Told apart by shape and filling, not by colour: a cut is an upright wedge, its best day alone a small ring; a tub that
steeps is a dark bar, its rest after straining a pale one; days away are hatched.
"""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final

from bluewright.charts.palette import GRID, INDIGO, INK, LEAF, LINEN, SMALL_SIZE, SOFT_INK
from bluewright.charts.parts import MARGIN, RIGHT, Entry, hatch, heading, key, prefix, sheet
from bluewright.charts.scale import Scale
from bluewright.charts.svg import area, box, element, label, line, shortened, text_width
from bluewright.science.season.answer import PlannedSteep, SeasonAnswer
from bluewright.words.language import gettext as _
from bluewright.words.measures import amount
from bluewright.words.numbers import day_of_year, weekday
from bluewright.words.season import QUESTION

ROW: Final = 22.0
NAMES: Final = 104.0
"""Width of the names before the rows."""
WEEK_D: Final = 7
MOST_LABELS: Final = 6


def season_chart(found: SeasonAnswer, *, answer: str) -> str:
    """The plan as rows of beds and of tubs."""
    question = _(QUESTION)
    name = prefix(question, answer, found.id)
    head, y = heading(question, answer=answer)
    first, last = _span(found)
    scale = Scale(0.0, float((last - first).days), MARGIN + NAMES, RIGHT - 4)
    drawn_key, key_height = key(_entries(name), top=y + 4)
    top = y + key_height + 26
    beds = [bed.id for bed in found.inputs.beds if any(cut.bed == bed.id for cut in found.cuts)]
    tubs = sorted({(one.volume_l, one.tub) for one in found.steeps}, key=lambda one: (-one[0], one[1]))
    rows = [*beds, *(_tub(volume_l, tub) for volume_l, tub in tubs)]
    bottom = top + ROW * len(rows)
    drawn = [head, element("defs", hatch(f"{name}-away", stroke=SOFT_INK)), drawn_key]
    drawn += _weeks(first, last, scale, top, bottom)
    drawn += _away(found, first, last, scale, top, bottom, name)
    drawn += [_name(row, top + ROW * k) for k, row in enumerate(rows)]
    for cut in found.cuts:
        middle = top + ROW * (beds.index(cut.bed) + 0.5)
        drawn.append(_ring(scale(_at(cut.best_on, first)), middle) if first <= cut.best_on <= last else "")
        drawn.append(_wedge(scale(_at(cut.on, first)), middle))
    for one in found.steeps:
        drawn += _bars(one, first, last, scale, top + ROW * (len(beds) + tubs.index((one.volume_l, one.tub))))
    drawn.append(line(MARGIN, top + ROW * len(beds), RIGHT, top + ROW * len(beds), stroke=INK, stroke_width=1.5))
    drawn.append(line(MARGIN, bottom, RIGHT, bottom, stroke=INK, stroke_width=1.5))
    return sheet(*drawn, height=bottom + 34, question=question, summary=_summary(found, answer), name=name)


def _span(found: SeasonAnswer) -> tuple[date, date]:
    """From a little before the first work to a little after the last."""
    days = [*(cut.on for cut in found.cuts), *(one.fill_on for one in found.steeps)]
    ends = [*(cut.on for cut in found.cuts), *(one.strain_on for one in found.steeps)]
    if not days:
        return found.inputs.now, found.inputs.last
    first, last = max(min(days), found.inputs.now) - timedelta(days=3), max(ends) + timedelta(days=4)
    return first, max(last, first + timedelta(days=2 * WEEK_D))


def _at(day: date, first: date) -> float:
    return float((day - first).days)


def _tub(volume_l: float, tub: int) -> str:
    return _("%(size)s, tub %(number)s") % {"size": amount(volume_l, "volume_l"), "number": tub}


def _name(text: str, top: float) -> str:
    shown = shortened(text, size=SMALL_SIZE, width=NAMES - 6)
    return label(MARGIN, top + ROW / 2 + 4.8, shown, size=SMALL_SIZE)


def _weeks(first: date, last: date, scale: Scale, top: float, bottom: float) -> list[str]:
    """A line for each Monday; as many dates as there is room for."""
    mondays = [first + timedelta(days=k) for k in range((last - first).days + 1)]
    mondays = [day for day in mondays if day.weekday() == 0]
    every = max(1, -(-len(mondays) // MOST_LABELS))
    drawn, free_from = [], 0.0
    for k, day in enumerate(mondays):
        x = scale(_at(day, first))
        drawn.append(line(x, top, x, bottom, stroke=GRID, stroke_width=1.0))
        text, half = day_of_year(day), text_width(day_of_year(day), SMALL_SIZE) / 2
        if k % every == 0 and x - half > free_from and x + half < RIGHT + 8:
            drawn.append(label(x, bottom + 19, text, size=SMALL_SIZE, fill=SOFT_INK, anchor="middle"))
            free_from = x + half + 6
    return drawn


def _away(
    found: SeasonAnswer, first: date, last: date, scale: Scale, top: float, bottom: float, name: str
) -> list[str]:
    drawn = []
    for gone in found.inputs.away:
        begin, end = max(gone.first, first), min(gone.last, last)
        if begin <= end:
            left, right = scale(_at(begin, first) - 0.5), scale(_at(end, first) + 0.5)
            drawn.append(box(left, top, right - left, bottom - top, fill=f"url(#{name}-away)", fill_opacity=0.5))
    return drawn


def _wedge(x: float, middle: float) -> str:
    """A cut."""
    return area([(x, middle - 8), (x - 6, middle + 7), (x + 6, middle + 7)], fill=LEAF[0], stroke=INK, stroke_width=1.4)


def _ring(x: float, middle: float) -> str:
    """The day that the bed alone would have it."""
    return element("circle", cx=x, cy=middle, r=3.4, fill="none", stroke=INK, stroke_width=1.6)


def _bars(one: PlannedSteep, first: date, last: date, scale: Scale, top: float) -> list[str]:
    """A tub from filling to straining, and a pale end until its blue lies on the tray."""
    begin, strain = max(one.fill_on, first), min(one.strain_on, last)
    left, right = scale(_at(begin, first)), scale(_at(strain, first))
    until = scale(min(_at(one.dry_from, first), _at(last, first)))
    rest = box(right, top + 8, max(0.0, until - right), ROW - 16, fill=INDIGO[1], stroke=INK, stroke_width=0.8)
    steep = box(left, top + 4, max(2.0, right - left), ROW - 8, fill=INDIGO[4], stroke=INK, stroke_width=0.8)
    return [rest, steep]


def _entries(name: str) -> list[Entry]:
    steep = box(2, 2, 22, 10, fill=INDIGO[4], stroke=INK, stroke_width=0.8)
    rest = box(2, 4, 22, 6, fill=INDIGO[1], stroke=INK, stroke_width=0.8)
    away = box(2, 0, 22, 14, fill=LINEN) + box(2, 0, 22, 14, fill=f"url(#{name}-away)", fill_opacity=0.5)
    return [
        Entry(sample=_wedge(13, 7), text=_("cut")),
        Entry(sample=_ring(13, 7), text=_("its own best day")),
        Entry(sample=steep, text=_("steeps")),
        Entry(sample=rest, text=_("settles, is washed")),
        Entry(sample=away, text=_("away")),
    ]


def _summary(found: SeasonAnswer, answer: str) -> str:
    """The cuts in words."""
    said = ", ".join(f"{cut.bed} {weekday(cut.on)}" for cut in found.cuts)
    return " ".join([answer, _("Cuts: %(cuts)s.") % {"cuts": said}]) if found.cuts else answer
