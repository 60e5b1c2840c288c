"""`/batches/<key>/restore/`: bring a batch back."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Batch, Steep
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_comes_back(client: Client, strained: Steep) -> None:
    batch = cast.a_batch(strained.strains.get())
    delete(batch, by=None)
    response = client.post(url("batches.restore", key=batch.pk))
    assert response["Location"] == url("batches.show", key=batch.pk)
    assert Batch.objects.filter(pk=batch.pk).exists()


def test_liquor_is_not_in_two_batches_by_bringing_one_back(client: Client, strained: Steep) -> None:
    batch = cast.a_batch(strained.strains.get())
    delete(batch, by=None)
    cast.a_batch(strained.strains.get())
    response = client.post(url("batches.restore", key=batch.pk), follow=True)
    assert not Batch.objects.filter(pk=batch.pk).exists()
    assert "in another batch by now" in response.content.decode()


def test_after_thirty_days_it_is_too_late(client: Client, strained: Steep) -> None:
    batch = cast.a_batch(strained.strains.get())
    delete(batch, by=None)
    Batch.everything.filter(pk=batch.pk).update(deleted_at=cast.moment(31 * 24))
    response = client.post(url("batches.restore", key=batch.pk), follow=True)
    assert "more than thirty days ago" in response.content.decode()
    assert not Batch.objects.filter(pk=batch.pk).exists()


def test_wrong_keys_strangers_and_methods(client: Client, strained: Steep, strangers_tub: Steep) -> None:
    stranger = cast.a_batch(strangers_tub.strains.get())
    assert client.post(url("batches.restore", key=NOBODY)).status_code == 404
    assert client.post(url("batches.restore", key=stranger.pk)).status_code == 404
    only(client, url("batches.restore", key=cast.a_batch(strained.strains.get()).pk), "post")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("batches.restore", key=NOBODY), method="post")
