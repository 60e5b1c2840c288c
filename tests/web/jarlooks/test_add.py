"""`/jarlooks/<kind>/<key>/photo/`: take a photo of the jars, or choose one that is there."""

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client

from bluewright.journal.models import Garden, Photo, Steep
from tests.known_photos import GREEN_LIQUOR, two_jars
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.measuring import a_jar_photo

pytestmark = pytest.mark.django_db


def where(tub: Steep) -> str:
    return url("jarlooks.add", kind="tub", key=tub.pk)


def test_a_photo_is_kept_with_the_tub_and_leads_to_its_boxes(client: Client, garden: Garden, steeping: Steep) -> None:
    sent = SimpleUploadedFile("jars.jpg", two_jars(GREEN_LIQUOR), "image/jpeg")
    response = client.post(where(steeping), {"photos": sent})
    photo = Photo.objects.get()
    assert (photo.about_kind, photo.about_id) == ("tub", steeping.pk)
    assert response["Location"] == url("jarlooks.draw", kind="tub", key=steeping.pk, photo=photo.pk)


def test_the_same_photo_again_leads_to_its_boxes_too(client: Client, garden: Garden, steeping: Steep) -> None:
    photo = a_jar_photo(garden, of=steeping, kind="tub")
    sent = SimpleUploadedFile("jars.jpg", two_jars(GREEN_LIQUOR), "image/jpeg")
    response = client.post(where(steeping), {"photos": sent})
    assert response["Location"] == url("jarlooks.draw", kind="tub", key=steeping.pk, photo=photo.pk)


def test_photos_that_are_there_can_be_chosen(client: Client, garden: Garden, steeping: Steep) -> None:
    photo = a_jar_photo(garden, of=steeping, kind="tub")
    there = client.get(where(steeping)).context["page"].there
    assert [one.page for one in there] == [url("jarlooks.draw", kind="tub", key=steeping.pk, photo=photo.pk)]


def test_what_is_no_photo_is_refused(client: Client, garden: Garden, steeping: Steep) -> None:
    for sent in ({}, {"photos": SimpleUploadedFile("jars.txt", b"green", "text/plain")}):
        response = client.post(where(steeping), sent)
        assert response.status_code == 422
        assert response.context["form"].errors["photos"]
    assert Photo.objects.count() == 0


def test_strangers_and_wrong_keys_get_nothing(client: Client, other_garden: Garden, strangers_tub: Steep) -> None:
    assert client.get(where(strangers_tub)).status_code == 404
    assert client.get(url("jarlooks.add", kind="tub", key=NOBODY)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jarlooks.add", kind="tub", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden, steeping: Steep) -> None:
    only(client, where(steeping), "get", "post")


def test_more_photos_need_no_more_statements(client: Client, garden: Garden, steeping: Steep) -> None:
    a_jar_photo(garden, of=steeping, kind="tub")
    flat(client, where(steeping), lambda: a_jar_photo(garden, of=steeping, kind="tub", seed=2))
