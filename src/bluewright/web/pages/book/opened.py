"""The book opened at a year: what is read, in a fixed number of statements, and only the shown page in full."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from statistics import median
from typing import Final
from zoneinfo import ZoneInfo

from django.http import QueryDict
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.charts.dots_chart import RINGS, DotsChart, Result, dots_chart
from bluewright.journal.bridge import book as bridge
from bluewright.journal.models import Garden
from bluewright.journal.queries import book
from bluewright.journal.queries.book import Begun, Key
from bluewright.web.pages.book import page as words
from bluewright.web.pages.book.asked import Asked, asked, candidate_years, span
from bluewright.web.pages.book.page import BookPage, Most
from bluewright.web.pages.costs.beside import year_costs
from bluewright.web.ui.turning import Linked, turn
from bluewright.words.cost import gram_said
from bluewright.words.numbers import rough

PAGE: Final = 50
"""So many batches stand on one page."""
NO_YIELD: Final = 1e-9
"""Lengths of small charts where nothing has one."""


def opened(of: Garden, get: QueryDict, *, now: datetime) -> BookPage:
    """The page that an address asks for."""
    zone = ZoneInfo(of.time_zone)
    candidates = candidate_years(book.first_and_last(of), zone)
    counted = dict(zip(candidates, book.counts(of, [span(year, zone) for year in candidates]), strict=True))
    years = [year for year in candidates if counted[year]]
    want = asked(get, years=years)
    when = span(want.year, zone) if want.year else None
    within = book.begun(of, when)
    listed = book.listed(within)
    came_from = bridge.baskets(book.pours(of, within), [row.key for row in listed])
    values = bridge.sort_values(of, want.sort, within, listed, came_from)
    ordered = bridge.in_order(listed, values, up=want.up)
    last = max(1, -(-len(ordered) // PAGE))
    want = replace(want, page=min(want.page, last))
    yields = bridge.yields(came_from, book.pigment_g(within))
    ended = book.given_up(within)
    most = Most(
        g_per_kg=max(yields.values(), default=0.0) or NO_YIELD,
        steep_h=max((basket.steep_h or 0.0 for basket in came_from.values()), default=0.0) or NO_YIELD,
    )
    shown = ordered[(want.page - 1) * PAGE : want.page * PAGE]
    waiting = book.waiting(of, when)
    rows = [words.waiting_row(tub, now=now, zone=zone) for tub in book.tubs(waiting[: book.WAITING_MOST])]
    more = len(waiting) - len(rows)
    costs = year_costs(of, want.year) if want.year and listed else None
    return BookPage(
        title=_("Season book %(year)d") % {"year": want.year} if want.year else _("Season book, all years"),
        summary=words.summary(len(listed), len(yields), len(waiting)),
        cost="" if costs is None or costs.answer is None else gram_said(costs.answer),
        year=want.year,
        chart=_chart(listed, yields, ended),
        years=_years(want, counted, years),
        heads=words.heads(want),
        rows=tuple(words.book_row(line, most=most, zone=zone, costs=costs) for line in bridge.lines(shown, came_from)),
        pages=turn(want.page, last, lambda number: replace(want, page=number).address()),
        waiting=tuple(rows),
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


def _chart(listed: list[Begun], yields: dict[Key, float], ended: set[Key]) -> str:
    """Each batch's pigment from a kilogram of leaf by date; empty while nothing was weighed."""
    if not yields:
        return ""
    unit = words.per_leaf(1.0)
    told = {key: unit * value for key, value in yields.items()}
    drawn = [row for row in listed if row.key in told or row.key in ended]
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
