"""Photos in a garden's file."""

import base64
import json
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.contrib.auth import get_user_model
from django.utils import timezone

from bluewright.journal import transfer
from bluewright.journal.actions.keeping import delete
from bluewright.journal.actions.photos import add_photos
from bluewright.journal.models import Garden, Photo, Steep
from bluewright.journal.photos import store
from bluewright.journal.photos.preparing import prepared
from bluewright.science.base.errors import InputError
from tests.journal.test_transfer import gone
from tests.pictures import SECRET, bomb, halves, notes, opened, photo, saved

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def own_home(settings: Any, tmp_path: Path) -> None:
    settings.HOME = tmp_path


@pytest.fixture
def pictured(garden: Garden, steeping: Steep) -> Garden:
    """The invented garden with two photos of a tub and one of a look."""
    for size, kind, key in (
        (2000, "tub", steeping.pk),
        (66, "tub", steeping.pk),
        (68, "look", steeping.readings.first().pk),
    ):
        ready = prepared(photo(size, 48, exif=notes()), now=timezone.now())
        add_photos([ready], garden=garden, kind=kind, key=key, by=None)
    return garden


def out(garden: Garden) -> dict[str, Any]:
    whole: dict[str, Any] = json.loads(transfer.take_out(garden))
    return whole


def forgotten(garden: Garden) -> None:
    """The garden and its files are not here any more."""
    for row in Photo.everything.all():
        store.remove(row)
    Photo.everything.all().delete()
    gone(garden)


def brought(whole: dict[str, Any]) -> Garden:
    owner, _ = get_user_model().objects.get_or_create(username="owner")
    return transfer.bring_in(json.dumps(whole), by=owner)


def test_photos_come_in_as_they_went_out(pictured: Garden) -> None:
    before = out(pictured)
    shown = {row.pk: store.path(row, "1600").read_bytes() for row in Photo.objects.all()}
    forgotten(pictured)
    again = brought(before)
    assert {row.pk: store.path(row, "1600").read_bytes() for row in Photo.objects.filter(garden=again)} == shown
    for row in Photo.objects.all():
        thumb = opened(store.path(row, "320").read_bytes())
        assert max(thumb.size) == min(320, row.width_px)
        assert row.thumb_bytes == store.path(row, "320").stat().st_size
        assert (row.original_ending, row.original_bytes) == ("", 0)
        assert not store.path(row, "original").exists()
    assert out(again) == before


def test_the_file_tells_nothing_of_places_nor_of_this_machine_s_files(pictured: Garden) -> None:
    text = transfer.take_out(pictured)
    pictures = [base64.b64decode(row["picture"]) for row in json.loads(text)["photos"]]
    assert len(pictures) == 3
    assert all(not opened(picture).getexif() and SECRET.encode() not in picture for picture in pictures)
    assert not any(row.name in text for row in Photo.objects.all())


def test_a_garden_can_be_taken_out_without_its_photos(pictured: Garden) -> None:
    whole = json.loads("".join(transfer.parts(pictured, photos=False)))
    assert "photos" not in whole
    forgotten(pictured)
    assert not Photo.objects.filter(garden=brought(whole)).exists()


def test_photos_come_one_at_a_time(pictured: Garden) -> None:
    """A part for all rows, three for the photos, one for the end: never all pictures in one."""
    assert len(list(transfer.parts(pictured))) == 5


def test_a_photo_that_is_taken_out_or_of_what_is_deleted_stays_behind(pictured: Garden, steeping: Steep) -> None:
    delete(Photo.objects.filter(about_kind="tub").first(), by=None)
    assert len(out(pictured)["photos"]) == 2
    delete(steeping.readings.first(), by=None)
    assert len(out(pictured)["photos"]) == 1
    delete(steeping, by=None)
    assert "photos" not in out(pictured)


