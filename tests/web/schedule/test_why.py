"""`/plan/schedule/why/<figure>/`."""

import pytest
from django.test import Client

from bluewright.journal.bridge import scheduling
from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import only, url

pytestmark = pytest.mark.django_db


def test_the_blue_of_the_schedule_is_explained(client: Client, garden: Garden) -> None:
    cast.a_season(garden)
    scheduling.reckon(garden, by=None, quick=True)
    page = client.get(url("schedule.why", figure="blue_g"))
    assert "Pure blue of the whole plan" in page.content.decode()
    assert client.get(url("schedule.why", figure="nothing")).status_code == 404


def test_before_anything_is_planned_it_leads_back(client: Client, garden: Garden) -> None:
    assert client.get(url("schedule.why", figure="blue_g"))["Location"] == url("schedule.index")
    only(client, url("schedule.why", figure="blue_g"), "get")
