"""`/ladders/<key>/dips/add/`: a dip that was not timed."""

from datetime import timedelta

import pytest
from django.test import Client

from bluewright.journal.models import Ladder, LadderDip
from tests import cast
from tests.web.checks import NOBODY, only, refused, url

pytestmark = pytest.mark.django_db


def test_it_is_kept_with_its_moments_and_can_be_undone(client: Client, ladder: Ladder) -> None:
    typed = {"began_at": cast.typed(cast.moment(3)), "ended_at": cast.typed(cast.moment(2))}
    response = client.post(url("ladders.add_dip", key=ladder.pk), typed, follow=True)
    dip = LadderDip.objects.get()
    assert dip.ended_at - dip.began_at == timedelta(hours=1)
    assert url("ladders.delete_dip", key=ladder.pk, row=dip.pk) in [
        message.extra_tags for message in response.context["messages"]
    ]


def test_a_mistake_keeps_what_was_typed(client: Client, ladder: Ladder) -> None:
    cast.a_ladder_dip(ladder, hours_ago=3, minutes=60)
    where = url("ladders.add_dip", key=ladder.pk)
    for typed, field, says in (
        (
            {"began_at": cast.typed(cast.moment(1)), "ended_at": cast.typed(cast.moment(2))},
            "ended_at",
            "before it went",
        ),
        ({"began_at": cast.typed(cast.moment(2.5)), "ended_at": ""}, "began_at", "in the vat then already"),
        ({"began_at": "2099-01-01T10:00", "ended_at": ""}, "began_at", "still to come"),
    ):
        refused(client, where, typed, field=field, says=says)
    assert LadderDip.objects.count() == 1


def test_only_one_s_own(client: Client, ladder: Ladder, theirs: Ladder) -> None:
    for key in (NOBODY, theirs.pk):
        assert client.get(url("ladders.add_dip", key=key)).status_code == 404
    only(client, url("ladders.add_dip", key=ladder.pk), "get", "post")
