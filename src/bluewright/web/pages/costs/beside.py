"""Costs beside something else: on a batch's page and in the season book, which do not wait for them."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from bluewright.journal.bridge import costs_kept
from bluewright.journal.models import Garden
from bluewright.web.aside import ASIDE
from bluewright.web.pages.book.asked import span


def year_costs(garden: Garden, year: int) -> costs_kept.Kept | None:
    """What a year's blue costs; None while that is worked out beside the pages, at once where no server works there."""
    found = costs_kept.kept(garden, year)
    if found is not None:
        return found
    key, of_year = ("costs", garden.pk, year), span(year, ZoneInfo(garden.time_zone))

    def work() -> None:
        costs_kept.reckon(garden, year, of_year)

    if ASIDE.ask(key, work) or ASIDE.waits(key):
        return None
    return costs_kept.reckon(garden, year, of_year)
