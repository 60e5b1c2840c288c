"""`/ladders/<key>/dips/in/`: all strips that still want a dip go in."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder, LadderDip
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_a_dip_begins_once_and_none_beyond_the_last(client: Client, ladder: Ladder) -> None:
    where = url("ladders.dip_in", key=ladder.pk)
    response = client.post(where, follow=True)
    dip = LadderDip.objects.get()
    assert dip.ended_at is None
    assert url("ladders.delete_dip", key=ladder.pk, row=dip.pk) in [
        message.extra_tags for message in response.context["messages"]
    ]
    client.post(where)
    assert LadderDip.objects.count() == 1
    dip.delete()
    for hours in (5, 4, 3, 2):
        cast.a_ladder_dip(ladder, hours_ago=hours)
    client.post(where)
    assert LadderDip.objects.count() == 4, "no strip wants a fifth"


def test_only_posts_to_one_s_own(client: Client, theirs: Ladder) -> None:
    posts_only_to_what_is_there(client, "ladders.dip_in", other_garden=theirs.garden, key=theirs.pk)
    assert not LadderDip.objects.exists()
