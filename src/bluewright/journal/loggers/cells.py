"""One cell: a moment as loggers write it, a temperature as they write it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

ORDERS: Final = ("ymd", "dmy", "mdy", "unix")
MONTHS: Final = {
    name: number
    for number, name in enumerate("jan feb mar apr may jun jul aug sep oct nov dec".split(), start=1)  # noqa: SIM905
}
_CLOCK: Final = (
    r"(?:T|[ ,]\s*)(?P<h>\d{1,2}):(?P<mi>\d{2})(?::(?P<s>\d{2})(?:[.,]\d{1,9})?)?"
    r"(?:\s*(?P<half>[AaPp])\.?\s?[Mm]\.?)?\s*(?P<off>Z|UTC|GMT|(?:UTC|GMT)?[+-]\d{2}(?::?\d{2})?)?"
)
_DATES: Final = {
    "ymd": r"(?P<y>\d{4})[-/.](?P<mo>\d{1,2})[-/.](?P<d>\d{1,2})",
    "dmy": r"(?P<d>\d{1,2})[-/. ]{1,2}(?P<mo>\d{1,2}|[A-Za-z]{3})[-/. ]{1,2}(?P<y>\d{4}|\d{2})",
    "mdy": r"(?P<mo>\d{1,2})[-/.](?P<d>\d{1,2})[-/.](?P<y>\d{4}|\d{2})",
}
_TIMES: Final = {order: re.compile(date + _CLOCK, re.IGNORECASE) for order, date in _DATES.items()}
_DAYS: Final = {order: re.compile(date, re.IGNORECASE) for order, date in _DATES.items()}
DATE_ORDERS: Final = tuple(_DATES)
NOON_S: Final = 12 * 3600
_UNIX: Final = re.compile(r"(\d{9,10})(?:\.\d+|\d{3})?")
_NUMBER: Final = re.compile(r"([+\-−]?\d{1,4}(?:[.,]\d+)?)\s*(?:[°º]?\s*([CcFf]))?")
UNIX_FROM: Final = 946_684_800
"""Seconds since 1970 before the year 2000 are some other number."""


@dataclass(frozen=True, slots=True)
class TimeParts:
    """A moment as written: date, second of the day, offset from UTC in seconds if it says one."""

    date: tuple[int, int, int]
    second: int
    offset_s: int | None


def time_parts(text: str, order: str) -> TimeParts | int | None:
    """The moment that a text writes in this order; seconds since 1970 for `unix`; None if it is none."""
    bare = text.strip().strip("'\"")
    if order == "unix":
        found = _UNIX.fullmatch(bare)
        return int(found[1]) if found and int(found[1]) >= UNIX_FROM else None
    fits = _TIMES[order].fullmatch(bare)
    return None if fits is None else _parts(fits)


def date_parts(text: str, order: str) -> TimeParts | None:
    """The day that a text writes in this order, at noon; None if it is none, or says a time of day too."""
    fits = _DAYS[order].fullmatch(text.strip().strip("'\""))
    date = None if fits is None else _date(fits)
    return None if date is None else TimeParts(date, NOON_S, None)


def has_offset(text: str) -> bool:
    """Whether a moment says its offset from UTC."""
    return any(isinstance(p := time_parts(text, order), TimeParts) and p.offset_s is not None for order in _DATES)


def is_number(text: str, mark: str) -> bool:
    """Whether a text is a temperature with this decimal mark."""
    return number(text, mark) is not None


def number(text: str, mark: str) -> tuple[float, str] | None:
    """The number of a cell and the unit written beside it (`c`, `f` or empty); None if it is none."""
    fits = _NUMBER.fullmatch(text.strip())
    if fits is None or ("," if mark == "." else ".") in fits[1]:
        return None
    return float(fits[1].replace(",", ".").replace("−", "-")), (fits[2] or "").lower()


def _parts(fits: re.Match[str]) -> TimeParts | None:
    date = _date(fits)
    hour, minute, second = int(fits["h"]), int(fits["mi"]), int(fits["s"] or 0)
    if fits["half"]:
        if not 1 <= hour <= 12:
            return None
        hour = hour % 12 + (12 if fits["half"].lower() == "p" else 0)
    if date is None or not (hour < 24 and minute < 60 and second < 60):
        return None
    return TimeParts(date, hour * 3600 + minute * 60 + second, _offset(fits["off"]))


def _date(fits: re.Match[str]) -> tuple[int, int, int] | None:
    """Year, month and day; None where there is no such month or day."""
    year, month, day = int(fits["y"]), fits["mo"], int(fits["d"])
    number_of = int(month) if month.isdigit() else MONTHS.get(month.lower(), 0)
    if not (1 <= number_of <= 12 and 1 <= day <= 31):
        return None
    return year + 2000 if year < 100 else year, number_of, day


def _offset(text: str | None) -> int | None:
    if not text:
        return None
    figures = re.sub(r"[^\d+-]", "", text)
    if not figures:
        return 0
    sign = -1 if figures[0] == "-" else 1
    return sign * (int(figures[1:3]) * 3600 + int(figures[3:5] or 0) * 60)
