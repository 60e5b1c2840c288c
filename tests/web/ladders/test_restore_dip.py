"""`/ladders/<key>/dips/<row>/restore/`: a dip is brought back."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder
from tests import cast
from tests.web.checks import too_late, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_after_thirty_days_it_stays_out(client: Client, ladder: Ladder) -> None:
    row = cast.a_ladder_dip(ladder)
    too_late(client, row, url("ladders.restore_dip", key=ladder.pk, row=row.pk))


def test_only_posts_to_one_s_own(client: Client, theirs: Ladder) -> None:
    row = cast.a_ladder_dip(theirs)
    posts_only_to_what_is_there(client, "ladders.restore_dip", other_garden=theirs.garden, key=theirs.pk, row=row.pk)
