"""Schedules follow what they rest on, beside the pages."""

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from icalendar import Calendar

from bluewright.journal.actions import keeping
from bluewright.journal.bridge import scheduling
from bluewright.journal.models import Change, Garden, Limits, Schedule
from bluewright.web import replanning
from bluewright.words.numbers import weekday
from tests import cast
from tests.web.checks import url

pytestmark = pytest.mark.django_db
WHERE = "/plan/schedule/"


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[Callable[[], None]]:
    """What is asked to be done beside the pages."""
    found: list[Any] = []
    monkeypatch.setattr(replanning.ASIDE, "ask", lambda _key, work, after_s=0.0: found.append(work) or True)
    return found


@pytest.fixture
def season(garden: Garden, monkeypatch: pytest.MonkeyPatch) -> Garden:
    """A garden with its limits and a schedule, found quickly."""
    monkeypatch.setattr(scheduling, "LIMIT_S", 0.3)
    cast.a_season(garden)
    scheduling.reckon(garden, by=None, quick=True)
    return garden


def rows(garden: Garden) -> int:
    return Schedule.objects.filter(garden=garden).count()


def events(client: Client) -> dict[str, Any]:
    """The calendar file by the names of its events."""
    found = Calendar.from_ical(client.get(url("schedule.calendar")).content)
    return {str(one["uid"]): one for one in found.walk("VEVENT")}


def test_days_away_that_are_posted_move_the_cut_and_the_page_says_from_when_to_when_and_why(
    client: Client, season: Garden, asked: list[Callable[[], None]]
) -> None:
    first = scheduling.answer_of(Schedule.objects.get(garden=season)).cuts[0]  # type: ignore[union-attr]
    until = first.on + timedelta(days=2)
    client.post(url("schedule.away"), {"first": first.on.isoformat(), "until": until.isoformat()})
    before = events(client)
    assert len(asked) == 1
    asked[0]()
    page = client.get(WHERE).context["page"]
    assert (page.because, page.changed) == ("limits", "")
    said = " ".join(page.answer.lines)
    assert f"cut of {first.bed} moved from {weekday(first.on)} to " in said
    assert "there are no hours on that day any more" in said
    assert "because of what changed: limits" in client.get(WHERE).content.decode()
    after = events(client)
    assert set(before) <= set(after), "what is no longer planned is called off, not left out"


def test_a_cut_that_the_newer_plan_dropped_is_called_off_and_comes_back_with_the_plan(
    client: Client, season: Garden
) -> None:
    """RFC 5545, 3.8.1.11 and 3.8.7.4: CANCELLED under the same UID with a raised SEQUENCE."""
    cuts = [one for one in events(client).values() if str(one["summary"]).startswith("Cut ")]
    bed = season.beds.filter(deleted_at=None).order_by("made_at")[0]
    other = cast.a_bed(season, name="Spare", area_m2=2.0, area_typed="2 m2")
    cast.a_bed_look(other, days_ago=60, began="sown")
    keeping.delete(bed, by=None)
    row = Schedule.objects.get(garden=season)
    Schedule.objects.filter(pk=row.pk).update(reckoned_at=row.reckoned_at - timedelta(seconds=1))
    scheduling.follow(season)
    after = {
        str(one["uid"]): one for one in Calendar.from_ical(client.get(url("schedule.calendar")).content).walk("VEVENT")
    }
    dropped = [one for one in cuts if bed.name in str(one["summary"])]
    assert dropped
    for one in dropped:
        assert after[str(one["uid"])]["status"] == "CANCELLED"
        assert after[str(one["uid"])]["sequence"] > one["sequence"]
    keeping.restore(bed, by=None)
    scheduling.follow(season)
    again = {
        str(one["uid"]): one for one in Calendar.from_ical(client.get(url("schedule.calendar")).content).walk("VEVENT")
    }
    assert "status" not in again[str(dropped[0]["uid"])]


def test_nothing_is_reckoned_where_nothing_was_changed(season: Garden) -> None:
    replanning.replan()
    assert rows(season) == 1


def test_a_day_that_passed_is_a_change(season: Garden) -> None:
    row = Schedule.objects.get(garden=season)
    Schedule.objects.filter(pk=row.pk).update(rests_on=row.rests_on | {"day": cast.a_day(1).isoformat()})
    replanning.replan()
    assert Schedule.objects.filter(garden=season)[0].because == ["day"]


def test_a_page_that_is_asked_for_and_a_refused_post_change_nothing(
    client: Client, season: Garden, asked: list[Callable[[], None]]
) -> None:
    client.get(WHERE)
    client.post(url("schedule.away"), {"first": "nonsense"})
    assert asked == []


def test_the_first_schedule_comes_by_itself_once_there_are_limits_and_not_before(
    garden: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(scheduling, "LIMIT_S", 0.3)
    replanning.replan()
    assert rows(garden) == 0
    cast.a_season(garden)
    replanning.replan()
    assert Schedule.objects.get(garden=garden).answer["cuts"]
    assert not Change.objects.filter(kind="schedule").exists(), (
        "one writing: no large answer is kept as what was before"
    )


def test_a_season_that_is_over_is_left_alone(season: Garden) -> None:
    cast.a_want(season)
    Limits.objects.filter(garden=season).update(last_day=cast.a_day())
    replanning.replan()
    assert rows(season) == 1


def test_the_same_trouble_again_is_one_row_and_the_last_plan_stays(season: Garden) -> None:
    season.latitude_deg = None
    season.save()
    for name in ("one", "two"):
        cast.a_want(season, name=name)
        replanning.replan()
    assert [bool(row.trouble) for row in Schedule.objects.filter(garden=season)] == [True, False]
