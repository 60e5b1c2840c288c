"""From the bytes of a photo to the picture in which colours are measured."""

import struct
import zlib

import numpy as np
import pytest
from PIL import Image, ImageCms

from bluewright.pictures.decoding import picture
from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.spaces import XYZ_OF_LINEAR, code_of_linear, linear_of_xyz
from tests.pictures import (
    BLUE,
    HEIC,
    HEIC_TURNED,
    RED,
    bomb,
    display_p3_profile,
    halves,
    linear_profile,
    near,
    notes,
    photo,
    png_part,
    saved,
)


def sixteen_bits(value: int) -> bytes:
    """A PNG of 8 by 8 points, one colour, 16 bits a channel."""
    rows = b"".join(b"\0" + np.full((8, 3), value, dtype=">u2").tobytes() for _ in range(8))
    head = struct.pack(">IIBBBBB", 8, 8, 16, 2, 0, 0, 0)
    parts = png_part(b"IHDR", head) + png_part(b"IDAT", zlib.compress(rows)) + png_part(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + parts


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_jpeg_is_turned_upright_however_the_camera_was_held(orientation: int) -> None:
    """Red left of blue as stored; where red is after the turn, by the table of EXIF 2.3 for tag 0x0112."""
    red_at = {1: (2, 2), 2: (61, 2), 3: (61, 2), 4: (2, 2), 5: (2, 2), 6: (2, 2), 7: (2, 61), 8: (2, 61)}
    found = picture(photo(exif=notes(orientation=orientation)))
    assert (found.width_px, found.height_px) == ((64, 48) if orientation <= 4 else (48, 64))
    x, y = red_at[orientation]
    assert near(found.code[y, x], RED)
    assert near(found.code[-1 - y, -1 - x], BLUE)


@pytest.mark.parametrize(("data", "size"), [(HEIC, (64, 48)), (HEIC_TURNED, (48, 64))], ids=["wide", "turned"])
def test_a_heic_photo_is_turned_by_its_decoder_once(data: bytes, size: tuple[int, int]) -> None:
    found = picture(data)
    assert (found.width_px, found.height_px) == size
    assert near(found.code[2, 2], RED, within=30)
    assert near(found.code[-3, -3], BLUE, within=30)


def test_every_point_is_there_however_large_the_photo() -> None:
    assert picture(photo(3400, 3300)).code.shape == (3300, 3400, 3)


def display_p3_of_srgb(code: Floats) -> Floats:
    """Codes that show in Display P3 what these show in sRGB."""
    linear = np.where(code <= 0.04045, code / 12.92, ((code + 0.055) / 1.055) ** 2.4)
    return code_of_linear(np.clip(linear_of_xyz(linear @ XYZ_OF_LINEAR["srgb"].T, space="display-p3"), 0, 1))


def test_display_p3_is_known_by_its_profile_and_left_as_it_is() -> None:
    shown = np.round(255 * display_p3_of_srgb(np.full((20, 20, 3), [0.2, 0.35, 0.6]))).astype(np.uint8)
    found = picture(saved(Image.fromarray(shown), "PNG", icc_profile=display_p3_profile()))
    assert found.space == "display-p3"
    assert np.array_equal(found.code, shown)


def test_srgb_is_known_by_its_profile_and_left_as_it_is() -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    found = picture(saved(halves(), "PNG", icc_profile=profile))
    assert found.space == "srgb"
    assert not {"profile_assumed", "profile_converted"} & set(found.facts.hints)
    assert tuple(found.code[0, 0]) == RED


def test_any_other_profile_is_brought_to_srgb_and_said() -> None:
    """Light in proportion to the number: half the light is code 188 of sRGB."""
    grey = Image.new("RGB", (20, 20), (128, 128, 128))
    found = picture(saved(grey, "PNG", icc_profile=linear_profile()))
    assert found.space == "srgb"
    assert "profile_converted" in found.facts.hints
    assert near(found.code[5, 5], (188, 188, 188), within=1)


def test_without_a_profile_srgb_is_assumed_and_said() -> None:
    found = picture(photo())
    assert found.space == "srgb"
    assert "profile_assumed" in found.facts.hints


def test_sixteen_bits_are_read_as_eight() -> None:
    """40,000 of 65,535 is 155.6 of 255."""
    assert near(picture(sixteen_bits(40_000)).code[3, 3], (156, 156, 156), within=1)


def test_an_alpha_channel_that_hides_nothing_does_no_harm() -> None:
    assert tuple(picture(saved(halves().convert("RGBA"), "PNG")).code[0, 0]) == RED


@pytest.mark.parametrize(
    ("data", "what", "right"),
    [
        (saved(halves().convert("CMYK")), "inks of a print (CMYK)", "as the camera wrote it"),
        (saved(halves().convert("L"), "PNG"), "no colour", "in colour"),
        (saved(halves().convert("L")), "no colour", "in colour"),
        (saved(halves().convert("I;16"), "PNG"), "no colour", "in colour"),
        (saved(halves().convert("P"), "PNG"), "no more than 256 colours", "as the camera wrote it"),
        (saved(Image.new("RGBA", (20, 20), (0, 0, 255, 90)), "PNG"), "see-through", "as the camera wrote it"),
        (saved(halves(), icc_profile=b"\0" * 200), "colour profile cannot be read", "as the camera wrote it"),
        (photo(400, 400, quality=90)[:2000], "cut short or damaged", "send it again"),
        (bomb(10_000, 10_000), "10000 by 10000 points, 100 million", "60 million"),
        (saved(halves(), "PNG", save_all=True, append_images=[Image.new("RGB", (64, 48))]), "moves", "single photo"),
    ],
    ids=["CMYK", "grey PNG", "grey JPEG", "16-bit grey", "palette", "see-through", "profile", "cut", "bomb", "moves"],
)
def test_what_is_no_measurable_photo_is_refused_with_what_would_be_right(data: bytes, what: str, right: str) -> None:
    with pytest.raises(InputError) as refused:
        picture(data)
    assert what in refused.value.what
    assert right in refused.value.right
