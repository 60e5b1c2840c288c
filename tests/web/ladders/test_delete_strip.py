"""`/ladders/<key>/strips/<row>/delete/`: a strip is taken out."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_gone_and_can_be_brought_back(client: Client, ladder: Ladder) -> None:
    row = cast.a_rung(ladder, 6)
    keys = {"key": ladder.pk, "row": row.pk}
    taken_out_and_back(
        client, row, delete=url("ladders.delete_strip", **keys), restore=url("ladders.restore_strip", **keys),
        back_to=url("ladders.show", key=ladder.pk),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, theirs: Ladder) -> None:
    row = cast.a_rung(theirs, 6)
    posts_only_to_what_is_there(client, "ladders.delete_strip", other_garden=theirs.garden, key=theirs.pk, row=row.pk)
