"""`/photos/<key>/<size>.jpg`: the picture itself."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Photo, Steep
from bluewright.journal.photos import store
from tests.cast import a_photo
from tests.pictures import opened
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def one(garden: Garden, steeping: Steep) -> Photo:
    return a_photo(garden, of=steeping, kind="tub", width_px=2000)


def where(one: Photo, size: int = 1600) -> str:
    return url("photos.image", key=one.pk, size=size)


@pytest.mark.parametrize("size", [1600, 320])
def test_each_size_is_served_as_a_picture_that_only_this_browser_may_keep(
    client: Client, one: Photo, size: int
) -> None:
    response = client.get(where(one, size))
    assert response.status_code == 200
    assert response["Content-Type"] == "image/jpeg"
    assert response["Cache-Control"] == "private, max-age=31536000, immutable"
    assert response["X-Content-Type-Options"] == "nosniff"
    assert opened(response.content).width == size


@pytest.mark.parametrize("size", [0, 1, 321, 4000])
def test_no_other_size_is_served_nor_the_original(client: Client, one: Photo, size: int) -> None:
    assert client.get(where(one, size)).status_code == 404
    assert client.get(f"/photos/{one.pk}/original.jpg").status_code == 404
    assert client.get(f"/photos/{one.name}-original.jpg").status_code == 404


def test_a_photo_that_is_taken_out_is_not_served(client: Client, one: Photo) -> None:
    delete(one, by=None)
    assert client.get(where(one)).status_code == 404


def test_a_lost_file_is_not_found(client: Client, one: Photo) -> None:
    store.remove(one)
    assert client.get(where(one)).status_code == 404


def test_there_is_no_photo_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("photos.image", key=NOBODY, size=320)).status_code == 404


def test_a_stranger_s_photo_is_not_served(client: Client, other_garden: Garden, strangers_tub: Steep) -> None:
    assert client.get(where(a_photo(other_garden, of=strangers_tub, kind="tub"))).status_code == 404


def test_whoever_was_not_let_in_sees_nothing(client: Client, one: Photo) -> None:
    assert client.get(where(one), REMOTE_ADDR="192.0.2.7").status_code in {302, 403}


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("photos.image", key=NOBODY, size=320))


def test_other_methods_are_refused(client: Client, one: Photo) -> None:
    only(client, where(one), "get")
