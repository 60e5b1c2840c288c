"""`/photos/<key>/`: one photo."""

from datetime import UTC, datetime

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.actions.photos import add_photos
from bluewright.journal.models import Bed, Garden, Photo, Picking, Steep
from bluewright.journal.photos.preparing import prepared
from tests.cast import a_photo
from tests.pictures import notes, photo
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(one: Photo) -> str:
    return url("photos.show", key=one.pk)


def test_it_says_what_it_is_of_and_when_it_was_taken(client: Client, garden: Garden, steeping: Steep) -> None:
    """Ten o'clock in London in July; 3000 by 2000 points."""
    data = photo(3000, 2000, exif=notes(taken="2026:07:01 10:00:00", offset="+01:00"))
    ready = prepared(data, now=datetime(2026, 11, 1, tzinfo=UTC))
    (one,) = add_photos([ready], garden=garden, kind="tub", key=steeping.pk, by=None)
    response = client.get(where(one))
    page = response.context["page"]
    assert (page.of, page.of_page) == ("Tub 3", url("tubs.show", key=steeping.pk))
    assert page.when == "Wed 1 Jul 10:00"
    assert page.size.startswith("3000 by 2000 points, 0.")
    text = response.content.decode()
    assert url("photos.image", key=one.pk, size=1600) in text
    assert 'alt="Photo of Tub 3, taken Wed 1 Jul 10:00"' in text


def test_each_kind_of_thing_is_named(client: Client, garden: Garden, steeping: Steep) -> None:
    bed, picking, look = Bed.objects.get(name="Long bed"), Picking.objects.all()[0], steeping.readings.all()[0]
    said = {
        kind: client.get(where(a_photo(garden, of=thing, kind=kind))).context["page"].of
        for kind, thing in (("bed", bed), ("picking", picking), ("look", look))
    }
    assert said["bed"] == "Long bed"
    assert said["picking"].startswith("6 kg picked ")
    assert said["look"].startswith("Tub 3, the look of ")


def test_there_is_no_photo_of_a_wrong_key_nor_of_what_is_gone(client: Client, garden: Garden, steeping: Steep) -> None:
    assert client.get(url("photos.show", key=NOBODY)).status_code == 404
    one, other = (a_photo(garden, of=steeping, kind="tub", width_px=px) for px in (64, 66))
    delete(one, by=None)
    assert client.get(where(one)).status_code == 404
    delete(steeping, by=None)
    assert client.get(where(other)).status_code == 404


def test_a_stranger_s_photo_is_not_shown(client: Client, other_garden: Garden, strangers_tub: Steep) -> None:
    assert client.get(where(a_photo(other_garden, of=strangers_tub, kind="tub"))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("photos.show", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden, steeping: Steep) -> None:
    only(client, where(a_photo(garden, of=steeping, kind="tub")), "get")


def test_more_photos_need_no_more_statements(client: Client, garden: Garden, steeping: Steep) -> None:
    one = a_photo(garden, of=steeping, kind="tub")
    flat(client, where(one), lambda: [a_photo(garden, of=steeping, kind="tub", width_px=px) for px in (66, 68)])


def test_its_json_twin_says_the_same(client: Client, garden: Garden, steeping: Steep) -> None:
    one = a_photo(garden, of=steeping, kind="tub")
    page = client.get(where(one)).context["page"]
    twin = client.get(where(one), {"as": "json"}).json()
    assert (twin["of"], twin["when"], twin["picture"]) == (page.of, page.when, page.picture)
