"""A photo made ready to be kept: a picture to show, a small one, and the original without place and person."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from hashlib import sha256
from io import BytesIO
from typing import Final

from PIL import ExifTags, Image, ImageCms

from bluewright.journal.photos.stripping import noted, stripped
from bluewright.pictures.opening import ON_ITS_SIDE, SHOWN_PX, Opened, opened, taken_at

THUMB_PX: Final = 320
SHOWN_QUALITY: Final = 82
THUMB_QUALITY: Final = 76
ORIGINAL_QUALITY: Final = 95


@dataclass(frozen=True, slots=True, kw_only=True)
class Prepared:
    """A photo as it will be kept."""

    shown: bytes
    """JPEG in sRGB, upright, at most 1600 points on its longer side, without any note of the camera."""
    thumb: bytes
    """The same at most 320 points."""
    original: bytes
    """The pixels as they were sent; of the camera's notes only those that tell of light and time."""
    ending: str
    """Of the original's file."""
    sha256: str
    """Of the bytes as they were sent."""
    width_px: int
    """Of the original, upright."""
    height_px: int
    taken_at: datetime | None
    """As the camera says; None if it says nothing that can be."""


def prepared(data: bytes, *, now: datetime) -> Prepared:
    """A photo made ready; `now` has the garden's clock. Raises InputError as `opened` does."""
    with opened(data) as photo:
        turn = photo.turn
        shown = upright(photo.picture, turn, photo.picture.info.get("icc_profile"))
        width_px, height_px = photo.width_px, photo.height_px
        if turn in ON_ITS_SIDE:
            width_px, height_px = height_px, width_px
        original, ending = _original(data, photo)
        thumb = thumb_of(shown)
        return Prepared(
            shown=jpeg(shown, quality=SHOWN_QUALITY),
            thumb=thumb,
            original=original,
            ending=ending,
            sha256=sha256(data).hexdigest(),
            width_px=width_px,
            height_px=height_px,
            taken_at=taken_at(photo.exif, now=now),
        )


def upright(picture: Image.Image, turn: Image.Transpose | None, profile: bytes | None) -> Image.Image:
    """The picture to show: plain, small, in sRGB, upright."""
    small = plain(picture)
    small.thumbnail((SHOWN_PX, SHOWN_PX), Image.Resampling.LANCZOS)
    coloured = _in_srgb(small, profile)
    return coloured.transpose(turn) if turn is not None else coloured


def plain(picture: Image.Image) -> Image.Image:
    """A copy in grey, RGB or CMYK: on white where it was see-through, 16 bits brought down to 8."""
    if picture.mode.startswith("I"):
        return picture.convert("I").point([k >> 8 for k in range(65536)], "L")
    if picture.mode == "F":
        return picture.convert("L")
    if picture.mode in {"LA", "PA", "RGBA", "RGBa", "La"} or "transparency" in picture.info:
        whole = picture.convert("RGBA")
        ground = Image.new("RGBA", whole.size, "white")
        return Image.alpha_composite(ground, whole).convert("RGB")
    return picture.copy() if picture.mode in {"L", "RGB", "CMYK"} else picture.convert("RGB")


def thumb_of(shown: Image.Image) -> bytes:
    """The small picture as JPEG."""
    small = shown.copy()
    small.thumbnail((THUMB_PX, THUMB_PX), Image.Resampling.LANCZOS)
    return jpeg(small, quality=THUMB_QUALITY)


def jpeg(picture: Image.Image, *, quality: int, exif: bytes = b"", profile: bytes | None = None) -> bytes:
    """The picture as JPEG, with nothing beside it but what is given."""
    out = BytesIO()
    fine = 0 if quality >= ORIGINAL_QUALITY else -1
    picture.save(out, "JPEG", quality=quality, subsampling=fine, optimize=True, exif=exif, icc_profile=profile)
    return out.getvalue()


def _original(data: bytes, photo: Opened) -> tuple[bytes, str]:
    """The original pixels to keep, and the ending of their file."""
    if photo.format != "HEIF":
        return stripped(data, photo.format, noted(photo.exif)), {"JPEG": "jpg", "PNG": "png", "WEBP": "webp"}[
            photo.format
        ]
    notes = Image.Exif()
    notes.load(noted(photo.exif))
    notes[ExifTags.Base.Orientation] = 1
    profile = photo.picture.info.get("icc_profile")
    whole = plain(photo.picture)
    return jpeg(whole, quality=ORIGINAL_QUALITY, exif=notes.tobytes(), profile=profile), "jpg"


def _in_srgb(picture: Image.Image, profile: bytes | None) -> Image.Image:
    """The picture in sRGB: by its profile, or as it is if it has none that can be read or that fits."""
    if profile:
        try:
            source = ImageCms.ImageCmsProfile(BytesIO(profile))
            target = ImageCms.createProfile("sRGB")
            turned = ImageCms.profileToProfile(picture, source, target, outputMode="RGB")
        except (ImageCms.PyCMSError, OSError, ValueError):
            turned = None
        if turned is not None:
            turned.info.clear()
            return turned
    found = picture.convert("RGB")
    found.info.clear()
    return found
