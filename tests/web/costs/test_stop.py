"""`/costs/<note>/stop/`."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_the_minutes_since_it_began_are_written_down(client: Client, garden: Garden) -> None:
    row = cast.a_work_note(garden, None, hours_ago=1.5)
    response = client.post(url("costs.stop", key=row.pk), follow=True)
    row.refresh_from_db()
    assert row.spent_min == pytest.approx(90.0, abs=30.0), "the tests began a while ago"
    assert row.spent_min >= 90.0
    assert row.spent_typed == ""
    assert "Written down: picking, " in response.content.decode()
    assert Change.objects.filter(row_id=row.pk, verb="change").count() == 1


def test_a_second_press_changes_nothing(client: Client, garden: Garden) -> None:
    row = cast.a_work_note(garden, 40.0)
    client.post(url("costs.stop", key=row.pk))
    row.refresh_from_db()
    assert (row.spent_min, row.spent_typed) == (40.0, "40 min")


def test_only_posts_to_one_s_own(client: Client, garden: Garden, other_garden: Garden) -> None:
    row = cast.a_work_note(other_garden, None)
    posts_only_to_what_is_there(client, "costs.stop", other_garden=other_garden, key=row.pk)
