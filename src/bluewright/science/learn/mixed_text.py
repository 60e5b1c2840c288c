"""A table of batches, as a spreadsheet writes it, to the batches of a record."""

from __future__ import annotations

import csv
import dataclasses
from collections.abc import Iterator
from typing import Any, Final

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.learn.mixed_record import NotedBatch

NUMBERS: Final = frozenset({"value", "assay_sd_frac", "temp_c", "steep_h", "held_h", "damaged_frac"})
FIELDS: Final = tuple(field.name for field in dataclasses.fields(NotedBatch))


def batches_of(text: str) -> tuple[NotedBatch, ...]:
    """The batches of a table whose first line names the fields; empty cells are not known. InputError names the
    line."""
    lines = text.splitlines()
    head_line = lines[0] if lines else ""
    mark = max(",;\t", key=head_line.count)
    rows = csv.reader(lines, delimiter=mark)
    head = [cell.strip().lower() for cell in next(rows, [])]
    unknown = [name for name in head if name not in FIELDS]
    if unknown or not {"way", "value"} <= set(head) or len(set(head)) < len(head):
        raise InputError(
            where="line 1", what=f"its columns are {', '.join(head) or 'none'}",
            right=f"it must name way and value once, and of the others only {', '.join(FIELDS)}",
        )  # fmt: skip
    return tuple(_batches(head, rows))


def _batches(head: list[str], rows: Iterator[list[str]]) -> Iterator[NotedBatch]:
    for number, row in enumerate(rows, start=2):
        if not any(cell.strip() for cell in row):
            continue
        if len(row) > len(head):
            raise InputError(
                where=f"line {number}", what=f"it has {len(row)} cells for {len(head)} columns",
                right="write decimal points, or quote cells that hold the separator",
            )  # fmt: skip
        cells = {name: cell.strip() for name, cell in zip(head, row, strict=False) if cell.strip()}
        try:
            yield read(NotedBatch, {name: _typed(name, cell) for name, cell in cells.items()})
        except InputError as error:
            raise error.inside(f"line {number}") from None


def _typed(name: str, cell: str) -> Any:
    if name not in NUMBERS:
        return cell
    try:
        return float(cell)
    except ValueError:
        raise InputError(
            where=name, what=f"'{cell}' is not a number", right="write it with a decimal point and no unit"
        ) from None
