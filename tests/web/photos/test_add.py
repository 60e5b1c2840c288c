"""`/photos/add/<kind>/<thing>/`: photos of a thing."""

from typing import Any

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Bed, Garden, Kept, Photo, Picking, Reading, Steep, Strain
from bluewright.journal.photos import store
from bluewright.pictures import opening
from bluewright.web.ui import photos as ui
from tests.cast import a_batch, a_jar, a_liquor_look, a_photo, counted, moment, typed
from tests.pictures import HEIC, bomb, notes, photo, sent
from tests.web.checks import NOBODY, no_rows, only, to_the_start_without_a_garden, url
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db


def where(kind: str, thing: Kept) -> str:
    return url("photos.add", kind=kind, thing=thing.pk)


def things(garden: Garden) -> list[tuple[str, Kept, str]]:
    """One of each kind, and where it is found."""
    straining = Strain.objects.get(steep__garden=garden)
    tub, batch = straining.steep, a_batch(straining)
    return [
        ("bed", Bed.objects.filter(garden=garden)[0], "beds"),
        ("picking", Picking.objects.filter(garden=garden)[0], "pickings"),
        ("tub", tub, "tubs"),
        ("look", Reading.objects.filter(steep=tub)[0], "tubs"),
        ("batch", batch, "batches"),
        ("liquor", a_liquor_look(batch, ph=9.0), "batches"),
    ]


@pytest.mark.parametrize("index", range(6), ids=["bed", "picking", "tub", "look", "batch", "liquor"])
def test_photos_are_written_to_each_kind_of_thing_and_seen_where_it_is(
    client: Client, garden: Garden, index: int
) -> None:
    kind, thing, noun = things(garden)[index]
    assert client.get(where(kind, thing)).status_code == 200
    response = client.post(where(kind, thing), {"photos": [sent(), sent(HEIC, "IMG_7.HEIC")]}, follow=True)
    assert response.redirect_chain[0][0].startswith(f"/{noun}/")
    assert "2 photos written down." in [str(message) for message in response.context["messages"]]
    made = Photo.objects.filter(about_kind=kind, about_id=thing.pk)
    assert len(made) == 2
    for one in made:
        assert one.made_by is not None
        assert url("photos.image", key=one.pk, size=320) in response.content.decode()
        assert store.path(one, "1600").exists()


def test_a_jar_takes_photos_too(client: Client, garden: Garden) -> None:
    jar = a_jar((a_batch(Strain.objects.get(steep__garden=garden)), 20.0), name="Jar 4")
    assert "Jar 4" in client.get(where("jar", jar)).content.decode()
    assert client.post(where("jar", jar), {"photos": [sent()]}).status_code == 302
    assert Photo.objects.get().about_id == jar.pk


def test_who_only_looks_on_sees_photos_and_adds_none(garden: Garden, steeping: Steep) -> None:
    one = a_photo(garden, of=steeping, kind="tub")
    onlooker, helper = visitor("onlooker"), visitor("helper")
    assert onlooker.get(where("tub", steeping)).status_code == 403
    assert onlooker.post(where("tub", steeping), {"photos": [sent()]}).status_code == 403
    assert onlooker.post(url("photos.delete", key=one.pk)).status_code == 403
    assert onlooker.get(url("photos.image", key=one.pk, size=320)).status_code == 200
    for page in (url("tubs.show", key=steeping.pk), url("beds.show", key=Bed.objects.filter(garden=garden)[0].pk)):
        assert "/photos/add/" not in onlooker.get(page).content.decode()
        assert "/photos/add/" in helper.get(page).content.decode()
    assert "/delete/" not in onlooker.get(url("photos.show", key=one.pk)).content.decode()
    assert "/delete/" in helper.get(url("photos.show", key=one.pk)).content.decode()


def test_the_format_is_told_by_what_is_in_the_file(client: Client, steeping: Steep) -> None:
    client.post(where("tub", steeping), {"photos": [sent(photo(), "tub.heic")]})
    assert Photo.objects.count() == 1


def test_a_photo_sent_twice_is_one(client: Client, steeping: Steep) -> None:
    for _ in range(2):
        assert client.post(where("tub", steeping), {"photos": [sent()]}).status_code == 302
    assert Photo.objects.count() == 1


