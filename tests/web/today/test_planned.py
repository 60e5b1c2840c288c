"""What the schedule has for the coming days stands on Today, and goes before what growth foretells."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge import scheduling
from bluewright.journal.models import Garden, Schedule
from bluewright.web.pages.today.planned import planned
from tests import cast

pytestmark = pytest.mark.django_db


def reckoned(garden: Garden, *, days_ahead: int) -> Schedule:
    """A schedule whose first cut lies so many days ahead."""
    cast.a_season(garden)
    row = scheduling.reckon(garden, by=None, quick=True)
    row.answer["cuts"][0]["on"] = cast.a_day(-days_ahead).isoformat()
    return keep(row, by=None)


def test_a_cut_of_today_comes_first_with_its_reason(client: Client, garden: Garden) -> None:
    row = reckoned(garden, days_ahead=0)
    matters = [m for m in client.get("/").context["page"].matters if m.what.endswith("by the schedule")]
    assert matters[0].what == f"{row.answer['cuts'][0]['bed']}: to be cut today, by the schedule"
    assert "of pure blue. Why then: " in matters[0].why


def test_a_bed_whose_cut_is_planned_is_not_told_of_by_its_growth(garden: Garden) -> None:
    row = reckoned(garden, days_ahead=2)
    beds, matters = planned(garden, timezone.now())
    key = row.beds[row.answer["cuts"][0]["bed"]]
    assert key in {str(bed) for bed in beds}
    assert matters[0].key == key
    assert matters[0].urgency_h > 48


def test_a_schedule_of_long_ago_says_nothing(garden: Garden) -> None:
    reckoned(garden, days_ahead=0)
    assert planned(garden, timezone.now() + timedelta(days=40)) == (frozenset(), [])
