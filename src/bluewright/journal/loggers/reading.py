"""All readings of a file, read as a person told: streamed, in little memory, with each line that could not be read."""

from __future__ import annotations

import math
from array import array
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final
from zoneinfo import ZoneInfo

from bluewright.journal.loggers.cells import number
from bluewright.journal.loggers.clock import Clock, Unclear
from bluewright.journal.loggers.columns import DECIMALS, Columns, cells, moment_text, when
from bluewright.journal.loggers.station import Name, in_own_unit, measured

MOST_TOLD: Final = 20
"""As many lines that cannot be read are told one by one; the rest is counted."""


@dataclass(slots=True, kw_only=True)
class Readings:
    """The readings of a file in its order: seconds since 1970, degrees Celsius, and what was not understood.

    Where a line has no temperature they are NaN.
    """

    seconds: array[int] = field(default_factory=lambda: array("q"))
    temps_c: array[float] = field(default_factory=lambda: array("d"))
    unread: int = 0
    told: list[tuple[int, str]] = field(default_factory=list)
    """Line and reason of the first that could not be read."""
    beside: dict[Name, array[float]] = field(default_factory=dict)
    """What else a station measured, with NaN where a line does not say it."""
    twice: int = 0
    """Readings in an hour that came twice, told apart by their order."""


def read_all(lines: Iterable[str], columns: Columns, *, zone: ZoneInfo, low_c: float, high_c: float) -> Readings:
    """Every reading of a file; temperatures outside the limits cannot be and count as not read."""
    found = Readings(beside={name: array("d") for name in measured(columns)})
    clock = Clock(columns.zone, zone)
    for line_number, line in enumerate(lines, start=1):
        if line_number < columns.first_line or not line.strip():
            continue
        try:
            row = cells(line, columns.delimiter)
            second, temp_c, others = _one(row, columns, clock, low_c, high_c)
        except Unclear as why:
            found.unread += 1
            if len(found.told) < MOST_TOLD:
                found.told.append((line_number, str(why)))
        else:
            found.seconds.append(second)
            found.temps_c.append(math.nan if temp_c is None else temp_c)
            for name, value in others.items():
                found.beside[name].append(math.nan if value is None else value)
    found.twice = clock.twice
    return found


def each(
    lines: Iterable[str], columns: Columns, *, zone: ZoneInfo, low_c: float, high_c: float
) -> Iterator[tuple[int, list[str], int | None, float | None, str]]:
    """For a look before all is read: line, cells, second, degrees if there are any, or why it cannot be read."""
    clock = Clock(columns.zone, zone)
    for line_number, line in enumerate(lines, start=1):
        if line_number < columns.first_line or not line.strip():
            continue
        row = cells(line, columns.delimiter)
        try:
            second, temp_c, _others = _one(row, columns, clock, low_c, high_c)
        except Unclear as why:
            yield line_number, row, None, None, str(why)
        else:
            yield line_number, row, second, temp_c, ""


def beside(row: Sequence[str], columns: Columns) -> dict[Name, float | None]:
    """What else a line says, in the units that days are reckoned in; None where the cell is empty or cannot be."""
    found: dict[Name, float | None] = {}
    for name, at in measured(columns).items():
        said = number(row[at], DECIMALS[columns.decimal]) if at < len(row) else None
        found[name] = None if said is None else in_own_unit(name, said[0], columns)
    return found


def _one(
    row: list[str], columns: Columns, clock: Clock, low_c: float, high_c: float
) -> tuple[int, float | None, dict[Name, float | None]]:
    """Second, degrees, and what else a station says.

    A line without degrees, or with none in that cell (empty, `--`, `n/a`), must say something else.
    """
    if len(row) < columns.least_cells:
        raise Unclear("it has too few columns")
    text = moment_text(row, columns)
    moment = when(text, columns.order, daily=columns.daily)
    if moment is None:
        raise Unclear(f"'{text.strip()[:40]}' is no time written that way" if text.strip() else "it has no time")
    others = beside(row, columns)
    said = any(value is not None for value in others.values())
    if columns.temp_column is None and not said:
        raise Unclear("it has nothing that can be read")
    if columns.temp_column is None or (said and not _has_digit(row[columns.temp_column])):
        return clock.seconds(moment), None, others
    return clock.seconds(moment), _degrees(row[columns.temp_column], columns, low_c, high_c), others


def _has_digit(text: str) -> bool:
    return any(one.isdigit() for one in text)


def _degrees(text: str, columns: Columns, low_c: float, high_c: float) -> float:
    said = number(text, DECIMALS[columns.decimal])
    if said is None:
        cell = text.strip()[:40]
        raise Unclear(f"'{cell}' is no temperature written that way" if cell else "it has no temperature")
    value, unit = said
    if unit and unit != columns.unit:
        raise Unclear(f"its temperature is in {unit.upper()}")
    temp_c = round((value - 32) / 1.8, 3) if columns.unit == "f" else value
    if not low_c <= temp_c <= high_c:
        raise Unclear(f"{temp_c:g} C cannot be")
    return temp_c
