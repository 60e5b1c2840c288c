"""`/learned/<key>/restore/`."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, too_late_to_bring_back

pytestmark = pytest.mark.django_db


def test_after_thirty_days_it_stays_out(client: Client, garden: Garden) -> None:
    row = cast.left_out(cast.a_tub(garden))
    too_late_to_bring_back(
        client, row, delete=url("learned.delete", key=row.pk), restore=url("learned.restore", key=row.pk),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange = cast.left_out(cast.a_tub(other_garden))
    posts_only_to_what_is_there(client, "learned.restore", other_garden=other_garden, key=strange.pk)
