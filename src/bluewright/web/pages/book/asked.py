"""What the address of the book asks for: year, column, direction, page. Whatever else it says is passed over."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Final
from urllib.parse import urlencode
from zoneinfo import ZoneInfo

from django.http import QueryDict

from bluewright.journal.bridge.book import SORTS
from bluewright.journal.queries.book import Span
from bluewright.web.ui.turning import asked_page

ALL: Final = "all"
UP_FIRST: Final = frozenset({"name", "from", "plant", "alkali"})
"""Columns of words: the first tap sorts them from A; numbers and dates come largest first."""
OLDEST_YEARS: Final = 60
"""Years further back than this from the last one have no link of their own; they stand in all years."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What is to be shown."""

    year: int | None
    """None: all years."""
    sort: str = "date"
    """One of `bridge.book.SORTS`."""
    up: bool = False
    page: int = 1

    def address(self) -> str:
        """This as the end of an address; what is usual is left out, but for the year."""
        said = {"year": str(self.year or ALL)}
        said |= {} if self.sort == "date" and not self.up else {"sort": self.sort, "order": "up" if self.up else "down"}
        said |= {} if self.page == 1 else {"page": str(self.page)}
        return f"?{urlencode(said)}"

    def by(self, column: str) -> Asked:
        """The same sorted by a column; by the one that it is sorted by already, the other way round."""
        up = not self.up if column == self.sort else column in UP_FIRST
        return replace(self, sort=column, up=up, page=1)


def asked(get: QueryDict, *, years: Sequence[int]) -> Asked:
    """What an address asks for, of the years that there are (the last one first); without a year, of the last."""
    typed, sort = get.get("year", ""), get.get("sort", "")
    year = next((one for one in years if str(one) == typed), years[0] if years else None)
    sort = sort if sort in SORTS else "date"
    return Asked(
        year=None if typed == ALL else year,
        sort=sort,
        up={"up": True, "down": False}.get(get.get("order", ""), sort in UP_FIRST),
        page=asked_page(get),
    )


def span(year: int, zone: ZoneInfo) -> Span:
    """A year by the garden's clock."""
    return datetime(year, 1, 1, tzinfo=zone), datetime(year + 1, 1, 1, tzinfo=zone)


def candidate_years(first_and_last: Span | None, zone: ZoneInfo) -> list[int]:
    """The years from the first to the last batch, the last one first."""
    if first_and_last is None:
        return []
    first, last = (time.astimezone(zone).year for time in first_and_last)
    return list(range(last, max(first, last - OLDEST_YEARS) - 1, -1))
