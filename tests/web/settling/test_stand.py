"""`/settling/<key>/stand/`: leave it to stand, first by itself, then in fresh water."""

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Garden, Standing
from tests.cast import moment, typed
from tests.web.checks import NOBODY, flat, no_rows, only, refused, to_the_start_without_a_garden, url
from tests.web.working import a_decanted_batch, a_settling_batch, a_working_batch

pytestmark = pytest.mark.django_db


def where(batch: Batch) -> str:
    return url("settling.stand", key=batch.pk)


def entry(**other: str) -> dict[str, str]:
    return {"depth": "1 ft", "started_at": typed(moment()), "note": "", **other}


def test_it_is_left_to_stand_as_typed(client: Client, garden: Garden) -> None:
    """A foot is 304.8 mm by definition."""
    batch = a_working_batch(garden)
    assert set(client.get(where(batch)).context["form"].fields) == {"depth", "started_at", "note"}
    response = client.post(where(batch), entry(), follow=True)
    assert response.redirect_chain == [(url("settling.show", key=batch.pk), 302)]
    made = Standing.objects.get(batch=batch)
    assert (made.depth_typed, made.refill_l, made.acid, made.started_at) == ("1 ft", None, False, moment())
    assert made.depth_mm == pytest.approx(304.8)
    undo = url("settling.delete", key=batch.pk, row=made.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


def test_after_decanting_it_is_a_wash_with_fresh_water(client: Client, garden: Garden) -> None:
    batch, first = a_decanted_batch(garden)
    refused(client, where(batch), entry(refill=""), field="refill", says="required")
    client.post(where(batch), entry(refill="8 L", acid="on"))
    made = Standing.objects.exclude(pk=first.pk).get(batch=batch)
    assert (made.refill_l, made.refill_typed, made.acid) == (8.0, "8 L", True)


def test_the_last_wash_is_filled_in_for_the_next(client: Client, garden: Garden) -> None:
    batch, _first = a_decanted_batch(garden, refill_l=8.0, refill_typed="8 L")
    form = client.get(where(batch)).context["form"]
    assert (form["refill"].value(), form["depth"].value()) == ("8 L", "30 cm")


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [("depth", "3 kg", "length"), ("depth", "90 m", "cannot be"), ("started_at", "2999-07-01T08:00", "still to come")],
)
def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, field: str, text: str, says: str) -> None:
    unchanged = no_rows(Standing)
    refused(client, where(a_working_batch(garden)), entry(**{field: text}), field=field, says=says)
    unchanged()


def test_a_wrong_key_and_a_strangers_batch_are_not_found(client: Client, garden: Garden, other_garden: Garden) -> None:
    unchanged = no_rows(Standing)
    for key in (NOBODY, a_working_batch(other_garden).pk):
        assert client.get(url("settling.stand", key=key)).status_code == 404
        assert client.post(url("settling.stand", key=key), entry()).status_code == 404
    unchanged()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("settling.stand", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(a_working_batch(garden)), "get", "post")


def test_more_batches_need_no_more_statements(client: Client, garden: Garden) -> None:
    flat(client, where(a_settling_batch(garden)[0]), lambda: a_settling_batch(garden))
