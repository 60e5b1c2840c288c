"""`/ladders/<key>/dips/out/`: the strips come out."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder, LadderDip
from tests import cast
from tests.web.checks import NOBODY, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_the_dip_ends_and_a_second_press_changes_nothing(client: Client, ladder: Ladder) -> None:
    dip = cast.a_ladder_dip(ladder, minutes=None)
    where = url("ladders.dip_out", key=ladder.pk)
    response = client.post(where, {"dip": str(dip.pk)}, follow=True)
    ended = LadderDip.objects.get().ended_at
    assert ended is not None
    (undo,) = [message.extra_tags for message in response.context["messages"]]
    assert undo == url("ladders.back_in", key=ladder.pk, row=dip.pk)
    client.post(where, {"dip": str(dip.pk)})
    assert LadderDip.objects.get().ended_at == ended


def test_what_is_no_dip_of_its_own_is_refused(client: Client, ladder: Ladder, theirs: Ladder) -> None:
    where = url("ladders.dip_out", key=ladder.pk)
    for key in (NOBODY, cast.a_ladder_dip(theirs, minutes=None).pk):
        assert client.post(where, {"dip": str(key)}).status_code == 404
    assert client.post(where, {"dip": "x"}, HTTP_ACCEPT="application/json").status_code == 422


def test_only_posts_to_one_s_own(client: Client, theirs: Ladder) -> None:
    posts_only_to_what_is_there(client, "ladders.dip_out", other_garden=theirs.garden, key=theirs.pk)
