"""The table of a spectrum that an instrument exports: which lines hold readings, which mark parts them.

Two columns, wavelength in nanometres and what was read there, in any of the usual ways of writing a table. Nothing is
guessed where a number could mean two things.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from bluewright.science.base.errors import InputError

MOST_LINES: Final = 6000
LEAST_NM, MOST_NM = 190.0, 1100.0
_NUMBER: Final = re.compile(r"[+\-−]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+\-]?\d+)?")
Reading = tuple[int, float, float]
"""Line, wavelength, what was read there."""


def decoded(data: bytes) -> str:
    """The text of a file: UTF-16 by its mark, UTF-8, or else Latin-1. Raises InputError for what is a spreadsheet."""
    if data.startswith((b"PK\x03\x04", b"\xd0\xcf\x11\xe0")):
        raise InputError(where="file", what="it is a spreadsheet", right="save it as CSV and choose that")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("latin-1")


def readings(text: str, *, least: int, write: str) -> list[Reading]:
    """The readings of a table, `least` or more, from short to long wavelengths; one from long to short is turned round.

    Lines above the first that holds two numbers are its head. `write` says how such a table should be written. Raises
    InputError that names the line.
    """
    lines = text.splitlines()
    if len(lines) > MOST_LINES:
        raise InputError(where="file", what=f"it has {len(lines):,} lines", right=f"at most {MOST_LINES:,} make sense")
    found = list(_pairs(lines, write))
    if len(found) < least:
        what = f"it has {len(found)} lines with two numbers"
        raise InputError(where="file", what=what, right=f"give at least {least}: {write}")
    _check_units(found)
    _check_order(found)
    return found[::-1] if found[0][1] > found[-1][1] else found


def _pairs(lines: list[str], write: str) -> Iterator[Reading]:
    begun = False
    for number, line in enumerate(lines, start=1):
        if not line.strip():
            continue
        cells = _cells(line, number)
        if len(cells) == 2 and all(_NUMBER.fullmatch(cell) for cell in cells):
            begun = True
            yield number, _value(cells[0]), _value(cells[1])
        elif len(cells) > 2 and all(_NUMBER.fullmatch(cell) for cell in cells):
            raise InputError(where=f"line {number}", what=f"it holds {len(cells)} numbers", right=write)
        elif begun:
            said = line.strip()[:40]
            raise InputError(where=f"line {number}", what=f"'{said}' is no pair of numbers", right=write)


def _cells(line: str, number: int) -> list[str]:
    """The cells of a line, by semicolon, tab or space; by comma only where no comma can be a decimal mark."""
    for mark in (";", "\t"):
        if mark in line:
            return [cell.strip().strip('"') for cell in line.split(mark) if cell.strip()]
    if "," not in line:
        return line.split()
    parts = [cell.strip().strip('"') for cell in line.split(",")]
    whole = [part for part in parts if part]
    if len(whole) in {3, 4} and all(part.lstrip("+-−").isdigit() for part in whole):
        raise InputError(
            where=f"line {number}",
            what=f"'{line.strip()[:40]}' has commas that could be decimal marks or part its columns",
            right="save the table with semicolons between columns, or with decimal points",
        )
    if " " in line.strip() and len(line.split()) == 2 and all(_NUMBER.fullmatch(cell) for cell in line.split()):
        return line.split()
    return whole


def _value(cell: str) -> float:
    return float(cell.replace(",", ".").replace("−", "-"))


def _check_order(found: list[Reading]) -> None:
    falls = found[0][1] > found[-1][1]
    for (_, one, _a), (line, other, _b) in pairwise(found):
        if other == one:
            raise InputError(where=f"line {line}", what=f"{other:g} stands twice", right="give each wavelength once")
        if (other < one) != falls:
            raise InputError(
                where=f"line {line}", what=f"{other:g} stands after {one:g}", right="sort the table by wavelength"
            )


def _check_units(found: list[Reading]) -> None:
    """All in nanometres: wavenumbers, micrometres and mixtures are refused by what they are."""
    outside = [(line, at) for line, at, _ in found if not LEAST_NM <= at <= MOST_NM]
    if not outside:
        return
    line, at = outside[0]
    if len(outside) < len(found):
        what = f"{at:g} is no wavelength from {LEAST_NM:g} to {MOST_NM:g} nm, though others are"
        right = "keep one unit: nm are 10,000,000 divided by wavenumbers in 1/cm"
    elif all(1e7 / MOST_NM <= one <= 1e7 / LEAST_NM for _, one in outside):
        what = f"{at:g} looks like a wavenumber in 1/cm"
        right = f"turn them into nm: 10,000,000 / {at:g} = {1e7 / at:.1f} nm"
    else:
        what, right = f"{at:g} is no wavelength from {LEAST_NM:g} to {MOST_NM:g} nm", "give wavelengths in nm"
    raise InputError(where=f"line {line}", what=what, right=right)
