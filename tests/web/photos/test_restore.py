"""`/photos/<key>/restore/`: bring a photo back."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Photo, Steep
from tests.cast import a_photo
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@pytest.fixture
def gone(garden: Garden, steeping: Steep) -> Photo:
    one = a_photo(garden, of=steeping, kind="tub")
    delete(one, by=None)
    return one


def where(one: Photo) -> str:
    return url("photos.restore", key=one.pk)


def test_it_is_seen_again(client: Client, gone: Photo, steeping: Steep) -> None:
    response = client.post(where(gone), follow=True)
    assert response.redirect_chain == [(url("tubs.show", key=steeping.pk), 302)]
    assert [thumb.page for thumb in response.context["page"].photos] == [url("photos.show", key=gone.pk)]
    assert client.get(url("photos.image", key=gone.pk, size=320)).status_code == 200


def test_after_thirty_days_it_is_too_late(client: Client, gone: Photo) -> None:
    Photo.everything.filter(pk=gone.pk).update(deleted_at=timezone.now() - timedelta(days=30, minutes=1))
    response = client.post(where(gone), follow=True)
    assert "more than thirty days ago" in response.content.decode()
    assert not Photo.objects.exists()


def test_bringing_back_what_is_there_changes_nothing(client: Client, gone: Photo) -> None:
    client.post(where(gone), follow=True)
    response = client.post(where(gone), follow=True)
    assert not list(response.context["messages"])
    assert Photo.objects.get() == gone


def test_there_is_no_photo_of_a_wrong_key(client: Client, gone: Photo) -> None:
    assert client.post(url("photos.restore", key=NOBODY)).status_code == 404


def test_a_stranger_s_photo_stays_out(client: Client, other_garden: Garden, strangers_tub: Steep) -> None:
    strangers = a_photo(other_garden, of=strangers_tub, kind="tub")
    delete(strangers, by=None)
    assert client.post(where(strangers)).status_code == 404
    assert not Photo.objects.exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("photos.restore", key=NOBODY), "post")


def test_it_is_only_posted(client: Client, gone: Photo) -> None:
    only(client, where(gone), "post")
    assert not Photo.objects.exists()
