"""Is this a photo? By what is in it."""

import struct
from datetime import UTC, datetime, timedelta, timezone
from io import BytesIO
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from PIL import Image

from bluewright.pictures import opening
from bluewright.pictures.opening import MOST_FILE_BYTES, check_size, opened, taken_at
from bluewright.science.base.errors import InputError
from tests.pictures import HEIC, bomb, halves, jpeg_part, notes, photo, saved

NOW = datetime(2026, 7, 5, 12, 0, tzinfo=ZoneInfo("Europe/London"))


def a_film() -> bytes:
    return struct.pack(">I", 24) + b"ftypisom" + b"\0" * 200


def moving(format_name: str) -> bytes:
    frames = [Image.new("RGB", (20, 20), colour) for colour in ("red", "blue")]
    return saved(frames[0], format_name, save_all=True, append_images=frames[1:], duration=100)


@pytest.mark.parametrize(
    ("data", "kind"),
    [
        (photo(), "JPEG"),
        (saved(halves(), "JPEG", progressive=True), "JPEG"),
        (saved(halves(), "PNG"), "PNG"),
        (saved(halves(), "WEBP"), "WEBP"),
        (HEIC, "HEIF"),
    ],
    ids=["JPEG", "progressive JPEG", "PNG", "WEBP", "HEIC"],
)
def test_the_photos_of_phones_and_cameras_are_opened(data: bytes, kind: str) -> None:
    with opened(data) as found:
        assert (found.format, found.width_px, found.height_px) == (kind, 64, 48)


def test_a_jpeg_that_holds_a_second_picture_is_one_photo() -> None:
    both = saved(halves(), "MPO", save_all=True, append_images=[Image.new("RGB", (64, 48), "green")])
    with opened(both) as found:
        assert found.format == "JPEG"
        assert found.picture.getpixel((2, 2))[0] > 200  # type: ignore[index]


