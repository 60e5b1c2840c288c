"""What a photo's file and its camera's notes tell."""

from typing import Any

import pytest
from PIL import ExifTags, Image

from bluewright.pictures.decoding import picture
from bluewright.science.photo.picture import Hint, PictureFacts
from tests.pictures import halves, photo, saved

_B = ExifTags.Base
SUN = {_B.ExposureTime: 1 / 1000, _B.FNumber: 4.0, _B.ISOSpeedRatings: 100}


def told(details: dict[int, Any] | None = None, *, size: tuple[int, int] = (3000, 2250), **head: Any) -> PictureFacts:
    """The facts of a photo whose camera noted these."""
    exif = Image.Exif()
    exif[_B.Make], exif[_B.Model] = "Maker", "Phone 7"
    for name, value in head.items():
        exif[getattr(_B, name)] = value
    found = exif.get_ifd(ExifTags.IFD.Exif)
    for tag, value in (details or {}).items():
        found[tag] = value
    return picture(photo(*size, exif=exif.tobytes())).facts


@pytest.mark.parametrize("quality", [40, 50, 60, 75, 80, 85, 90, 95, 100])
def test_quality_is_told_by_the_tables(quality: int) -> None:
    """Written at a known quality by another encoder (libjpeg); rounding of its tables leaves two steps."""
    found = picture(photo(quality=quality)).facts.jpeg_quality
    assert found == pytest.approx(quality, abs=2)


def test_light_and_time_are_read() -> None:
    found = told(
        {**SUN, _B.DateTimeOriginal: "2026:07:05 14:03:22", _B.WhiteBalance: 1, _B.ColorSpace: 1}, Software="17.4"
    )
    assert (found.camera, found.software, found.taken_at) == ("Maker Phone 7", "17.4", "2026:07:05 14:03:22")
    assert (found.exposure_s, found.f_number, found.iso) == (pytest.approx(0.001), 4.0, 100)
    assert found.white_balance == "manual"
    assert found.hints == ()


@pytest.mark.parametrize(
    ("exposure_s", "f_number", "iso", "ev"),
    [(1 / 125, 16.0, 125, 14.6), (1 / 60, 2.8, 400, 6.9), (1.0, 1.0, 100, 0.0)],
    ids=["sunny 16", "a lit room", "by definition"],
)
def test_brightness_is_the_exposure_value_at_iso_100(exposure_s: float, f_number: float, iso: int, ev: float) -> None:
    """Sunny 16: at f/16 one over the ISO; EV 0 is 1 s at f/1 (common practice; log2 worked by hand)."""
    found = told({_B.ExposureTime: exposure_s, _B.FNumber: f_number, _B.ISOSpeedRatings: iso})
    assert found.brightness_ev == pytest.approx(ev, abs=0.06)


@pytest.mark.parametrize(
    ("details", "hint"),
    [
        ({_B.CustomRendered: 3}, "hdr"),
        ({_B.CustomRendered: 8}, "portrait"),
        ({_B.SceneCaptureType: 3}, "night"),
        ({_B.Saturation: 2}, "filter"),
        ({_B.Flash: 0x19}, "flash"),
        ({_B.DigitalZoomRatio: 2.0}, "zoomed"),
    ],
)
def test_what_the_camera_did_by_itself_is_noticed(details: dict[int, Any], hint: Hint) -> None:
    assert hint in told(details).hints
    assert hint not in told(SUN | {_B.CustomRendered: 1, _B.Flash: 0x18, _B.Saturation: 0}).hints


def test_a_file_written_long_after_the_photo_was_edited() -> None:
    taken = {_B.DateTimeOriginal: "2026:07:05 14:03:22"}
    assert "edited" in told(taken, DateTime="2026:07:06 20:00:00").hints
    assert "edited" not in told(taken, DateTime="2026:07:05 14:03:24").hints


@pytest.mark.parametrize(
    ("data", "hints"),
    [
        (saved(halves(1170, 2532), "PNG"), {"screenshot"}),
        (photo(1170, 2532, quality=95), {"screenshot"}),
        (photo(1600, 1200, quality=80), {"messenger"}),
        (photo(4000, 3000, quality=75), {"messenger"}),
        (photo(4000, 3000, quality=95), set()),
    ],
    ids=["PNG", "long JPEG", "small", "coarse", "only without notes"],
)
def test_what_has_no_notes_is_no_photo_or_a_copy(data: bytes, hints: set[str]) -> None:
    found = set(picture(data).facts.hints)
    assert "no_exif" in found
    assert found & {"screenshot", "messenger"} == hints


def test_notes_that_make_no_sense_are_worth_nothing() -> None:
    found = told({_B.ExposureTime: 0.0, _B.FNumber: float("inf"), _B.ISOSpeedRatings: 0, _B.WhiteBalance: 9})
    assert (found.exposure_s, found.iso, found.brightness_ev, found.white_balance) == (None, None, None, None)
