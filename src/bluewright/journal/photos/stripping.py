"""The original without what tells place or person: only what is known to be harmless is carried over.

The compressed picture itself is not touched, so the pixels stay as they were sent, to the bit. Of all that stands
beside it in the file only these parts are kept: what a decoder needs, the colour profile, and a new note with the
settings of the camera. Everything else goes: location, names, serial numbers, captions, the maker's own notes,
embedded second pictures and films, and whatever follows the end of the picture.
"""

from __future__ import annotations

import re
import zlib
from collections.abc import Iterator
from typing import Any, Final

from PIL import ExifTags, Image

from bluewright.pictures.opening import refused

_B = ExifTags.Base
CAMERA: Final = (_B.Make, _B.Model, _B.DateTime)
LIGHT: Final = (
    _B.DateTimeOriginal, _B.OffsetTimeOriginal, _B.ExposureTime, _B.FNumber, _B.ExposureProgram, _B.ISOSpeedRatings,
    _B.ShutterSpeedValue, _B.ApertureValue, _B.BrightnessValue, _B.ExposureBiasValue, _B.MeteringMode, _B.LightSource,
    _B.Flash, _B.FocalLength, _B.ColorSpace, _B.ExposureMode, _B.WhiteBalance, _B.SceneCaptureType, _B.GainControl,
    _B.Contrast, _B.Saturation, _B.Sharpness, _B.CustomRendered, _B.DigitalZoomRatio,
)  # fmt: skip
"""The camera's notes that are kept, by their names in EXIF 2.3."""
MOST_NOTE: Final = 40
"""Characters of a note."""

PNG_SIGN: Final = b"\x89PNG\r\n\x1a\n"
PNG_KEPT: Final = frozenset(
    {b"IHDR", b"PLTE", b"tRNS", b"IDAT", b"IEND", b"gAMA", b"cHRM", b"sRGB", b"iCCP", b"cICP", b"sBIT", b"pHYs"}
)
WEBP_KEPT: Final = frozenset({b"VP8X", b"VP8 ", b"VP8L", b"ALPH", b"ICCP"})
WEBP_HAS_EXIF, WEBP_HAS_XMP = 0x08, 0x04
NEXT_MARKER: Final = re.compile(rb"\xff+([^\x00\xff\xd0-\xd7])", re.S)


def noted(exif: Image.Exif) -> bytes:
    """The notes of the camera that tell of light and time, as a new EXIF block; empty if there is none."""
    kept = Image.Exif()
    turn = exif.get(_B.Orientation)
    if isinstance(turn, int) and 1 <= turn <= 8:
        kept[_B.Orientation] = turn
    for tag in CAMERA:
        if (said := _harmless(exif.get(tag))) is not None:
            kept[tag] = said
    try:
        found: dict[int, Any] = dict(exif.get_ifd(ExifTags.IFD.Exif))
    except Exception:  # a damaged block raises anything, and is worth nothing
        found = {}
    details = {tag: said for tag in LIGHT if (said := _harmless(found.get(tag))) is not None}
    if details:
        kept[ExifTags.IFD.Exif] = details
    try:
        return kept.tobytes() if len(kept) else b""
    except Exception:  # a number that no camera writes
        return b""


def stripped(data: bytes, kind: str, notes: bytes) -> bytes:
    """The file of a kind (JPEG, PNG, WEBP) with the same compressed pixels and the notes given, nothing else.

    Raises InputError if its parts cannot be told from each other.
    """
    try:
        return {"JPEG": _jpeg, "PNG": _png, "WEBP": _webp}[kind](data, notes)
    except (IndexError, ValueError):
        raise refused("the photo is damaged", "send it again, or take another") from None


def _harmless(said: Any) -> Any:
    """A number or a short text; anything else is nothing."""
    if isinstance(said, str):
        return said if len(said) <= MOST_NOTE and said.isascii() else None
    return None if isinstance(said, bytes | tuple | list | dict) else said


def _jpeg(data: bytes, notes: bytes) -> bytes:
    first, parts, at = [b"\xff\xd8"], [], 2
    while match := NEXT_MARKER.search(data, at):
        marker, start = match[1][0], match.end()
        if marker == 0xD9:
            break
        if marker == 0x01:
            at = start
            continue
        length = int.from_bytes(data[start : start + 2], "big")
        if length < 2:
            raise ValueError("a part without a length")
        end = start + length
        if marker == 0xDA:  # the scan itself follows, up to the next marker
            after = NEXT_MARKER.search(data, end)
            end = after.start() if after else len(data)
        if marker == 0xE0 and data[start : start + 7] == b"\0\x10JFIF\0" and len(first) == 1:
            first.append(b"\xff" + data[start - 1 : end])  # must come first; sixteen bytes hold no picture
        elif _needed(marker, data[start + 2 : start + 16]):
            parts.append(b"\xff" + data[start - 1 : end])
        at = end
    if notes:
        first.append(b"\xff\xe1" + (len(notes) + 2).to_bytes(2, "big") + notes)
    return b"".join([*first, *parts, b"\xff\xd9"])


def _needed(marker: int, content: bytes) -> bool:
    """Whether a JPEG part is needed to decode, or is the colour profile."""
    if marker == 0xE2:
        return content.startswith(b"ICC_PROFILE\0")
    if marker == 0xEE:
        return content.startswith(b"Adobe")
    return not (0xE0 <= marker <= 0xEF or marker == 0xFE)


def _png(data: bytes, notes: bytes) -> bytes:
    parts = [PNG_SIGN]
    for name, content in _png_parts(data):
        if name == b"IDAT" and notes and not any(part[4:8] == b"eXIf" for part in parts):
            parts.append(_png_part(b"eXIf", notes.removeprefix(b"Exif\0\0")))
        if name in PNG_KEPT:
            parts.append(_png_part(name, content))
    return b"".join(parts)


def _png_parts(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    at = len(PNG_SIGN)
    while at + 12 <= len(data):
        length, name = int.from_bytes(data[at : at + 4], "big"), data[at + 4 : at + 8]
        yield name, data[at + 8 : at + 8 + length]
        if name == b"IEND":
            return
        at += 12 + length
    raise ValueError("no end")


def _png_part(name: bytes, content: bytes) -> bytes:
    return len(content).to_bytes(4, "big") + name + content + zlib.crc32(name + content).to_bytes(4, "big")


def _webp(data: bytes, notes: bytes) -> bytes:
    kept: list[tuple[bytes, bytes]] = []
    at, end = 12, min(8 + int.from_bytes(data[4:8], "little"), len(data))
    while at + 8 <= end:
        name, length = data[at : at + 4], int.from_bytes(data[at + 4 : at + 8], "little")
        content = data[at + 8 : at + 8 + length]
        if name == b"VP8X":
            flags = content[0] & ~(WEBP_HAS_EXIF | WEBP_HAS_XMP) | (WEBP_HAS_EXIF if notes else 0)
            content = bytes([flags]) + content[1:]
        if name in WEBP_KEPT:
            kept.append((name, content))
        at += 8 + length + length % 2
    if notes and any(name == b"VP8X" for name, _ in kept):
        kept.append((b"EXIF", notes.removeprefix(b"Exif\0\0")))
    body = b"".join(name + len(c).to_bytes(4, "little") + c + b"\0" * (len(c) % 2) for name, c in kept)
    return b"RIFF" + (4 + len(body)).to_bytes(4, "little") + b"WEBP" + body
