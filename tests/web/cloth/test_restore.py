"""`/cloth/<key>/restore/`: bring a piece back."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import too_late, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_after_thirty_days_it_stays_out_and_the_page_says_so(client: Client, garden: Garden) -> None:
    row = cast.a_piece(garden)
    too_late(client, row, url("cloth.restore", key=row.pk))


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    posts_only_to_what_is_there(client, "cloth.restore", other_garden=other_garden, key=theirs.pk)
