"""A photo made ready to be kept."""

from datetime import UTC, datetime
from hashlib import sha256

import numpy as np
import pytest
from PIL import ExifTags, Image

from bluewright.journal.photos.preparing import Prepared, prepared
from tests.pictures import (
    BLUE,
    HEIC,
    HEIC_TURNED,
    RED,
    SECRET,
    halves,
    linear_profile,
    near,
    notes,
    opened,
    photo,
    saved,
    told_everywhere,
)

NOW = datetime(2026, 7, 5, 12, 0, tzinfo=UTC)
ROW_AND_COLUMN = {
    1: ("top", "left"), 2: ("top", "right"), 3: ("bottom", "right"), 4: ("bottom", "left"),
    5: ("left", "top"), 6: ("right", "top"), 7: ("right", "bottom"), 8: ("left", "bottom"),
}  # fmt: skip
"""Where the first row and the first column as stored are to be seen (EXIF 2.3, tag 0x0112, Orientation)."""
CORNERS = {"red": (0, 0), "lime": (-1, 0), "blue": (0, -1), "black": (-1, -1)}


def ready(data: bytes) -> Prepared:
    return prepared(data, now=NOW)


def four_corners() -> Image.Image:
    """80 by 48, each quarter of its own colour."""
    picture = Image.new("RGB", (80, 48), "red")
    picture.paste("lime", (40, 0, 80, 24))
    picture.paste("blue", (0, 24, 40, 48))
    picture.paste("black", (40, 24, 80, 48))
    return picture


def stored_for(orientation: int) -> Image.Image:
    """The four corners as a camera stores them that was held so."""
    upright = np.asarray(four_corners())
    row, column = ROW_AND_COLUMN[orientation]
    if row in {"bottom", "right"}:
        upright = upright[::-1] if row == "bottom" else upright[:, ::-1]
    if column in {"bottom", "right"}:
        upright = upright[::-1] if column == "bottom" else upright[:, ::-1]
    return Image.fromarray(upright if row in {"top", "bottom"} else upright.transpose(1, 0, 2).copy())


