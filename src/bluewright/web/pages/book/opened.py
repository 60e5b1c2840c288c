"""The book opened at a year: what is read, in a fixed number of statements, and only the shown page in full."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from statistics import median
from typing import Final
from uuid import UUID
from zoneinfo import ZoneInfo

from django.http import QueryDict
from django.utils.translation import get_language, ngettext
from django.utils.translation import gettext as _

from bluewright.charts.dots_chart import RINGS, DotsChart, Result, dots_chart
from bluewright.journal.bridge import book as bridge
from bluewright.journal.bridge.book import Whole
from bluewright.journal.models import Garden
from bluewright.journal.queries import book
from bluewright.journal.queries.book import Begun, Span
from bluewright.journal.written import UntilWritten
from bluewright.web.pages.book import page as words
from bluewright.web.pages.book.asked import Asked, asked, candidate_years, span
from bluewright.web.pages.book.page import BookPage, Most
from bluewright.web.pages.costs.beside import year_costs
from bluewright.web.ui.turning import Linked, turn
from bluewright.words.cost import gram_said
from bluewright.words.numbers import rough
from bluewright.words.reader import Reader, reader

PAGE: Final = 50
"""So many batches stand on one page."""
NO_YIELD: Final = 1e-9
"""Lengths of small charts where nothing has one."""

_charts: Final = UntilWritten[tuple[UUID, Span | None, str | None, Reader], str](bridge.MOST_KEPT)


def opened(of: Garden, get: QueryDict, *, now: datetime) -> BookPage:
    """The page that an address asks for."""
    zone = ZoneInfo(of.time_zone)
    candidates = candidate_years(book.first_and_last(of), zone)
    counted = dict(zip(candidates, book.counts(of, [span(year, zone) for year in candidates]), strict=True))
    years = [year for year in candidates if counted[year]]
    want = asked(get, years=years)
    when = span(want.year, zone) if want.year else None
    known = bridge.whole(of, when)
    last = max(1, -(-len(known.listed) // PAGE))
    want = replace(want, page=min(want.page, last))
    most = Most(
        g_per_kg=max(known.yields.values(), default=0.0) or NO_YIELD,
        steep_h=max((basket.steep_h or 0.0 for basket in known.came_from.values()), default=0.0) or NO_YIELD,
    )
    ordered = bridge.ordered(of, when, sort=want.sort, up=want.up)
    lines = bridge.lines(ordered[(want.page - 1) * PAGE : want.page * PAGE], known.came_from)
    waiting = [words.waiting_row(tub, now=now, zone=zone) for tub in book.tubs(known.waiting[: book.WAITING_MOST])]
    more = len(known.waiting) - len(waiting)
    costs = year_costs(of, want.year) if want.year and known.listed else None
    return BookPage(
        title=_("Season book %(year)d") % {"year": want.year} if want.year else _("Season book, all years"),
        summary=words.summary(len(known.listed), len(known.yields), len(known.waiting)),
        cost="" if costs is None or costs.answer is None else gram_said(costs.answer),
        year=want.year,
        chart=_charts.got((of.pk, when, get_language(), reader()), lambda: _chart(bridge.whole(of, when))),
        years=_years(want, counted, years),
        heads=words.heads(want),
        rows=tuple(words.book_row(line, most=most, zone=zone, costs=costs) for line in lines),
        pages=turn(want.page, last, lambda number: replace(want, page=number).address()),
        waiting=tuple(waiting),
        waiting_more=_("and %(n)d older ones") % {"n": more} if more > 0 else "",
    )


def _years(want: Asked, counted: dict[int, int], years: list[int]) -> tuple[Linked, ...]:
    links = [
        Linked(
            name=f"{year} ({counted[year]})",
            href="" if year == want.year else replace(want, year=year, page=1).address(),
        )
        for year in years
    ]
    if len(years) < 2:
        return ()
    every = replace(want, year=None, page=1)
    return (*links, Linked(name=_("all years"), href="" if want.year is None else every.address()))


def _chart(known: Whole) -> str:
    """Each batch's pigment from a kilogram of leaf by date; empty while nothing was weighed."""
    if not known.yields:
        return ""
    unit = words.per_leaf(1.0)
    told = {key: unit * value for key, value in known.yields.items()}
    drawn = [row for row in known.listed if row.key in told or row.key in known.ended]
    labelled = len(drawn) <= RINGS
    results = [
        Result(
            time=row.begun_at, value=told.get(row.key), label=_label(row, told.get(row.key)) if labelled else row.name
        )
        for row in drawn
    ]  # fmt: skip
    answer = ngettext(
        "The one batch that was weighed gave %(mid)s %(unit)s.",
        "Half of the %(n)d batches that were weighed gave more than %(mid)s %(unit)s, half less.",
        len(told),
    ) % {
        "n": len(told), "mid": rough(median(told.values())), "unit": words.per_leaf_unit(),
    }  # fmt: skip
    return dots_chart(
        DotsChart(
            question=_("How much did each batch give?"),
            answer=answer,
            name=words.from_leaf_name(),
            results=tuple(results),
            ring_text=_("a batch"),
            cross_text=_("given up"),
        )
    )


def _label(row: Begun, value: float | None) -> str:
    what = _("given up") if value is None else rough(value)
    return f"{row.name}: {what}"
