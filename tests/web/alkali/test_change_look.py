"""`alkali.change_look`: correct a reading of the liquor."""

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Change, LiquorLook
from tests import cast
from tests.web.checks import NOBODY, flat, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(batch: Batch, look: LiquorLook) -> str:
    return url("alkali.change_look", key=batch.pk, row=look.pk)


def test_it_is_corrected_and_what_it_does_not_ask_stays(client: Client, batch: Batch) -> None:
    """64 F is (64 - 32) * 5/9 = 17.78 C."""
    look = cast.a_liquor_look(batch, hours_ago=2.0, ph=6.2, temp_c=17.0, temp_typed="17 C", note="by the gate")
    form = client.get(where(batch, look)).context["form"]
    assert (form["ph"].value(), form["temp"].value()) == (6.2, "17 C")
    response = client.post(where(batch, look), {"ph": "6,4", "temp": "64 F", "at": ""}, follow=True)
    assert response.redirect_chain == [(url("alkali.dose", key=batch.pk), 302)]
    now = LiquorLook.objects.get(pk=look.pk)
    assert (now.ph, now.temp_c, now.temp_typed) == (6.4, pytest.approx(17.78, abs=0.005), "64 F")
    assert now.note == "by the gate"
    assert Change.objects.get(row_id=look.pk).before["ph"] == 6.2


def test_nothing_at_all_is_refused(client: Client, batch: Batch) -> None:
    look = cast.a_liquor_look(batch, hours_ago=2.0, ph=6.2)
    response = client.post(where(batch, look), {"ph": "", "temp": "", "at": ""})
    assert response.status_code == 422
    assert "Nothing is entered" in response.content.decode()
    refused(client, where(batch, look), {"ph": "sour", "temp": "", "at": ""}, field="ph", says="sour")


def test_wrong_keys_strangers_and_methods(client: Client, batch: Batch, strangers_batch: Batch) -> None:
    look = cast.a_liquor_look(batch, ph=6.0)
    theirs = cast.a_liquor_look(strangers_batch, ph=6.0)
    for key, row in ((batch.pk, NOBODY), (NOBODY, look.pk), (batch.pk, theirs.pk), (strangers_batch.pk, theirs.pk)):
        assert client.get(url("alkali.change_look", key=key, row=row)).status_code == 404
    only(client, where(batch, look), "get", "post")
    flat(client, where(batch, look), lambda: cast.a_liquor_look(batch, ph=6.1))


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.change_look", key=NOBODY, row=NOBODY))
