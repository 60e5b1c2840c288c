"""Photos written, taken out, forgotten; their files."""

from datetime import timedelta
from pathlib import Path
from typing import Any
from uuid import UUID

import pytest
from django.conf import settings
from django.utils import timezone

from bluewright.journal.actions.keeping import delete, restore
from bluewright.journal.actions.photos import add_photos, forget_photos
from bluewright.journal.models import Bed, Change, Garden, Photo, Steep
from bluewright.journal.photos import store
from bluewright.journal.photos.preparing import prepared
from bluewright.journal.queries import photos
from bluewright.science.base.errors import InputError
from tests.cast import counted
from tests.pictures import notes, photo

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def own_home(settings: Any, tmp_path: Path) -> None:
    settings.HOME = tmp_path


def files() -> list[Path]:
    return sorted(path for path in (Path(settings.HOME) / "photos").rglob("*") if path.is_file())


def added(garden: Garden, *sizes: int, kind: str = "tub", key: UUID | None = None, **noted: Any) -> list[Photo]:
    ready = [prepared(photo(size, 48, exif=notes(**noted)), now=timezone.now()) for size in sizes]
    return add_photos(ready, garden=garden, kind=kind, key=key or tub(garden).pk, by=None)


def tub(garden: Garden) -> Steep:
    found: Steep = Steep.objects.get(garden=garden, name="Tub 3")
    return found


def test_a_photo_is_three_files_and_a_row_that_tells_their_sizes(garden: Garden) -> None:
    (one,) = added(garden, 400)
    assert {path.name.partition("-")[2] for path in files()} == {"1600.jpg", "320.jpg", "original.jpg"}
    assert [path.parent.name for path in files()] == [one.name[:2]] * 3
    sizes = {"1600": one.shown_bytes, "320": one.thumb_bytes, "original": one.original_bytes}
    assert {size: store.path(one, size).stat().st_size for size in store.SIZES} == sizes
    row = Photo.objects.get()
    assert (row.about_kind, row.about_id, row.garden, row.width_px, row.height_px) == (
        "tub", tub(garden).pk, garden, 400, 48,
    )  # fmt: skip


def test_files_are_for_their_owner_alone(garden: Garden) -> None:
    added(garden, 64)
    assert {path.stat().st_mode & 0o777 for path in files()} == {0o600}
    assert {path.parent.stat().st_mode & 0o777 for path in files()} == {0o700}


def test_it_was_taken_when_the_camera_says_or_else_now(garden: Garden) -> None:
    (said,) = added(garden, 64, taken="2026:07:01 10:00:00", offset="+01:00")
    assert said.taken_at.isoformat() == "2026-07-01T10:00:00+01:00"
    (unset,) = added(garden, 66, taken="1980:01:01 00:00:00")
    assert timedelta(0) <= timezone.now() - unset.taken_at < timedelta(minutes=1)


def test_the_same_photo_of_the_same_thing_is_kept_once(garden: Garden) -> None:
    assert len(added(garden, 64, 64)) == 1
    assert added(garden, 64) == []
    assert len(added(garden, 64, kind="bed", key=Bed.objects.filter(garden=garden)[0].pk)) == 1
    assert Photo.objects.count() == 2


@pytest.mark.parametrize("kind", ["tub", "moon", "garden"])
def test_a_photo_of_what_the_garden_does_not_have_is_refused(other_garden: Garden, garden: Garden, kind: str) -> None:
    key = Steep.objects.get(garden=other_garden).pk
    with pytest.raises(InputError, match=f"no such {kind}"):
        added(garden, 64, kind=kind, key=key)
    assert not files()
    assert not Photo.everything.exists()


def test_when_the_disk_is_full_neither_row_nor_file_stays(garden: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    """The disk takes four files: all of the first photo, one of the second."""
    write, left = store._write, iter(range(4))

    def small(where: Path, content: bytes) -> None:
        if next(left, None) is None:
            raise OSError(28, "No space left on device")
        write(where, content)

    monkeypatch.setattr(store, "_write", small)
    with pytest.raises(OSError, match="No space left"):
        added(garden, 64, 66)
    assert not files()
    assert not Photo.everything.exists()


def test_a_file_that_could_not_be_written_whole_leaves_no_part(garden: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(_number: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(store.os, "fsync", full)  # type: ignore[attr-defined]
    with pytest.raises(OSError, match="No space left"):
        added(garden, 64)
    assert not files()


def test_what_was_taken_out_can_be_brought_back_with_its_files(garden: Garden) -> None:
    (one,) = added(garden, 64)
    delete(one, by=None)
    assert not Photo.objects.exists()
    assert len(files()) == 3
    assert restore(one, by=None)
    assert Photo.objects.get() == one
    assert [row.verb for row in Change.objects.filter(kind="photo").order_by("at")] == ["delete", "restore"]


def test_its_files_go_for_good_after_thirty_days(garden: Garden) -> None:
    gone, stays = added(garden, 64, 66)
    delete(gone, by=None)
    assert forget_photos(now=timezone.now() + timedelta(days=29)) == 0
    assert len(files()) == 6
    assert forget_photos(now=timezone.now() + timedelta(days=31)) == 1
    assert {path.name[:32] for path in files()} == {stays.name}
    assert forget_photos(now=timezone.now() + timedelta(days=31)) == 0


def test_the_photos_of_many_things_are_read_at_once(garden: Garden, other_garden: Garden) -> None:
    steep = tub(garden)
    look = steep.readings.first()
    (later,) = added(garden, 64, taken="2026:07:02 10:00:00")
    (earlier,) = added(garden, 66, taken="2026:07:01 10:00:00")
    (of_look,) = added(garden, 64, kind="look", key=look.pk)
    with counted() as sent:
        found = photos.of_things([steep.pk, look.pk], of=garden)
    assert sent == [1]
    assert found == {steep.pk: [earlier, later], look.pk: [of_look]}
    assert photos.of_things([steep.pk], of=other_garden) == {}
    assert photos.of_kind("look", of=garden) == {look.pk: [of_look]}
    assert photos.photo(of_look.pk, of=garden) == of_look
    assert photos.photo(of_look.pk, of=other_garden) is None
