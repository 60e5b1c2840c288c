"""`/plan/schedule/away/<row>/delete/` and back."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, only, url
from tests.web.working import taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    row = cast.days_away(garden)
    taken_out_and_back(
        client, row, delete=url("schedule.delete", row=row.pk), restore=url("schedule.restore", row=row.pk),
        back_to=url("schedule.index"),
    )  # fmt: skip


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    strange = cast.days_away(other_garden)
    for row in (strange.pk, NOBODY):
        assert client.post(url("schedule.delete", row=row)).status_code == 404
    only(client, url("schedule.delete", row=NOBODY), "post")