@pytest.mark.parametrize(
    ("name", "data", "says"),
    [
        ("tub.jpg", b"Tub 3 was green today.", "tub.jpg: this is no photo that can be opened here; send a photo as"),
        ("tub.jpg", photo()[:200], "tub.jpg: the photo is cut short or damaged; send it again"),
        ("tub.png", bomb(30_000, 30_000), "tub.png: the photo is too large"),
        ("empty.jpg", b"", "empty.jpg: the file is empty; choose the photo again."),
        ("x.heic", HEIC[:400], "x.heic: this HEIC photo cannot be opened here; send it as JPEG"),
        ("<b>.jpg", b"text", "&lt;b&gt;.jpg: this is no photo"),
    ],
)
def test_a_file_that_is_no_photo_is_named_with_what_would_be_right(
    client: Client, steeping: Steep, name: str, data: bytes, says: str
) -> None:
    unchanged = no_rows(Photo)
    response = client.post(where("tub", steeping), {"photos": [sent(), sent(data, name)]})
    assert response.status_code == 422
    assert says in response.content.decode()
    unchanged()


def test_nothing_chosen_is_a_mistake(client: Client, steeping: Steep) -> None:
    response = client.post(where("tub", steeping), {})
    assert response.status_code == 422
    assert "Choose a photo." in response.content.decode()


