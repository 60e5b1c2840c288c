"""`/plan/schedule/season.ics`: the schedule as a calendar file."""

import pytest
from django.test import Client
from icalendar import Calendar

from bluewright.journal.bridge import scheduling
from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import only, to_the_start_without_a_garden

pytestmark = pytest.mark.django_db
WHERE = "/plan/schedule/season.ics"


def test_it_holds_every_cut_on_its_day(client: Client, garden: Garden) -> None:
    cast.a_season(garden)
    row = scheduling.reckon(garden, by=None, quick=True)
    response = client.get(WHERE)
    assert response["Content-Type"] == "text/calendar"
    found = Calendar.from_ical(response.content)
    assert str(found["x-wr-calname"]) == garden.name
    cuts = [event for event in found.walk("VEVENT") if event["summary"].startswith("Cut ")]
    assert [event["dtstart"].dt.isoformat() for event in cuts] == [cut["on"] for cut in row.answer["cuts"]]


def test_before_anything_is_planned_there_is_none(client: Client, garden: Garden) -> None:
    assert client.get(WHERE).status_code == 404


def test_it_can_only_be_read(client: Client) -> None:
    only(client, WHERE, "get")
    to_the_start_without_a_garden(client, WHERE)
