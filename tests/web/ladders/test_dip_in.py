"""`/ladders/<key>/dips/in/`: all strips that still want a dip go in, once however often it is sent."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.models import Ladder, LadderDip
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db
JSON = {"HTTP_ACCEPT": "application/json"}


def test_a_dip_begins_once_and_can_be_undone(client: Client, ladder: Ladder) -> None:
    where, tap = url("ladders.dip_in", key=ladder.pk), {"dip": str(uuid4())}
    response = client.post(where, tap, follow=True)
    dip = LadderDip.objects.get()
    assert (str(dip.pk), dip.ended_at) == (tap["dip"], None)
    assert url("ladders.delete_dip", key=ladder.pk, row=dip.pk) in [
        message.extra_tags for message in response.context["messages"]
    ]
    client.post(where, tap)
    assert client.post(where, {"dip": str(uuid4())}, **JSON).json()["wrong"].startswith("The strips were in the vat")
    assert LadderDip.everything.count() == 1


def test_a_tap_that_was_kept_counts_from_when_it_was(client: Client, ladder: Ladder) -> None:
    """Own hand: sent twenty minutes after the tap, by a clock that is years behind."""
    sent_ms = 1_000_000_000_000
    tap = {"dip": str(uuid4()), "tapped_ms": sent_ms - 20 * 60_000, "sent_ms": sent_ms}
    assert client.post(url("ladders.dip_in", key=ladder.pk), tap, **JSON).json()["wrong"] == ""
    ago = timezone.now() - LadderDip.objects.get().began_at
    assert abs(ago - timedelta(minutes=20)) < timedelta(seconds=30)


def test_none_goes_in_beyond_the_last(client: Client, ladder: Ladder) -> None:
    for hours in (5, 4, 3, 2):
        last = cast.a_ladder_dip(ladder, hours_ago=hours)
    where = url("ladders.dip_in", key=ladder.pk)
    response = client.post(where, {"dip": str(uuid4())}, **JSON)
    assert response.status_code == 422 and "no strip wants a further dip" in response.json()["wrong"].lower()
    assert client.post(where, {"dip": str(last.pk)}, **JSON).json()["wrong"] == "", "the last one, sent again"
    assert LadderDip.objects.count() == 4


def test_only_posts_to_one_s_own(client: Client, theirs: Ladder) -> None:
    posts_only_to_what_is_there(client, "ladders.dip_in", other_garden=theirs.garden, key=theirs.pk)
    assert not LadderDip.objects.exists()
