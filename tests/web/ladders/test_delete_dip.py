"""`/ladders/<key>/dips/<row>/delete/`: a dip is taken out."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_gone_and_can_be_brought_back(client: Client, ladder: Ladder) -> None:
    row = cast.a_ladder_dip(ladder)
    keys = {"key": ladder.pk, "row": row.pk}
    taken_out_and_back(
        client, row, delete=url("ladders.delete_dip", **keys), restore=url("ladders.restore_dip", **keys),
        back_to=url("ladders.dips", key=ladder.pk),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, theirs: Ladder) -> None:
    row = cast.a_ladder_dip(theirs)
    posts_only_to_what_is_there(client, "ladders.delete_dip", other_garden=theirs.garden, key=theirs.pk, row=row.pk)