@pytest.mark.parametrize("format_name", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("orientation", ROW_AND_COLUMN)
def test_each_way_to_hold_a_camera_is_shown_upright(orientation: int, format_name: str) -> None:
    options = {"quality": 95} if format_name != "PNG" else {}
    data = saved(stored_for(orientation), format_name, exif=notes(orientation=orientation), **options)
    found = ready(data)
    assert (found.width_px, found.height_px) == (80, 48)
    for picture in (opened(found.shown), opened(found.thumb)):
        assert picture.size == (80, 48)
        for colour, (x, y) in CORNERS.items():
            at = (4 if x == 0 else 75, 4 if y == 0 else 43)
            assert near(picture.getpixel(at), Image.new("RGB", (1, 1), colour).getpixel((0, 0)), 40), colour  # type: ignore[arg-type]


@pytest.mark.parametrize("orientation", [0, 9, 77])
def test_a_turn_that_there_is_not_is_no_turn(orientation: int) -> None:
    found = ready(photo(exif=notes(orientation=orientation)))
    assert opened(found.shown).size == (64, 48)


def test_a_heic_photo_is_shown_and_its_pixels_are_kept() -> None:
    found = ready(HEIC)
    assert (found.width_px, found.height_px, found.ending) == (64, 48, "jpg")
    for data in (found.shown, found.original):
        picture = opened(data)
        assert picture.format == "JPEG"
        assert near(picture.getpixel((8, 24)), RED, 25)
        assert near(picture.getpixel((56, 24)), BLUE, 25)
    assert found.taken_at == datetime(2026, 7, 1, 10, 0, tzinfo=UTC)


def test_a_heic_photo_is_turned_once() -> None:
    """A quarter clockwise brings the left half to the top."""
    found = ready(HEIC_TURNED)
    assert (found.width_px, found.height_px) == (48, 64)
    for data in (found.shown, found.original):
        picture = opened(data)
        assert picture.size == (48, 64)
        assert picture.getexif().get(ExifTags.Base.Orientation, 1) == 1
        assert near(picture.getpixel((24, 8)), RED, 25)
        assert near(picture.getpixel((24, 56)), BLUE, 25)


@pytest.mark.parametrize(
    "data",
    [
        photo(exif=notes()),
        told_everywhere(),
        saved(halves(), "PNG", exif=notes()),
        saved(halves(), "WEBP", exif=notes(), xmp=SECRET.encode()),
        HEIC,
        HEIC_TURNED,
    ],
    ids=["JPEG", "JPEG that tells everywhere", "PNG", "WEBP", "HEIC", "turned HEIC"],
)
def test_no_file_that_is_kept_tells_the_place(data: bytes) -> None:
    assert SECRET.encode() in data
    found = ready(data)
    for kept in (found.shown, found.thumb, found.original):
        exif = opened(kept).getexif()
        assert not exif.get_ifd(ExifTags.IFD.GPSInfo)
        assert SECRET.encode() not in kept
        assert b"GPS" not in kept
    for kept in (found.shown, found.thumb):
        assert not opened(kept).getexif()
        assert set(opened(kept).info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}


def test_sizes_are_those_of_the_pages_and_the_side_ratio_stays() -> None:
    """3200 to 1600 is a half, to 320 a tenth; of 2400 that leaves 1200 and 240."""
    found = ready(photo(3200, 2400))
    assert opened(found.shown).size == (1600, 1200)
    assert opened(found.thumb).size == (320, 240)
    assert (found.width_px, found.height_px) == (3200, 2400)


def test_a_small_photo_is_not_blown_up() -> None:
    assert opened(ready(photo(40, 30)).shown).size == (40, 30)
    assert opened(ready(saved(Image.new("RGB", (1, 1)), "PNG")).thumb).size == (1, 1)


def test_a_strip_keeps_a_point_of_width() -> None:
    assert opened(ready(saved(Image.new("RGB", (4000, 1), "red"), "PNG")).thumb).size == (320, 1)


def middle(data: bytes) -> tuple[int, ...]:
    picture = opened(ready(data).shown)
    assert picture.mode == "RGB"
    found: tuple[int, ...] = picture.getpixel((picture.width // 2, picture.height // 2))  # type: ignore[assignment]
    return found


def test_colours_of_a_profile_are_brought_to_srgb() -> None:
    """Light of 55/255 = 0.2157: IEC 61966-2-1 gives 1.055 * 0.2157^(1/2.4) - 0.055 = 0.5017, times 255 is 128."""
    data = saved(Image.new("RGB", (30, 30), (55, 55, 55)), "PNG", icc_profile=linear_profile())
    assert near(middle(data), (128, 128, 128), 2)


@pytest.mark.parametrize("profile", [b"nonsense", linear_profile()[:200]])
def test_a_profile_that_cannot_be_read_is_let_go(profile: bytes) -> None:
    assert near(middle(saved(Image.new("RGB", (30, 30), (55, 90, 55)), "JPEG", icc_profile=profile)), (55, 90, 55), 4)


@pytest.mark.parametrize(
    ("picture", "format_name", "wanted"),
    [
        (Image.new("CMYK", (30, 30), (0, 255, 255, 0)), "JPEG", (255, 0, 0)),
        (Image.new("L", (30, 30), 90), "JPEG", (90, 90, 90)),
        (Image.new("L", (30, 30), 90), "PNG", (90, 90, 90)),
        (Image.new("1", (30, 30), 1), "PNG", (255, 255, 255)),
        (Image.new("RGB", (30, 30), (10, 200, 30)).quantize(4), "PNG", (10, 200, 30)),
        (Image.new("RGBA", (30, 30), (255, 0, 0, 0)), "PNG", (255, 255, 255)),
        (Image.new("RGBA", (30, 30), (255, 0, 0, 255)), "WEBP", (255, 0, 0)),
        (Image.new("LA", (30, 30), (0, 0)), "PNG", (255, 255, 255)),
        (Image.fromarray(np.full((30, 30), 0x8000, dtype=np.uint16)), "PNG", (128, 128, 128)),
        (Image.fromarray(np.full((30, 30), 0xFFFF, dtype=np.uint16)), "PNG", (255, 255, 255)),
    ],
    ids=["ink", "grey JPEG", "grey PNG", "line art", "palette", "see-through", "WEBP", "see-through grey", "16", "all"],
)  # fmt: skip
def test_every_way_to_store_colour_is_shown(picture: Image.Image, format_name: str, wanted: tuple[int, ...]) -> None:
    """16 bits to 8: 0x8000 is 128 of 256; see-through stands on white; ink of magenta and yellow is red."""
    assert near(middle(saved(picture, format_name)), wanted, 12)


def test_the_sum_is_that_of_what_was_sent() -> None:
    data = photo(exif=notes())
    assert ready(data).sha256 == sha256(data).hexdigest()