def test_the_limits_stand_on_the_form_and_are_held(
    client: Client, steeping: Steep, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "30 MB each, up to 12 at once" in client.get(where("tub", steeping)).content.decode()
    unchanged = no_rows(Photo)
    response = client.post(where("tub", steeping), {"photos": [sent() for _ in range(13)]})
    assert response.status_code == 422
    assert "These are 13 photos; send up to 12 at once." in response.content.decode()
    slightly = photo() + b"\0" * (opening.MOST_FILE_BYTES + 100_000 - len(photo()))
    response = client.post(where("tub", steeping), {"photos": [sent(slightly)]})
    assert response.status_code == 422
    assert "photo.jpg: the file has 30.1 MB; a photo may have 30 MB" in response.content.decode()
    monkeypatch.setattr(ui, "MOST_TOGETHER_BYTES", 2 * len(photo()) - 1)
    response = client.post(where("tub", steeping), {"photos": [sent(), sent()]})
    assert response.status_code == 422
    assert "Together they have" in response.content.decode()
    unchanged()


def test_when_the_disk_is_full_it_says_so(client: Client, steeping: Steep, monkeypatch: pytest.MonkeyPatch) -> None:
    def full(*_: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(store, "_write", full)
    response = client.post(where("tub", steeping), {"photos": [sent()]}, follow=True)
    said = " ".join(str(message) for message in response.context["messages"])
    assert "could not be kept (No space left on device)" in said
    assert "written down" not in said
    assert not Photo.everything.exists()


def test_there_is_no_such_thing(client: Client, garden: Garden, steeping: Steep) -> None:
    for kind, key in (("tub", NOBODY), ("moon", steeping.pk), ("bed", steeping.pk)):
        assert client.get(url("photos.add", kind=kind, thing=key)).status_code == 404
        assert client.post(url("photos.add", kind=kind, thing=key), {"photos": [sent()]}).status_code == 404
    delete(steeping, by=None)
    assert client.post(where("tub", steeping), {"photos": [sent()]}).status_code == 404
    assert not Photo.everything.exists()


def test_a_stranger_s_things_get_none(client: Client, other_garden: Garden) -> None:
    for kind, thing, _ in things(other_garden):
        assert client.get(where(kind, thing)).status_code == 404
        assert client.post(where(kind, thing), {"photos": [sent()]}).status_code == 404
    assert not Photo.everything.exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("photos.add", kind="tub", thing=NOBODY))


def test_other_methods_are_refused(client: Client, steeping: Steep) -> None:
    only(client, where("tub", steeping), "get", "post")


def test_many_photos_need_no_more_statements_where_they_are_shown(client: Client, garden: Garden) -> None:
    known = things(garden)
    for kind, thing, _ in known:
        a_photo(garden, of=thing, kind=kind)
    pages = [url("beds.index"), url("pickings.index")]
    pages += [url(f"{noun}.show", key=thing.pk) for kind, thing, noun in known if kind in {"tub", "batch"}]
    few = [sent_by(client, page) for page in pages]
    for kind, thing, _ in known:
        for width_px in (66, 68, 70):
            a_photo(garden, of=thing, kind=kind, width_px=width_px)
    assert [sent_by(client, page) for page in pages] == few


def sent_by(client: Client, page: str) -> list[int]:
    client.get(page)
    with counted() as found:
        assert "/320.jpg" in client.get(page).content.decode()
    return found


def entries(garden: Garden) -> list[tuple[str, str, dict[str, Any], Any]]:
    tub = Steep.objects.get(garden=garden, name="Tub 3")
    now = {"taken_at": typed(moment()), "temp": "15", "ph": "", "note": ""}
    bed = {"name": "East", "plant": "woad", "origin": "sown", "area": "", "note": ""}
    leaf = {"picked_at": typed(moment()), "plant": "woad", "leaf": "2 kg", "age": "young", "damaged": "", "note": ""}
    return [
        ("look", url("tubs.look", key=tub.pk), now, Reading),
        ("bed", url("beds.add"), bed, Bed),
        ("picking", url("pickings.add"), leaf, Picking),
    ]


@pytest.mark.parametrize("index", range(3), ids=["look", "bed", "picking"])
def test_photos_can_be_sent_with_what_they_are_of(client: Client, garden: Garden, index: int) -> None:
    kind, page, told, model = entries(garden)[index]
    before = set(model.objects.values_list("pk", flat=True))
    assert 'enctype="multipart/form-data"' in client.get(page).content.decode()
    files = {"photos": [sent(photo(exif=notes())), sent(HEIC, "b.heic")]}
    assert client.post(page, told | files).status_code == 302
    (made,) = set(model.objects.values_list("pk", flat=True)) - before
    assert Photo.objects.filter(about_kind=kind, about_id=made).count() == 2


@pytest.mark.parametrize("index", range(3), ids=["look", "bed", "picking"])
def test_a_file_that_is_no_photo_holds_up_the_entry(client: Client, garden: Garden, index: int) -> None:
    _, page, told, model = entries(garden)[index]
    unchanged = no_rows(model, Photo)
    response = client.post(page, told | {"photos": [sent(b"text", "a.jpg")]})
    assert response.status_code == 422
    assert "a.jpg: this is no photo" in response.content.decode()
    unchanged()


@pytest.mark.parametrize("index", range(3), ids=["look", "bed", "picking"])
def test_after_another_mistake_the_photos_are_asked_for_again(client: Client, garden: Garden, index: int) -> None:
    """A browser does not keep the files of a form that comes back."""
    _, page, told, _ = entries(garden)[index]
    spoilt = told | {name: "rubbish" for name in ("temp", "area", "leaf") if name in told}
    response = client.post(page, spoilt | {"photos": [sent()]})
    assert response.status_code == 422
    assert response.context["form"].errors["photos"] == ["Choose the photos again: they were not kept."]
    assert "photos" not in client.post(page, spoilt).context["form"].errors


def test_a_look_before_the_steep_asks_for_its_photos_again_too(client: Client, garden: Garden) -> None:
    _, page, told, _ = entries(garden)[0]
    response = client.post(page, told | {"taken_at": "2001-07-01T08:00", "photos": [sent()]})
    assert "Choose the photos again" in response.content.decode()


def test_a_photo_alone_is_a_look(client: Client, garden: Garden) -> None:
    _, page, told, _ = entries(garden)[0]
    assert client.post(page, told | {"temp": "", "photos": [sent()]}).status_code == 302


def test_what_photos_are_of_is_written_even_if_the_disk_takes_no_photo(
    client: Client, garden: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: Any) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(store, "_write", full)
    _, page, told, _ = entries(garden)[0]
    looks = Reading.objects.count()
    response = client.post(page, told | {"photos": [sent()]}, follow=True)
    assert "could not be kept" in " ".join(str(message) for message in response.context["messages"])
    assert Reading.objects.count() == looks + 1