def test_a_photo_whose_file_is_lost_does_not_hold_up_the_rest(pictured: Garden) -> None:
    for row in Photo.objects.filter(about_kind="tub"):
        store.remove(row)
    assert [row["about_kind"] for row in out(pictured)["photos"]] == ["look"]
    for row in Photo.objects.all():
        store.remove(row)
    assert "photos" not in out(pictured)


def text(data: bytes) -> str:
    return base64.b64encode(data).decode()


SPOILT: dict[str, tuple[dict[str, Any], str]] = {
    "no picture": ({"picture": None}, r"photos\[1\]\.picture: it is no picture"),
    "no base64": ({"picture": "%%%"}, r"photos\[1\]\.picture: it is no picture"),
    "an empty one": ({"picture": ""}, r"photos\[1\]\.picture: the file is empty"),
    "a page": ({"picture": text(b"<html><script>1</script></html>")}, r"photos\[1\]\.picture: .*no photo"),
    "a bomb": ({"picture": text(bomb(30_000, 30_000))}, r"photos\[1\]\.picture: .*too large"),
    "a PNG": ({"picture": text(saved(halves(), "PNG"))}, r"photos\[1\]\.picture: it is no JPEG"),
    "too large": ({"picture": text(photo(1601, 10))}, r"photos\[1\]\.picture: .*1600"),
    "of nothing": ({"about_id": "00000000-0000-4000-8000-000000000000"}, r"photos\[1\]\.about_id: it is of nothing"),
    "of the moon": ({"about_kind": "moon"}, r"photos\[1\]\.about_id: it is of nothing"),
    "no sum": ({"sha256": "../../x"}, r"photos\[1\]\.sha256"),
    "no width": ({"width_px": 0}, r"photos\[1\]\.width_px"),
    "a strange column": ({"luck": 3}, r"photos\[1\]\.luck: there is no such column"),
}


@pytest.mark.parametrize("how", SPOILT)
def test_a_photo_that_does_not_fit_is_refused_and_no_file_stays(pictured: Garden, how: str) -> None:
    whole = out(pictured)
    change, says = SPOILT[how]
    whole["photos"][1] |= change
    forgotten(pictured)
    before = held()
    with pytest.raises(InputError, match=says):
        brought(whole)
    assert held() == before
    assert not Garden.everything.filter(pk=pictured.pk).exists()


def held() -> set[Path]:
    return {path for path in (Path(settings.HOME) / "photos").rglob("*") if path.is_file()}


def test_a_photo_cannot_be_put_into_another_garden_or_onto_another_s_file(
    pictured: Garden, other_garden: Garden
) -> None:
    (name,) = Photo.objects.filter(about_kind="look").values_list("name", flat=True)
    whole = out(pictured)
    whole["photos"][0] |= {"name": name, "original_ending": "png", "original_bytes": 7}
    whole["photos"][1] |= {"garden_id": str(other_garden.pk)}
    forgotten(pictured)
    with pytest.raises(InputError, match=r"photos\[1\]\.about_id"):
        brought(whole)
    whole["photos"][1] |= {"garden_id": str(pictured.pk)}
    brought(whole)
    assert not Photo.objects.filter(name=name).exists()
    assert set(Photo.objects.values_list("original_bytes", flat=True)) == {0}


def test_what_stands_beside_the_pixels_of_a_foreign_file_is_let_go(pictured: Garden) -> None:
    whole = out(pictured)
    whole["photos"][0]["picture"] = text(photo(exif=notes()))
    forgotten(pictured)
    brought(whole)
    row = Photo.objects.get(pk=whole["photos"][0]["id"])
    assert not opened(store.path(row, "1600").read_bytes()).getexif()


def test_when_the_disk_is_full_nothing_comes_in(pictured: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = out(pictured)
    forgotten(pictured)

    def full(_number: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(store.os, "fsync", full)  # type: ignore[attr-defined]
    with pytest.raises(InputError, match="No space left on device"):
        brought(whole)
    assert not Garden.everything.filter(pk=pictured.pk).exists()
