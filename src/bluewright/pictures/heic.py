"""What a HEIC file says of its parts, looked at before the decoder is: it breaks down on names that are no text.

The decoder (pi_heif 1.4) ends the whole program, not only the photo, where the kind of a part (`Exif`) holds bytes that
are no UTF-8. So every kind is read here first.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

IN_META: Final = b"meta"
PARTS: Final = b"iinf"
PART: Final = b"infe"


def can_be_opened(data: bytes) -> bool:
    """Whether all names of parts are text; also where this is no HEIC file, or its boxes make no sense."""
    try:
        return all(_is_text(part) for part in _parts(data))
    except (IndexError, ValueError):
        return False


def _parts(data: bytes) -> Iterator[bytes]:
    """The contents of all part entries (ISO/IEC 14496-12, 8.11.6), each from its version on."""
    for kind, meta in _boxes(data):
        for inner, parts in _boxes(meta[4:]) if kind == IN_META else ():
            for each, content in _boxes(parts[6 if parts[0] == 0 else 8 :]) if inner == PARTS else ():
                if each == PART:
                    yield content


def _is_text(content: bytes) -> bool:
    """Whether kind, name and the rest of an entry are text; older versions have names alone."""
    start = {2: 8, 3: 10}.get(content[0], 8)
    try:
        content[start:].decode("utf-8")
    except UnicodeDecodeError:
        return False
    return True


def _boxes(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    """Kind and content of each box, one after the other; what is cut short counts as far as it goes."""
    at = 0
    while at + 8 <= len(data):
        size, kind, head = int.from_bytes(data[at : at + 4], "big"), data[at + 4 : at + 8], 8
        if size == 1:
            size, head = int.from_bytes(data[at + 8 : at + 16], "big"), 16
        elif size == 0:
            size = len(data) - at
        if size < head:
            raise ValueError("a box smaller than its head")
        yield kind, data[at + head : at + size]
        at += size
