"""`/costs/supplies/<pack>/restore/`: see `test_delete`; here the thirty days, and whose it is."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, too_late_to_bring_back

pytestmark = pytest.mark.django_db


def test_after_thirty_days_it_stays_out(client: Client, garden: Garden) -> None:
    row = cast.a_supply(garden)
    too_late_to_bring_back(
        client, row, delete=url("supplies.delete", key=row.pk), restore=url("supplies.restore", key=row.pk)
    )


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    row = cast.a_supply(other_garden)
    posts_only_to_what_is_there(client, "supplies.restore", other_garden=other_garden, key=row.pk)
