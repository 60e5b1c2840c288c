"""`/batches/<key>/go-on/`: it is not given up after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Steep
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_goes_on(client: Client, strained: Steep) -> None:
    batch = cast.a_batch(strained.strains.get(), ended_at=cast.moment(), ended_why="spilt")
    response = client.post(url("batches.go_on", key=batch.pk))
    assert response["Location"] == url("batches.show", key=batch.pk)
    batch = Batch.objects.get(pk=batch.pk)
    assert (batch.ended_at, batch.ended_why) == (None, "")


def test_wrong_keys_strangers_and_methods(client: Client, strained: Steep, strangers_tub: Steep) -> None:
    stranger = cast.a_batch(strangers_tub.strains.get(), ended_at=cast.moment())
    assert client.post(url("batches.go_on", key=NOBODY)).status_code == 404
    assert client.post(url("batches.go_on", key=stranger.pk)).status_code == 404
    only(client, url("batches.go_on", key=cast.a_batch(strained.strains.get()).pk), "post")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("batches.go_on", key=NOBODY), method="post")
