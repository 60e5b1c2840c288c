"""`/tubs/<key>/readings/<reading>/restore/`: bring a look back that was taken out."""

from datetime import timedelta

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Reading, Steep
from tests.cast import a_look, moment
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(look: Reading) -> str:
    return url("tubs.restore_reading", key=look.steep_id, reading=look.pk)


@pytest.fixture
def gone(steeping: Steep) -> Reading:
    look = a_look(steeping)
    delete(look, by=None)
    return look


def test_the_look_is_back_in_the_story(client: Client, steeping: Steep, gone: Reading) -> None:
    response = client.post(where(gone), follow=True)
    assert response.redirect_chain == [(url("tubs.show", key=steeping.pk), 302)]
    assert str(gone.pk) in [row.key for row in response.context["page"].looks]
    assert "Brought back" in response.content.decode()


def test_after_thirty_days_it_stays_out_and_the_page_says_so(client: Client, gone: Reading) -> None:
    Reading.everything.filter(pk=gone.pk).update(deleted_at=moment() - timedelta(days=31))
    response = client.post(where(gone), follow=True)
    assert not Reading.objects.filter(pk=gone.pk).exists()
    assert "thirty days" in response.content.decode()


def test_a_look_that_is_there_stays_there(client: Client, steeping: Steep) -> None:
    look = a_look(steeping)
    response = client.post(where(look), follow=True)
    assert Reading.objects.filter(pk=look.pk).exists()
    assert "Brought back" not in response.content.decode()


def test_there_is_no_look_of_a_wrong_key(client: Client, gone: Reading, strained: Steep) -> None:
    assert client.post(url("tubs.restore_reading", key=gone.steep_id, reading=NOBODY)).status_code == 404
    assert client.post(url("tubs.restore_reading", key=strained.pk, reading=gone.pk)).status_code == 404


def test_a_stranger_s_look_stays_out(client: Client, strangers_tub: Steep) -> None:
    look = strangers_tub.readings.get()
    delete(look, by=None)
    assert client.post(where(look)).status_code == 404
    assert not Reading.objects.filter(pk=look.pk).exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("tubs.restore_reading", key=NOBODY, reading=NOBODY), "post")


def test_it_is_only_posted(client: Client, gone: Reading) -> None:
    only(client, where(gone), "post")
    assert not Reading.objects.filter(pk=gone.pk).exists()
