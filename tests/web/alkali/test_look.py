"""`/alkali/<key>/look/`: the pH and the temperature of the liquor."""

import pytest
from django.test import Client

from bluewright.journal.models import Alkali, Batch, LiquorLook
from tests import cast
from tests.web.checks import NOBODY, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(batch: Batch) -> str:
    return url("alkali.look", key=batch.pk)


def entry(**other: object) -> dict[str, object]:
    return {"ph": "6,2", "temp": "64 F", "at": ""} | other


def test_it_is_written_as_typed_and_the_dose_takes_it_in(client: Client, batch: Batch, soda: Alkali) -> None:
    """64 F is (64 - 32) * 5/9 = 17.78 C."""
    before = client.get(url("alkali.dose", key=batch.pk)).context["page"]
    response = client.post(where(batch), entry(), follow=True)
    assert response.redirect_chain == [(url("alkali.dose", key=batch.pk) + f"?alkali={soda.pk}", 302)]
    made = LiquorLook.objects.latest("taken_at")
    assert (made.ph, made.temp_c, made.temp_typed) == (6.2, pytest.approx(17.78, abs=0.005), "64 F")
    page = response.context["page"]
    assert page.stands == "pH 6.2, 64 F"
    assert page.answer.figures != before.answer.figures
    undo = url("alkali.delete_look", key=batch.pk, row=made.pk)
    assert undo in [message.extra_tags for message in response.context["messages"]]


def test_after_a_part_it_is_the_ph_of_what_is_in_by_then(client: Client, batch: Batch, soda: Alkali) -> None:
    cast.an_alkali_part(batch, soda, hours_ago=0.2, ph=None)
    page = client.post(where(batch), entry(ph="7.4", temp=""), follow=True).context["page"]
    assert page.due == ""
    assert "Still to come, after the last pH" in dict(page.answer.figures)


def test_a_moment_that_was_given_is_kept(client: Client, batch: Batch) -> None:
    client.post(where(batch), entry(at=cast.typed(cast.moment(1)), temp="17"))
    made = LiquorLook.objects.get(ph=6.2)
    assert (made.taken_at, made.temp_typed) == (cast.moment(1), "17 C")


@pytest.mark.parametrize(
    ("typed", "field", "says"),
    [
        ({"ph": "", "temp": ""}, None, "Nothing is entered yet"),
        ({"ph": "sour"}, "ph", "number"),
        ({"temp": "120 C"}, "temp", "cannot be"),
        ({"at": "2001-07-01T08:00"}, "at", "before the batch began"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, batch: Batch, soda: Alkali, typed: dict[str, str], field: str | None, says: str
) -> None:
    unchanged = no_rows(LiquorLook)
    refused(client, where(batch), entry() | typed, field=field, says=says)
    unchanged()


def test_wrong_keys_strangers_and_methods(client: Client, batch: Batch, strangers_batch: Batch) -> None:
    unchanged = no_rows(LiquorLook)
    assert client.post(url("alkali.look", key=NOBODY), entry()).status_code == 404
    assert client.post(where(strangers_batch), entry()).status_code == 404
    unchanged()
    only(client, where(batch), "post")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("alkali.look", key=NOBODY), "post")