@pytest.mark.parametrize(
    ("data", "what", "right"),
    [
        (b"", "the file is empty", "choose the photo again"),
        (b"Tub 3 was green today.\n" * 40, "no photo that can be opened", "JPEG, PNG, WEBP or HEIC"),
        (saved(halves(), "GIF"), "no photo that can be opened", "JPEG, PNG, WEBP or HEIC"),
        (saved(halves(), "TIFF"), "no photo that can be opened", "JPEG, PNG, WEBP or HEIC"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'><script>1</script></svg>", "no photo", "JPEG"),
        (a_film(), "a film", "JPEG"),
        (photo(400, 400, quality=90)[:2000], "cut short or damaged", "send it again"),
        (photo()[:30], "cut short or damaged", "send it again"),
        (saved(Image.effect_noise((300, 300), 50), "PNG")[:5000], "cut short or damaged", "send it again"),
        (saved(halves(), "WEBP")[:60], "", "send"),
        (HEIC[:600], "HEIC photo cannot be opened", "send it as JPEG"),
        (HEIC[:200], "HEIC photo cannot be opened", "send it as JPEG"),
        (moving("PNG"), "moves", "single photo"),
        (moving("WEBP"), "moves", "single photo"),
        (bomb(30_000, 30_000), "too large", "60 million points"),
        (bomb(8_000, 8_000), "8000 by 8000 points, 64 million", "60 million points"),
        (bomb(7_000, 7_000), "cut short or damaged", "send it again"),
        (bomb(0, 10), "", "send"),
    ],
    ids=[
        "nothing", "text", "GIF", "TIFF", "SVG", "film", "cut JPEG", "JPEG head", "cut PNG", "cut WEBP", "cut HEIC",
        "HEIC head", "moving PNG", "moving WEBP", "bomb", "a little too large", "claims more than it has", "no width",
    ],
)  # fmt: skip
def test_anything_else_is_refused_with_what_would_be_right(data: bytes, what: str, right: str) -> None:
    with pytest.raises(InputError) as refused, opened(data):
        pass
    assert what in refused.value.what
    assert right in refused.value.right


@pytest.mark.parametrize("kind", [b"Exi\xf9", b"\xe4xif", b"\xff\xff\xff\xff"])
def test_a_heic_part_whose_kind_is_no_text_is_refused_before_the_decoder_breaks_down(kind: bytes) -> None:
    """The decoder would end the program itself, so that no test could tell."""
    with pytest.raises(InputError, match="HEIC photo cannot be opened"), opened(HEIC.replace(b"Exif", kind, 1)):
        pass


def test_any_damage_is_refused_or_opened_and_never_more() -> None:
    rng = np.random.default_rng(3)
    for whole in (photo(exif=notes()), saved(halves(), "PNG"), saved(halves(), "WEBP", exif=notes()), HEIC):
        for _ in range(60):
            data = bytearray(whole)
            for at in rng.integers(0, len(data), 4):
                data[at] = rng.integers(0, 256)
            try:
                with opened(bytes(data)) as found:
                    taken_at(found.exif, now=NOW)
            except InputError as error:
                assert error.right


def test_a_file_above_the_limit_is_told_its_size_and_the_limit() -> None:
    check_size(MOST_FILE_BYTES)
    with pytest.raises(InputError, match=r"31\.4 MB; a photo may have 30 MB"):
        check_size(31_400_000)


def test_a_photo_of_sixty_million_points_is_still_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    """The bound itself, with a small bound in the place of the large one."""
    monkeypatch.setattr(opening, "MOST_PIXELS", 64 * 48)
    with opened(photo()):
        pass
    with pytest.raises(InputError, match="too large"), opened(photo(64, 49)):
        pass


def test_a_large_jpeg_is_decoded_at_half_its_size_and_keeps_its_own_in_words() -> None:
    with opened(photo(3300, 3210)) as found:
        assert found.picture.size == (1650, 1605)
        assert (found.width_px, found.height_px) == (3300, 3210)
    with opened(photo(3300, 3210), in_full=True) as found:
        assert found.picture.size == (3300, 3210)


def exif_of(data: bytes) -> Image.Exif:
    return Image.open(BytesIO(data)).getexif()


@pytest.mark.parametrize(
    ("taken", "offset", "wanted"),
    [
        ("2026:07:01 10:00:00", "", datetime(2026, 7, 1, 9, 0, tzinfo=UTC)),  # by the garden's clock, summer time
        ("2026:01:01 10:00:00", "+02:00", datetime(2026, 1, 1, 8, 0, tzinfo=UTC)),
        ("2026:01:01 10:00:00", "", datetime(2026, 1, 1, 10, 0, tzinfo=UTC)),  # the same garden in winter
        ("2026:07:05 12:04:00", "", datetime(2026, 7, 5, 11, 4, tzinfo=UTC)),  # clocks differ by minutes
        ("2026:07:05 12:30:00", "", None),
        ("2027:01:01 10:00:00", "", None),
        ("2000:01:01 00:00:07", "", None),
        ("1980:01:01 00:00:07", "", None),
        ("0000:00:00 00:00:00", "", None),
        ("    :  :     :  :  ", "", None),
        ("yesterday", "", None),
    ],
)
def test_the_camera_is_believed_where_it_can_be(taken: str, offset: str, wanted: datetime | None) -> None:
    exif = exif_of(photo(exif=notes(taken=taken, offset=offset)))
    assert taken_at(exif, now=NOW) == wanted


def test_without_a_note_there_is_no_time() -> None:
    assert taken_at(exif_of(photo()), now=NOW.astimezone(timezone(timedelta(hours=9)))) is None


def test_a_damaged_note_does_not_spoil_the_photo() -> None:
    plain = photo()
    data = plain[:2] + jpeg_part(0xE1, b"Exif\0\0MM\0*\xff\xff\xff\xff") + plain[2:]
    with opened(data) as found:
        assert taken_at(found.exif, now=NOW) is None
