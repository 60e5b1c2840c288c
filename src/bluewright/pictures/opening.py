"""Is this a photo that can be kept? Decided by what is in the file, never by its name; refused in plain words.

One photo is decoded at a time: a large one takes more than a hundred megabytes while it is open.
"""

from __future__ import annotations

import logging
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import datetime, timedelta
from io import BytesIO
from threading import Lock
from typing import Any, Final

import pi_heif  # type: ignore[import-untyped]
from PIL import ExifTags, Image

from bluewright.pictures import heic
from bluewright.science.base.errors import InputError

MOST_FILE_BYTES: Final = 30_000_000
MOST_PIXELS: Final = 60_000_000
SHOWN_PX: Final = 1600
"""Longest side of the picture that pages show."""
FORMATS: Final = ("JPEG", "PNG", "WEBP", "HEIF")
CLOCK_SET_AFTER: Final = datetime(2001, 1, 1)
"""A camera whose clock was never set says 1970, 1980 or 2000."""
RIGHT: Final = "send a photo as JPEG, PNG, WEBP or HEIC"

UPRIGHT: Final = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
"""What turns a photo upright, by the orientation that its camera noted (EXIF 2.3, tag 0x0112)."""
ON_ITS_SIDE: Final = frozenset(UPRIGHT[k] for k in (5, 6, 7, 8))
"""The turns that make a wide photo a high one."""

_one_at_a_time = Lock()
_log = logging.getLogger(__name__)


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """A photo, decoded, and what its camera noted."""

    picture: Image.Image
    """As decoded: not turned upright, large JPEGs at a half or a quarter of their size."""
    format: str
    width_px: int
    """Of the photo in full, as stored, not turned."""
    height_px: int
    exif: Image.Exif

    @property
    def turn(self) -> Image.Transpose | None:
        """What turns it upright, by its camera's note; a HEIC photo was turned by its decoder."""
        noted = self.exif.get(ExifTags.Base.Orientation, 1)
        return UPRIGHT.get(noted) if self.format != "HEIF" and isinstance(noted, int) else None


def refused(what: str, right: str = RIGHT) -> InputError:
    """A photo that cannot be kept, with what would be right."""
    return InputError(where="photo", what=what, right=right)


def check_size(size_bytes: int) -> None:
    """Raise InputError for an empty file or one above the limit."""
    if size_bytes == 0:
        raise refused("the file is empty", "choose the photo again")
    if size_bytes > MOST_FILE_BYTES:
        raise refused(
            f"the file has {size_bytes / 1e6:.1f} MB",
            f"a photo may have {MOST_FILE_BYTES / 1e6:.0f} MB: set the camera to a smaller size, or send it as JPEG",
        )


@contextmanager
def opened(data: bytes, *, in_full: bool = False) -> Iterator[Opened]:
    """The photo in these bytes, held open while no other is; large JPEGs are decoded smaller unless asked in full.

    Raises InputError for what is no photo, cannot be decoded, moves, or is too large.
    """
    check_size(len(data))
    with _one_at_a_time, warnings.catch_warnings():
        warnings.simplefilter("ignore")
        image = _headed(data)
        width_px, height_px = image.size
        _check_pixels(width_px, height_px)
        if image.format in {"PNG", "WEBP"} and getattr(image, "is_animated", False):
            raise refused("the picture moves", "send a single photo as JPEG, PNG, WEBP or HEIC")
        try:
            exif = image.getexif()
        except Exception:  # what a camera noted is worth nothing if it cannot be read
            exif = Image.Exif()
        if image.format in {"JPEG", "MPO"} and not in_full:
            image.draft(None, (SHOWN_PX, SHOWN_PX))
        try:
            image.load()
        except Exception as error:  # a decoder fed with damage raises anything
            _log.info("a photo could not be decoded: %r", error)
            raise _damaged(image.format) from None
        if image.format == "HEIF":  # its header may say another size than its picture has
            width_px, height_px = image.size
            _check_pixels(width_px, height_px)
        kind = "JPEG" if image.format == "MPO" else str(image.format)
        yield Opened(picture=image, format=kind, width_px=width_px, height_px=height_px, exif=exif)


def taken_at(exif: Image.Exif, *, now: datetime) -> datetime | None:
    """When the camera says it was taken, by its own offset or else the clock of `now`; None if that cannot be."""
    noted = details(exif)
    try:
        local = datetime.strptime(str(noted.get(ExifTags.Base.DateTimeOriginal, "")).strip("\0 "), "%Y:%m:%d %H:%M:%S")
    except ValueError:
        return None
    if local < CLOCK_SET_AFTER:
        return None
    try:
        offset = datetime.strptime(str(noted.get(ExifTags.Base.OffsetTimeOriginal, "")).strip("\0 "), "%z")
    except ValueError:
        offset = now
    found = local.replace(tzinfo=offset.tzinfo)
    return found if found <= now + timedelta(minutes=5) else None


def details(exif: Image.Exif) -> dict[int, Any]:
    """The camera's notes on light and time by their numbers in EXIF 2.3; none if they cannot be read."""
    try:
        return dict(exif.get_ifd(ExifTags.IFD.Exif))
    except Exception:  # as above
        return {}


def _headed(data: bytes) -> Any:
    """The photo with its header read, no pixel decoded yet."""
    pi_heif.register_heif_opener()
    if data[4:8] == b"ftyp" and not heic.can_be_opened(data):
        raise _unknown(data)
    try:
        return Image.open(BytesIO(data), formats=FORMATS)
    except Image.DecompressionBombError:
        raise _too_many_pixels("more") from None
    except Exception as error:  # as above
        _log.info("a photo could not be opened: %r", error)
        raise _unknown(data) from None


def _check_pixels(width_px: int, height_px: int) -> None:
    if width_px * height_px > MOST_PIXELS:
        raise _too_many_pixels(f"{width_px} by {height_px} points, {width_px * height_px / 1e6:.0f} million")


def _too_many_pixels(said: str) -> InputError:
    return refused(
        f"the photo is too large ({said})", f"a photo may have {MOST_PIXELS / 1e6:.0f} million points: send it smaller"
    )


def _damaged(format_name: str | None) -> InputError:
    if format_name == "HEIF":
        return refused("this HEIC photo cannot be opened here", "send it as JPEG (camera setting 'most compatible')")
    return refused("the photo is cut short or damaged", "send it again, or take another")


def _unknown(data: bytes) -> InputError:
    """What the bytes are instead, as far as their beginning tells."""
    if data[4:8] == b"ftyp" and data[8:12] in {b"heic", b"heix", b"mif1", b"msf1", b"hevc"}:
        return _damaged("HEIF")
    if data[4:8] == b"ftyp" and data[8:12] in {b"isom", b"mp42", b"qt  ", b"mp41", b"3gp4", b"3gp5"}:
        return refused("this is a film")
    if data[:3] == b"\xff\xd8\xff" or data[:8] == b"\x89PNG\r\n\x1a\n":
        return _damaged(None)
    return refused("this is no photo that can be opened here")
