"""What a photo's file and its camera's notes say that bears on measuring colours in it."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from datetime import datetime
from typing import Any, Final, Literal

from PIL import ExifTags

from bluewright.pictures.opening import Opened, details
from bluewright.science.photo.picture import Hint, PictureFacts

_B = ExifTags.Base
LUMINANCE_SUM: Final = 3688
"""Of the table of luminance at quality 50 (ITU-T T.81, table K.1), from which most encoders scale theirs."""
COPY_QUALITY: Final = 88
COPY_PX: Final = 2100
"""Messengers write a photo at less than this quality or at most so long; cameras write finer and larger ones."""
SCREEN_RATIO: Final = 1.9
"""Of longer to shorter side: screens of phones are longer than this, photos are not."""
WHITE_BALANCE: Final[Mapping[int, Literal["auto", "manual"]]] = {0: "auto", 1: "manual"}
RENDERED: Final[Mapping[int, Hint]] = {2: "hdr", 3: "hdr", 6: "edited", 7: "portrait", 8: "portrait"}
"""How the camera made it of several shots (EXIF 2.3, tag 0xA401; values above 1 as phones write them, from memory)."""
SCENES: Final[Mapping[int, Hint]] = {2: "portrait", 3: "night"}
"""What the camera was set to (EXIF 2.3, tag 0xA406)."""
EDITED_AFTER_S: Final = 120.0
"""A camera writes its file within this time."""
MOST_CHARACTERS: Final = 80


def facts(photo: Opened, *, told: str) -> PictureFacts:
    """What bears on trust; `told` is how its colour space is known (`profile.in_space`)."""
    noted = details(photo.exif)
    exposure_s, f_number, iso = (_positive(noted.get(tag)) for tag in (_B.ExposureTime, _B.FNumber, _B.ISOSpeedRatings))
    camera = " ".join(filter(None, (_text(photo.exif.get(tag)) for tag in (_B.Make, _B.Model))))
    has_exif = bool(exposure_s or camera)
    quality = jpeg_quality(getattr(photo.picture, "quantization", None))
    return PictureFacts(
        format=photo.format,
        jpeg_quality=quality,
        has_exif=has_exif,
        camera=camera[:MOST_CHARACTERS],
        software=_text(photo.exif.get(_B.Software))[:MOST_CHARACTERS],
        taken_at=_text(noted.get(_B.DateTimeOriginal))[:MOST_CHARACTERS],
        exposure_s=exposure_s,
        f_number=f_number,
        iso=round(iso) if iso else None,
        white_balance=WHITE_BALANCE.get(noted.get(_B.WhiteBalance, -1)),
        brightness_ev=_brightness_ev(exposure_s, f_number, iso),
        hints=tuple(dict.fromkeys(_hints(photo, noted, has_exif=has_exif, quality=quality, told=told))),
    )


def jpeg_quality(tables: Mapping[int, Any] | None) -> int | None:
    """Quality, 1 to 100, at which a JPEG was written, by how coarse its first table is against that of quality 50.

    Encoders scale the table by 50 / quality below 50 and by 2 - quality / 50 above (common practice).
    """
    if not tables or 0 not in tables:
        return None
    scale = max(float(sum(tables[0])) / LUMINANCE_SUM, 0.01)
    quality: float = 50 * (2 - scale) if scale <= 1 else 50 / scale
    return max(1, min(100, round(quality)))


def _hints(
    photo: Opened, noted: Mapping[int, Any], *, has_exif: bool, quality: int | None, told: str
) -> Iterator[Hint]:
    longer, shorter = max(photo.width_px, photo.height_px), max(min(photo.width_px, photo.height_px), 1)
    if not has_exif:
        yield "no_exif"
        if photo.format in {"PNG", "WEBP"} or longer / shorter > SCREEN_RATIO:
            yield "screenshot"
        elif longer <= COPY_PX or (quality or 100) < COPY_QUALITY:
            yield "messenger"
    if _edited(photo, noted):
        yield "edited"
    if any(noted.get(tag) not in {None, 0} for tag in (_B.Contrast, _B.Saturation)):
        yield "filter"
    for tag, meanings in ((_B.CustomRendered, RENDERED), (_B.SceneCaptureType, SCENES)):
        if (hint := meanings.get(noted.get(tag, -1))) is not None:
            yield hint
    if isinstance(flash := noted.get(_B.Flash), int) and flash & 1:
        yield "flash"
    if (_positive(noted.get(_B.DigitalZoomRatio)) or 1.0) > 1.05:
        yield "zoomed"
    if told == "assumed" and (noted.get(_B.ColorSpace) != 1):
        yield "profile_assumed"
    if told == "converted":
        yield "profile_converted"


def _edited(photo: Opened, noted: Mapping[int, Any]) -> bool:
    """Whether the file was written long after the photo was taken."""
    try:
        taken, written = (
            datetime.strptime(_text(said), "%Y:%m:%d %H:%M:%S")
            for said in (noted.get(_B.DateTimeOriginal), photo.exif.get(_B.DateTime))
        )
    except ValueError:
        return False
    return abs((written - taken).total_seconds()) > EDITED_AFTER_S


def _brightness_ev(exposure_s: float | None, f_number: float | None, iso: float | None) -> float | None:
    """log2(N^2 / t) - log2(S / 100) (ISO 2720)."""
    if not exposure_s or not f_number or not iso:
        return None
    return round(math.log2(f_number**2 / exposure_s * 100 / iso), 1)


def _positive(said: Any) -> float | None:
    """A number above 0; the first, where a camera notes several."""
    first = said[0] if isinstance(said, tuple) and said else said
    try:
        value = float(first)
    except (TypeError, ValueError, ZeroDivisionError):
        return None
    return value if math.isfinite(value) and value > 0 else None


def _text(said: Any) -> str:
    return said.strip("\0 ") if isinstance(said, str) else ""
