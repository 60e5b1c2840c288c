"""From a file to its lines: which encoding, how long, and what is no text at all."""

from __future__ import annotations

import codecs
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import Final

from bluewright.science.base.errors import InputError

MOST_BYTES: Final = 25_000_000
MOST_LINES: Final = 1_000_000
PIECE_BYTES: Final = 1 << 18
FEW_LINES: Final = 60
"""As many lines from the top are looked at to guess how a file is written."""
MOST_LINE_CHARS: Final = 2_000
CSV: Final = "save it as CSV (text with a line for each reading) and choose that"
MARKS: Final = (
    (codecs.BOM_UTF8, "utf-8-sig"),
    (codecs.BOM_UTF16_LE, "utf-16"),
    (codecs.BOM_UTF16_BE, "utf-16"),
)


def encoding_of(path: Path) -> str:
    """The encoding of a file: by its mark, UTF-16 without one, UTF-8, or else Latin-1.

    Raises InputError for a file that is empty, no text, or longer than the limits.
    """
    size = path.stat().st_size
    if size > MOST_BYTES:
        what = f"it has {size / 1e6:.0f} MB"
        raise InputError(where="file", what=what, right=f"send up to {MOST_BYTES // 1_000_000} MB at once, in parts")
    with path.open("rb") as file:
        start = file.read(PIECE_BYTES)
    if not start.strip(b"\0 \t\r\n\xef\xbb\xbf\xff\xfe"):
        raise InputError(where="file", what="it is empty", right="choose the file that the logger wrote")
    if start.startswith(b"PK\x03\x04") or start.startswith(b"\xd0\xcf\x11\xe0"):
        raise InputError(where="file", what="it is a spreadsheet", right=CSV)
    found = _encoding(start, path)
    _count_lines(path, found)
    return found


def lines(path: Path, encoding: str) -> Iterator[str]:
    """The lines of a file, one at a time, without their ends; very long ones are cut."""
    with path.open(encoding=encoding, errors="replace", newline=None) as file:
        for line in file:
            yield line.rstrip("\n")[:MOST_LINE_CHARS]


def first_lines(path: Path, encoding: str) -> list[str]:
    """The first few lines, empty ones too, so that numbers of lines hold."""
    return list(islice(lines(path, encoding), FEW_LINES))


def _encoding(start: bytes, path: Path) -> str:
    for mark, name in MARKS:
        if start.startswith(mark):
            return name
    even, odd = start[0::2], start[1::2]
    if odd.count(0) > 0.4 * len(odd) and even.count(0) < 0.1 * len(even):
        return "utf-16-le"
    if even.count(0) > 0.4 * len(even) and odd.count(0) < 0.1 * len(odd):
        return "utf-16-be"
    strange = sum(start.count(bytes([code])) for code in range(32) if code not in (9, 10, 12, 13))
    if strange > 0.01 * len(start):
        raise InputError(where="file", what="it is no text", right=CSV)
    return "utf-8" if _is_utf8(path) else "latin-1"


def _is_utf8(path: Path) -> bool:
    decoder = codecs.getincrementaldecoder("utf-8")()
    try:
        with path.open("rb") as file:
            while piece := file.read(PIECE_BYTES):
                decoder.decode(piece)
        decoder.decode(b"", final=True)
    except UnicodeDecodeError:
        return False
    return True


def _count_lines(path: Path, encoding: str) -> None:
    many = sum(1 for _ in lines(path, encoding))
    if many > MOST_LINES:
        what = f"it has {many:,} lines"
        raise InputError(where="file", what=what, right=f"send up to {MOST_LINES:,} lines at once, in parts")
