"""How a file is written: what parts its cells, which column is which, how to read them."""

from __future__ import annotations

import csv
import hashlib
import re
from collections.abc import Collection, Sequence
from dataclasses import asdict, dataclass, replace
from itertools import pairwise
from typing import Any, Final

from bluewright.journal.loggers.cells import (
    DATE_ORDERS,
    ORDERS,
    TimeParts,
    date_parts,
    has_offset,
    is_number,
    time_parts,
)
from bluewright.science.base.errors import InputError

DELIMITERS: Final = {"tab": "\t", "semicolon": ";", "comma": ","}
DECIMALS: Final = {"point": ".", "comma": ","}
MOST_COLUMNS: Final = 60
UNITS: Final = {
    unit: re.compile(rf"(?:°|º|deg\.?\s*|[\[(_\s]\s*|\d\s*){unit}\b|\b{word}\b", re.IGNORECASE)
    for unit, word in {"c": "celsius", "f": "fahrenheit"}.items()
}

HIGHEST: Final = re.compile(r"\bmax|high", re.IGNORECASE)
DEGREES: Final = re.compile(r"temp|°|º|\bdeg|celsius|fahrenheit", re.IGNORECASE)
LOWEST: Final = re.compile(r"\bmin|\blow", re.IGNORECASE)
NAMED: Final = {
    "rain_column": re.compile(r"\brain|precip", re.IGNORECASE),
    "humidity_column": re.compile(r"humid|\brh\b", re.IGNORECASE),
    "wind_column": re.compile(r"wind\s*speed|\bwind\b(?!.*(?:dir|gust|°|deg))", re.IGNORECASE),
    "sun_column": re.compile(r"radiation|\bsun|solar", re.IGNORECASE),
}
"""Names of columns in plain English; a person confirms what was guessed, and corrects it once for all files alike."""
UNIT_NAMES: Final = {
    "rain_column": {"in": re.compile(r"\bin\b|inch", re.IGNORECASE)},
    "wind_column": {
        "km/h": re.compile(r"km/?h|kph", re.IGNORECASE), "mph": re.compile(r"\bmph\b", re.IGNORECASE),
        "kn": re.compile(r"\bkn\b|knot", re.IGNORECASE),
    },
    "sun_column": {
        "MJ/m2": re.compile(r"\bMJ", re.IGNORECASE), "h": re.compile(r"hours?\b|[\[(]h[\])]", re.IGNORECASE),
        "min": re.compile(r"\bmin\b|minutes", re.IGNORECASE),
    },
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """How to read a file. Empty texts are what is not known yet; columns are counted from 0, lines from 1."""

    delimiter: str
    decimal: str
    first_line: int
    """The line of the first reading: what stands above it is the head."""
    time_column: int
    clock_column: int | None = None
    """Where the time of day has a column of its own beside the date."""
    temp_column: int | None
    """None where the file has no temperatures: a gauge for rain, a meter for the sun."""
    unit: str = ""
    """`c` or `f`; empty without temperatures."""
    order: str = ""
    """`ymd`, `dmy`, `mdy` or `unix`."""
    zone: str = ""
    """Whose clock: `garden`, the same without summer time (`standard`), `utc`, or as each moment says (`text`)."""
    daily: bool = False
    """Whether each line is a whole day; `temp_column` is then its highest."""
    low_column: int | None = None
    """The lowest of the day, in such a file."""
    rain_column: int | None = None
    rain_unit: str = "mm"
    rain_how: str = "each"
    """`each` line says its own rain, or a running `total`."""
    humidity_column: int | None = None
    wind_column: int | None = None
    wind_unit: str = "m/s"
    wind_height_m: str = "2"
    """Above the ground, in metres: `2` or `10`."""
    sun_column: int | None = None
    sun_unit: str = "W/m2"

    @property
    def least_cells(self) -> int:
        """A line with fewer cells has no time or no temperature."""
        return 1 + max(self.time_column, self.temp_column or 0, self.clock_column or 0)

    def plain(self) -> dict[str, Any]:
        """As the journal keeps it."""
        return asdict(self)


def cells(line: str, delimiter: str) -> list[str]:
    """The cells of one line; a quotation mark that is not closed ends with its line."""
    mark = DELIMITERS[delimiter]
    return (line.split(mark) if '"' not in line else next(csv.reader([line], delimiter=mark)))[:MOST_COLUMNS]


def guess(sample: Sequence[str], *, delimiter: str = "") -> Columns:
    """How a file seems to be written, from its first lines; what could be two things is left open.

    Raises InputError if no line has a time and a number beside it.
    """
    found = [one for name in ([delimiter] if delimiter else DELIMITERS) if (one := _with_delimiter(sample, name))]
    if not found:
        raise InputError(where="file", what=_no_table(sample), right="choose the file that the logger wrote, as CSV")
    best = max(found, key=lambda one: sum(_reads(line, one) for line in sample))
    return _told_by_text(sample, best)


def signature(sample: Sequence[str], columns: Columns) -> str:
    """What files of the same logger share: the names of their columns, or how many there are."""
    head = heading(sample, columns)
    told = [re.sub(r"[\d\s]+", " ", cell).strip().casefold() for cell in head]
    width = len(cells(sample[columns.first_line - 1], columns.delimiter))
    return hashlib.sha256(repr((columns.delimiter, width, told)).encode()).hexdigest()


def heading(sample: Sequence[str], columns: Columns) -> list[str]:
    """The names of the columns: the line above the first reading, if it has as many cells."""
    width = len(cells(sample[columns.first_line - 1], columns.delimiter))
    for line in reversed(sample[: columns.first_line - 1]):
        if line.strip():
            head = cells(line, columns.delimiter)
            return [cell.strip() for cell in head] if len(head) == width else []
    return []


def _with_delimiter(sample: Sequence[str], delimiter: str) -> Columns | None:
    """The first line with a time and a number, by this delimiter."""
    for number, line in enumerate(sample, start=1):
        row = cells(line, delimiter)
        times = [i for i, cell in enumerate(row) if any(time_parts(cell, order) for order in ORDERS)]
        for decimal, mark in DECIMALS.items():
            if times:
                clock, after = None, times[0]
            elif (pair := _date_and_clock(row)) is not None:
                clock, after = pair[1], pair[0]
            elif dates := [i for i, cell in enumerate(row) if any(date_parts(cell, order) for order in DATE_ORDERS)]:
                clock, after = None, dates[0]
            else:
                continue
            others = [i for i, cell in enumerate(row) if i not in {after, clock} and is_number(cell, mark)]
            numbers = sorted(others, key=lambda i: i < after)
            if numbers and (decimal == "comma" or mark in row[numbers[0]] or "," not in row[numbers[0]]):
                columns = Columns(
                    delimiter=delimiter, decimal=decimal, first_line=number, time_column=after, clock_column=clock,
                    temp_column=numbers[0], daily=not times and clock is None,
                )  # fmt: skip
                return _decimal(sample, columns)
    return None


def _date_and_clock(row: Sequence[str]) -> tuple[int, int] | None:
    """Neighbouring cells that together are a moment."""
    for i, (date, clock) in enumerate(pairwise(row)):
        if any(time_parts(f"{date.strip()} {clock.strip()}", order) for order in ORDERS if order != "unix"):
            return i, i + 1
    return None


def _decimal(sample: Sequence[str], columns: Columns) -> Columns:
    """A comma in any temperature means that commas are decimal."""
    if columns.delimiter == "comma":
        return columns
    at = columns.temp_column or 0
    body = [cells(line, columns.delimiter) for line in sample[columns.first_line - 1 :]]
    return replace(columns, decimal="comma" if any("," in row[at] for row in body if len(row) > at) else "point")


def moment_text(row: Sequence[str], columns: Columns) -> str:
    """The text of a line's moment, put together where date and time of day stand apart."""
    if columns.clock_column is None:
        return row[columns.time_column]
    return f"{row[columns.time_column].strip()} {row[columns.clock_column].strip()}"


def _reads(line: str, columns: Columns) -> bool:
    row = cells(line, columns.delimiter)
    if len(row) < columns.least_cells:
        return False
    text = moment_text(row, columns)
    told = any(when(text, order, daily=columns.daily) for order in ORDERS)
    return told and is_number(row[columns.temp_column or 0], DECIMALS[columns.decimal])


def when(text: str, order: str, *, daily: bool) -> TimeParts | int | None:
    """The moment of a line; of a line that is a whole day its date, at noon."""
    if daily:
        return date_parts(text, order) if order in DATE_ORDERS else None
    return time_parts(text, order)


def _told_by_text(sample: Sequence[str], columns: Columns) -> Columns:
    """With order, unit and clock, as far as the text leaves no doubt."""
    body = [cells(line, columns.delimiter) for line in sample[columns.first_line - 1 :] if _reads(line, columns)]
    texts = [moment_text(row, columns) for row in body]
    orders = [order for order in ORDERS if all(when(text, order, daily=columns.daily) for text in texts)]
    head = heading(sample, columns)
    columns = with_degrees(head, body[0], columns)
    at = columns.temp_column
    name = "" if at is None else f"{head[at] if head else ''} {body[0][at]}"
    units = {unit for unit, pattern in UNITS.items() if pattern.search(name)}
    zone = "garden" if columns.daily else "text" if all(has_offset(text) for text in texts) else ""
    return replace(
        named(head, columns),
        order=orders[0] if len(orders) == 1 else "",
        unit=units.pop() if len(units) == 1 else "",
        zone="utc" if orders == ["unix"] else zone,
    )


def with_degrees(head: Sequence[str], first: Sequence[str], columns: Columns) -> Columns:
    """With the column of the temperature, if the names of the columns speak against the first number of a line.

    None where every number is called something else that a station measures.
    """

    def other(i: int) -> bool:
        return not DEGREES.search(head[i]) and any(names.search(head[i]) for names in NAMED.values())

    at = columns.temp_column
    if not head or at is None or not other(at):
        return columns
    taken = {columns.time_column, columns.clock_column}
    numbers = [i for i, cell in enumerate(first) if i not in taken and is_number(cell, DECIMALS[columns.decimal])]
    left = [i for i in numbers if not other(i)]
    degrees = [i for i in left if DEGREES.search(head[i])] or left
    return replace(columns, temp_column=degrees[0] if degrees else None)


def named(head: Sequence[str], columns: Columns) -> Columns:
    """With what else a station measures, as far as the names of the columns tell."""
    found: dict[str, Any] = {}
    taken = {columns.time_column, columns.clock_column, columns.temp_column}
    if columns.daily and (highest := _column(head, HIGHEST, taken - {columns.temp_column})) is not None:
        found["temp_column"] = highest
        taken = {columns.time_column, highest}
        found["low_column"] = _column(head, LOWEST, taken)
    for field, names in NAMED.items():
        if (at := _column(head, names, taken)) is not None:
            found[field] = at
            units = [unit for unit, pattern in UNIT_NAMES.get(field, {}).items() if pattern.search(head[at])]
            found |= {field.replace("column", "unit"): units[0]} if units else {}
    return replace(columns, **found)


def _column(head: Sequence[str], names: re.Pattern[str], taken: Collection[int | None]) -> int | None:
    """The one column of such a name; None if there is none, or more than one."""
    found = [i for i, name in enumerate(head) if names.search(name) and i not in taken]
    return found[0] if len(found) == 1 else None


def _no_table(sample: Sequence[str]) -> str:
    told = [line for line in sample if line.strip()]
    if len(told) == 1:
        return "it has a single line without a reading"
    return "none of its first lines has a time and a number beside it"
