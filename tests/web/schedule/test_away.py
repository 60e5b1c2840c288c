"""`/plan/schedule/away/`: days on which nothing can be done."""

import pytest
from django.test import Client

from bluewright.journal.models import DaysAway, Garden
from tests import cast
from tests.web.checks import only, refused, to_the_start_without_a_garden

pytestmark = pytest.mark.django_db
WHERE = "/plan/schedule/away/"


def test_a_single_day_and_a_week_are_written_down(client: Client, garden: Garden) -> None:
    one, first, last = (cast.a_day(-days) for days in (3, 10, 17))
    client.post(WHERE, {"first": one.isoformat(), "until": ""})
    client.post(WHERE, {"first": first.isoformat(), "until": last.isoformat()})
    assert [(row.first, row.last) for row in DaysAway.objects.filter(garden=garden)] == [(one, one), (first, last)]
    assert len(client.get("/plan/schedule/").context["page"].away) == 2


def test_a_mistake_keeps_the_typing(client: Client, garden: Garden) -> None:
    days = {"first": cast.a_day(-5).isoformat(), "until": cast.a_day(-4).isoformat()}
    refused(client, WHERE, days | {"until": cast.a_day(-2).isoformat()}, field="until", says="before the first day")
    over = {"first": cast.a_day(5).isoformat(), "until": cast.a_day(4).isoformat()}
    refused(client, WHERE, over, field="until", says="These days are over.")
    assert not DaysAway.objects.exists()


def test_it_is_posted_only(client: Client) -> None:
    only(client, WHERE, "post")
    to_the_start_without_a_garden(client, WHERE, "post")
