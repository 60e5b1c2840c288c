"""`/ladders/<key>/restore/`: a ladder is taken out and brought back."""

import pytest
from django.test import Client

from bluewright.journal.models import Ladder
from tests.web.checks import too_late, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_after_thirty_days_it_stays_out(client: Client, ladder: Ladder) -> None:
    too_late(client, ladder, url("ladders.restore", key=ladder.pk))


def test_only_posts_to_one_s_own(client: Client, theirs: Ladder) -> None:
    posts_only_to_what_is_there(client, "ladders.restore", other_garden=theirs.garden, key=theirs.pk)
