"""`/plan/schedule/`: what is planned, from what, and what has changed since."""

import pytest
from django.test import Client

from bluewright.journal.bridge import scheduling
from bluewright.journal.models import Garden, Schedule
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/plan/schedule/"


def test_before_tubs_and_hours_are_known_it_asks_for_them(client: Client, garden: Garden) -> None:
    page = client.get(WHERE)
    assert "Write down tubs and hours" in page.content.decode()
    assert page.context["page"].answer is None


def test_a_schedule_shows_cuts_tubs_a_drawing_and_its_calendar(client: Client, garden: Garden) -> None:
    cast.a_season(garden)
    scheduling.reckon(garden, by=None, quick=True)
    page = client.get(WHERE)
    found = page.context["page"]
    assert found.trouble == ""
    assert "pure blue" in found.answer.first
    assert [table.caption for table in found.answer.tables] == ["Cuts", "Tubs"]
    assert "<svg" in found.answer.chart
    assert found.changed == ""
    assert url("schedule.calendar") in page.content.decode()


def test_what_was_changed_since_is_named(client: Client, garden: Garden) -> None:
    cast.a_season(garden)
    scheduling.reckon(garden, by=None, quick=True)
    cast.a_want(garden)
    cast.days_away(garden)
    assert client.get(WHERE).context["page"].changed == "wants, limits"


def test_a_jar_more_is_a_change_since_what_it_holds_need_not_be_made(client: Client, garden: Garden) -> None:
    cast.a_season(garden)
    jar = cast.a_jar_from_the_bed(garden, pigment_g=20.0)
    scheduling.reckon(garden, by=None, quick=True)
    assert client.get(WHERE).context["page"].changed == ""
    cast.taken(jar, 3.0)
    assert client.get(WHERE).context["page"].changed == "jars"


def test_a_plan_that_cannot_be_made_is_said_and_the_one_before_stays(client: Client, garden: Garden) -> None:
    cast.a_season(garden)
    scheduling.reckon(garden, by=None, quick=True)
    garden.latitude_deg = None
    garden.save()
    scheduling.reckon(garden, by=None, quick=True)
    page = client.get(WHERE).context["page"]
    assert "where it lies is not known" in page.trouble
    assert page.answer is not None


def test_it_takes_as_many_statements_for_many_rows_as_for_few(client: Client, garden: Garden) -> None:
    cast.a_season(garden)
    scheduling.reckon(garden, by=None, quick=True)

    def more() -> None:
        cast.days_away(garden)
        cast.a_want(garden)
        scheduling.reckon(garden, by=None, quick=True)

    cast.days_away(garden, days_ahead=40)
    flat(client, WHERE, more)


def test_the_json_twin_says_the_same(client: Client, garden: Garden) -> None:
    cast.some_limits(garden)
    assert client.get(f"{WHERE}?as=json").json()["limits"][0] == "Tubs: 2 of 60 L."


def test_another_garden_s_schedule_is_not_shown(client: Client, garden: Garden, other_garden: Garden) -> None:
    Schedule.objects.all().delete()
    cast.some_limits(other_garden)
    assert client.get(WHERE).context["page"].limits == ()


def test_it_can_only_be_read(client: Client) -> None:
    only(client, WHERE, "get")
    to_the_start_without_a_garden(client, WHERE)
