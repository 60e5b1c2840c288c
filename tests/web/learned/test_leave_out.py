"""`/learned/leave-out/`: nothing is learned from a tub, with its reason."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, LeftOut, Steep
from tests import cast
from tests.web.checks import no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/learned/leave-out/"


@pytest.fixture
def done(garden: Garden) -> Steep:
    return cast.a_straining(cast.a_tub(garden)).steep


def test_it_is_written_down_and_told(client: Client, garden: Garden, done: Steep) -> None:
    response = client.post(WHERE, {"tub": str(done.pk), "why": "half of it was spilt"})
    assert (response.status_code, response["Location"]) == (302, url("learned.index"))
    row = LeftOut.objects.get()
    assert (row.garden, row.steep, row.why) == (garden, done, "half of it was spilt")
    (shown,) = client.get(url("learned.index")).context["page"].left_out
    assert shown.said.endswith(": half of it was spilt")


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden, other_garden: Garden, done: Steep) -> None:
    unchanged = no_rows(LeftOut)
    refused(client, WHERE, {"tub": str(done.pk), "why": ""}, field="why", says="required")
    strange = cast.a_straining(cast.a_tub(other_garden)).steep
    refused(client, WHERE, {"tub": str(strange.pk), "why": "not mine"}, field="tub", says="valid choice")
    unchanged()


def test_only_posts(client: Client, garden: Garden) -> None:
    only(client, WHERE, "post")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE, "post")
