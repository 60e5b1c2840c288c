"""The original without what tells place or person."""

from io import BytesIO

import numpy as np
import pytest
from PIL import ExifTags, Image

from bluewright.journal.photos.stripping import noted, stripped
from bluewright.science.base.errors import InputError
from tests.pictures import SECRET, halves, linear_profile, notes, opened, photo, png_part, saved, told_everywhere

LONG = Image.effect_noise((130, 90), 60).convert("RGB")


def rid(data: bytes) -> bytes:
    picture = Image.open(BytesIO(data))
    kind = "JPEG" if picture.format == "MPO" else str(picture.format)
    return stripped(data, kind, noted(picture.getexif()))


@pytest.mark.parametrize(
    "data",
    [
        saved(LONG, "JPEG", exif=notes()),
        saved(LONG, "JPEG", exif=notes(), progressive=True),
        saved(LONG, "JPEG", exif=notes(), restart_marker_rows=1),
        saved(LONG.convert("CMYK"), "JPEG", exif=notes()),
        saved(LONG, "MPO", save_all=True, append_images=[halves()], exif=notes()),
        told_everywhere(),
        saved(LONG, "PNG", exif=notes()),
        saved(LONG.convert("P"), "PNG", exif=notes()),
        saved(LONG, "WEBP", exif=notes()),
        saved(LONG, "WEBP", exif=notes(), lossless=True),
        saved(LONG.convert("RGBA"), "WEBP", exif=notes(), xmp=SECRET.encode()),
        saved(LONG, "WEBP"),
    ],
    ids=[
        "JPEG", "progressive", "with restarts", "CMYK", "two pictures", "tells everywhere", "PNG", "palette", "WEBP",
        "lossless WEBP", "see-through WEBP", "bare WEBP",
    ],
)  # fmt: skip
def test_the_pixels_are_the_same_to_the_bit(data: bytes) -> None:
    kept = rid(data)
    assert SECRET.encode() not in kept
    before, after = opened(data), opened(kept)
    assert (before.mode, before.size) == (after.mode, after.size)
    assert np.array_equal(np.asarray(before.convert("RGBA")), np.asarray(after.convert("RGBA")))


@pytest.mark.parametrize("format_name", ["JPEG", "PNG", "WEBP"])
def test_light_time_and_turn_stay_and_the_rest_goes(format_name: str) -> None:
    kept = rid(saved(LONG, format_name, exif=notes(orientation=6, offset="+01:00")))
    exif = opened(kept).getexif()
    details = exif.get_ifd(ExifTags.IFD.Exif)
    assert exif[ExifTags.Base.Orientation] == 6
    assert exif[ExifTags.Base.Model] == "Phone 7"
    assert set(exif) <= {ExifTags.Base.Orientation, ExifTags.Base.Model, ExifTags.Base.ExifOffset}
    assert details == {
        ExifTags.Base.DateTimeOriginal: "2026:07:01 10:00:00",
        ExifTags.Base.OffsetTimeOriginal: "+01:00",
        ExifTags.Base.ExposureTime: 0.01,
    }


@pytest.mark.parametrize("format_name", ["JPEG", "PNG", "WEBP"])
def test_the_colour_profile_stays(format_name: str) -> None:
    kept = rid(saved(LONG, format_name, icc_profile=linear_profile()))
    assert opened(kept).info["icc_profile"] == linear_profile()


def test_captions_of_a_png_go() -> None:
    plain = saved(LONG, "PNG")
    told = b"".join(png_part(name, b"Comment\0" + SECRET.encode()) for name in (b"tEXt", b"maKe"))
    kept = rid(plain[:33] + told + plain[33:] + SECRET.encode())
    assert kept == plain


def test_a_file_without_notes_gets_none() -> None:
    assert not opened(rid(photo())).getexif()
    assert noted(Image.Exif()) == b""


def test_what_was_stripped_once_stays_as_it_is() -> None:
    for data in (told_everywhere(), saved(LONG, "PNG", exif=notes()), saved(LONG, "WEBP", exif=notes())):
        once = rid(data)
        assert rid(once) == once


@pytest.mark.parametrize(
    ("data", "kind"),
    [(photo()[:2] + b"\xff\xe1\0\0" + photo()[2:], "JPEG"), (saved(LONG, "PNG")[:-12], "PNG")],
    ids=["a part without a length", "no end"],
)
def test_parts_that_cannot_be_told_from_each_other_are_refused(data: bytes, kind: str) -> None:
    with pytest.raises(InputError, match="damaged"):
        stripped(data, kind, b"")
