"""`/batches/<key>/delete/`: take a batch out; its liquor waits again."""

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Steep
from bluewright.journal.queries import batches
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_with_the_way_back_and_its_liquor_waits_again(client: Client, strained: Steep) -> None:
    strain = strained.strains.get()
    batch = cast.a_batch(strain)
    response = client.post(url("batches.delete", key=batch.pk), follow=True)
    assert not Batch.objects.filter(pk=batch.pk).exists()
    assert strain in batches.unworked_strains(strained.garden)
    assert url("batches.restore", key=batch.pk) in response.content.decode()
    assert client.get(url("batches.show", key=batch.pk)).status_code == 404


@pytest.mark.parametrize("on", ["jar", "batch"])
def test_one_that_went_on_stays(client: Client, strained: Steep, on: str) -> None:
    batch = cast.a_batch(strained.strains.get())
    if on == "jar":
        cast.a_jar((batch, 10.0))
    else:
        cast.a_batch(batch)
    response = client.post(url("batches.delete", key=batch.pk), follow=True)
    assert Batch.objects.filter(pk=batch.pk).exists()
    assert "take that out first" in response.content.decode()


def test_wrong_keys_strangers_and_methods(client: Client, strained: Steep, strangers_tub: Steep) -> None:
    stranger = cast.a_batch(strangers_tub.strains.get())
    assert client.post(url("batches.delete", key=NOBODY)).status_code == 404
    assert client.post(url("batches.delete", key=stranger.pk)).status_code == 404
    only(client, url("batches.delete", key=cast.a_batch(strained.strains.get()).pk), "post")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("batches.delete", key=NOBODY), method="post")
