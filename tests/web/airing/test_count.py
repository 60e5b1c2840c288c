"""`/airing/<key>/<row>/count/`: pours and minutes in all, from the fields or from the counter's script."""

from typing import Any

import pytest
from django.test import Client

from bluewright.journal.models import Airing, Change, Garden
from tests.web.checks import refused, url
from tests.web.working import an_aired_batch, posts_only_to_what_is_there

pytestmark = pytest.mark.django_db
SCRIPT = {"Accept": "application/json"}


def counts(airing: Airing) -> tuple[int | None, float | None]:
    now = Airing.objects.get(pk=airing.pk)
    return now.done_pours, now.done_min


def test_the_script_sends_totals_and_gets_the_fresh_answer(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    where = url("airing.count", key=batch.pk, row=airing.pk)
    said: Any = client.post(where, {"pours": "31", "minutes": "14.25"}, headers=SCRIPT).json()
    assert counts(airing) == (31, 14.25)
    assert (said["pours"], said["minutes"]) == (31, 14.25)
    assert len(said["saved"]) == len("14:05")
    assert '<section class="call">' in said["answer"]


def test_the_same_totals_sent_twice_are_one_entry(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    where = url("airing.count", key=batch.pk, row=airing.pk)
    for _ in range(3):
        client.post(where, {"pours": "31", "minutes": "14.25"}, headers=SCRIPT)
    assert counts(airing) == (31, 14.25)
    assert Change.objects.filter(row_id=airing.pk).count() == 1


def test_totals_that_come_late_count_nothing_back(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    where = url("airing.count", key=batch.pk, row=airing.pk)
    said: Any = client.post(where, {"pours": "18", "minutes": "9"}, headers=SCRIPT).json()
    assert counts(airing) == (20, 10.0)
    assert said["pours"] == 20
    client.post(where, {"pours": "18", "minutes": "12"}, headers=SCRIPT)
    assert counts(airing) == (20, 12.0)


def test_one_less_is_said_and_then_counts(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    where = url("airing.count", key=batch.pk, row=airing.pk)
    client.post(where, {"pours": "19", "minutes": "10", "lower": "on"}, headers=SCRIPT)
    assert counts(airing) == (19, 10.0)


def test_without_a_script_the_fields_say_what_is_meant(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    where = url("airing.count", key=batch.pk, row=airing.pk)
    response = client.post(where, {"pours": "15", "minutes": "7,5", "lower": "on"}, follow=True)
    assert response.redirect_chain == [(url("airing.show", key=batch.pk), 302)]
    assert counts(airing) == (15, 7.5)


def test_a_field_left_empty_changes_nothing(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    client.post(url("airing.count", key=batch.pk, row=airing.pk), {"pours": "25", "minutes": "", "lower": "on"})
    assert counts(airing) == (25, 10.0)


def test_whisking_has_no_pours(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden, way="whisk", done_pours=None)
    client.post(url("airing.count", key=batch.pk, row=airing.pk), {"pours": "5", "minutes": "12"})
    assert counts(airing) == (None, 12.0)


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    batch, airing = an_aired_batch(garden)
    where = url("airing.count", key=batch.pk, row=airing.pk)
    refused(client, where, {"pours": "a lot", "minutes": "7"}, field="pours", says="whole number")
    assert client.post(where, {"pours": "-1"}, headers=SCRIPT).status_code == 422
    assert counts(airing) == (20, 10.0)


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange, theirs = an_aired_batch(other_garden)
    posts_only_to_what_is_there(client, "airing.count", other_garden=other_garden, key=strange.pk, row=theirs.pk)
