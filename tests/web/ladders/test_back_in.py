"""`/ladders/<key>/dips/<row>/back-in/`: the strips did not come out after all."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_they_are_in_again_unless_they_went_in_since(client: Client, ladder: Ladder) -> None:
    first = cast.a_ladder_dip(ladder, hours_ago=3)
    where = url("ladders.back_in", key=ladder.pk, row=first.pk)
    client.post(where)
    first.refresh_from_db()
    assert first.ended_at is None
    first.ended_at = cast.moment(2.9)
    first.save()
    cast.a_ladder_dip(ladder, hours_ago=1)
    response = client.post(where, follow=True)
    assert "The strips were in the vat then already" in response.content.decode()
    first.refresh_from_db()
    assert first.ended_at is not None


def test_only_posts_to_one_s_own(client: Client, theirs: Ladder) -> None:
    dip = cast.a_ladder_dip(theirs)
    posts_only_to_what_is_there(client, "ladders.back_in", other_garden=theirs.garden, key=theirs.pk, row=dip.pk)
