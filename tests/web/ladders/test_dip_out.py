"""`/ladders/<key>/dips/out/`: the strips come out."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder, LadderDip
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_the_dip_ends_and_a_second_press_changes_nothing(client: Client, ladder: Ladder) -> None:
    cast.a_ladder_dip(ladder, minutes=None)
    where = url("ladders.dip_out", key=ladder.pk)
    client.post(where)
    ended = LadderDip.objects.get().ended_at
    assert ended is not None
    client.post(where)
    assert LadderDip.objects.get().ended_at == ended


def test_only_posts_to_one_s_own(client: Client, theirs: Ladder) -> None:
    posts_only_to_what_is_there(client, "ladders.dip_out", other_garden=theirs.garden, key=theirs.pk)
