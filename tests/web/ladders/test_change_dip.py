"""`/ladders/<key>/dips/<row>/change/`: a dip's times are corrected."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder
from tests import cast
from tests.web.checks import NOBODY, only, refused, url

pytestmark = pytest.mark.django_db


def test_what_is_corrected_is_kept(client: Client, ladder: Ladder) -> None:
    dip = cast.a_ladder_dip(ladder, hours_ago=3)
    where = url("ladders.change_dip", key=ladder.pk, row=dip.pk)
    assert client.get(where).context["form"].initial["ended_at"] is not None
    client.post(where, {"began_at": cast.typed(cast.moment(4)), "ended_at": cast.typed(cast.moment(3))})
    dip.refresh_from_db()
    assert dip.began_at.replace(second=0, microsecond=0) == cast.moment(4).replace(second=0, microsecond=0)
    refused(client, where, {"began_at": "soon", "ended_at": ""}, field="began_at", says="Enter a valid date")


def test_only_one_s_own(client: Client, ladder: Ladder, theirs: Ladder) -> None:
    mine, other = cast.a_ladder_dip(ladder), cast.a_ladder_dip(theirs)
    for key, row in ((ladder.pk, NOBODY), (ladder.pk, other.pk), (theirs.pk, other.pk)):
        assert client.get(url("ladders.change_dip", key=key, row=row)).status_code == 404
    only(client, url("ladders.change_dip", key=ladder.pk, row=mine.pk), "get", "post")
