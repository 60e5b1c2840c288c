"""`/tubs/<key>/readings/<reading>/delete/`: take a look out again."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Reading, Steep
from tests.cast import a_look
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(look: Reading) -> str:
    return url("tubs.delete_reading", key=look.steep_id, reading=look.pk)


def test_the_look_is_out_of_sight_and_can_be_brought_back(client: Client, steeping: Steep) -> None:
    look = a_look(steeping)
    response = client.post(where(look), follow=True)
    assert response.redirect_chain == [(url("tubs.show", key=steeping.pk), 302)]
    assert str(look.pk) not in [row.key for row in response.context["page"].looks]
    assert Change.objects.get(row_id=look.pk).by is not None
    back = url("tubs.restore_reading", key=steeping.pk, reading=look.pk)
    assert back in [message.extra_tags for message in response.context["messages"]]


def test_it_cannot_be_taken_out_twice(client: Client, steeping: Steep) -> None:
    look = a_look(steeping)
    client.post(where(look))
    assert client.post(where(look)).status_code == 404
    assert Change.objects.filter(row_id=look.pk).count() == 1


def test_there_is_no_look_of_a_wrong_key(client: Client, steeping: Steep, strained: Steep) -> None:
    look = a_look(steeping)
    assert client.post(url("tubs.delete_reading", key=steeping.pk, reading=NOBODY)).status_code == 404
    assert client.post(url("tubs.delete_reading", key=strained.pk, reading=look.pk)).status_code == 404
    assert Reading.objects.filter(pk=look.pk).exists()


def test_a_stranger_s_look_stays(client: Client, strangers_tub: Steep) -> None:
    look = strangers_tub.readings.get()
    assert client.post(where(look)).status_code == 404
    assert Reading.objects.filter(pk=look.pk).exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("tubs.delete_reading", key=NOBODY, reading=NOBODY), "post")


def test_it_is_only_posted(client: Client, steeping: Steep) -> None:
    look = a_look(steeping)
    only(client, where(look), "post")
    assert Reading.objects.filter(pk=look.pk).exists()
