"""`/photos/<key>/delete/`: take a photo out."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden, Photo, Steep
from bluewright.journal.photos import store
from tests.cast import a_photo
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def one(garden: Garden, steeping: Steep) -> Photo:
    return a_photo(garden, of=steeping, kind="tub")


def where(one: Photo) -> str:
    return url("photos.delete", key=one.pk)


def test_it_is_out_of_sight_its_files_stay_and_it_can_be_brought_back(
    client: Client, one: Photo, steeping: Steep
) -> None:
    response = client.post(where(one), follow=True)
    assert response.redirect_chain == [(url("tubs.show", key=steeping.pk), 302)]
    assert response.context["page"].photos == ()
    assert Change.objects.get(row_id=one.pk).by is not None
    assert store.path(one, "original").exists()
    back = url("photos.restore", key=one.pk)
    assert back in [message.extra_tags for message in response.context["messages"]]


def test_it_cannot_be_taken_out_twice(client: Client, one: Photo) -> None:
    client.post(where(one))
    assert client.post(where(one)).status_code == 404
    assert Change.objects.filter(row_id=one.pk).count() == 1


def test_there_is_no_photo_of_a_wrong_key(client: Client, one: Photo) -> None:
    assert client.post(url("photos.delete", key=NOBODY)).status_code == 404
    assert Photo.objects.get() == one


def test_a_stranger_s_photo_stays(client: Client, other_garden: Garden, strangers_tub: Steep) -> None:
    strangers = a_photo(other_garden, of=strangers_tub, kind="tub")
    assert client.post(where(strangers)).status_code == 404
    assert Photo.objects.get() == strangers


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("photos.delete", key=NOBODY), "post")


def test_it_is_only_posted(client: Client, one: Photo) -> None:
    only(client, where(one), "post")
    assert Photo.objects.get() == one
