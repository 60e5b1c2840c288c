"""`/plan/schedule/again/`: reckoned anew; at once and roughly where no server works beside the pages."""

from typing import Any

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Schedule
from bluewright.web.pages.schedule import views
from tests import cast
from tests.web.checks import only, to_the_start_without_a_garden

pytestmark = pytest.mark.django_db
WHERE = "/plan/schedule/again/"


def test_it_is_reckoned_and_shown(client: Client, garden: Garden) -> None:
    cast.a_season(garden)
    assert client.post(WHERE)["Location"] == "/plan/schedule/"
    row = Schedule.objects.get(garden=garden)
    assert row.settled
    assert row.answer["cuts"]


def test_a_server_works_on_it_beside_the_pages(client: Client, garden: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    cast.a_season(garden)
    asked: list[Any] = []
    monkeypatch.setattr(views.ASIDE, "ask", lambda key, work, after_s=0.0: after_s or asked.append(key) or True)
    monkeypatch.setattr(views.ASIDE, "waits", lambda key: key in asked)
    client.post(WHERE)
    assert asked == [("schedule", garden.pk)]
    assert not Schedule.objects.exists()
    page = client.get("/plan/schedule/")
    assert page.context["page"].seeking
    assert "A plan is being sought" in page.content.decode()


def test_without_limits_the_trouble_is_kept_and_said(client: Client, garden: Garden) -> None:
    client.post(WHERE)
    assert "tubs and hours are not known" in client.get("/plan/schedule/").context["page"].trouble


def test_it_is_posted_only(client: Client) -> None:
    only(client, WHERE, "post")
    to_the_start_without_a_garden(client, WHERE, "post")
