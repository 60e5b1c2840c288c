"""`/learned/others/take-in/`: other gardens' files, once looked at, become what the memory begins from."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, OthersTaught
from bluewright.web.pages.learned.forms import sealed
from tests import cast
from tests.web.checks import no_rows, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/learned/others/take-in/"


def looked_at(garden: Garden) -> str:
    told = {"version": 1, "gardens": 2, "beliefs": [cast.GIVEN]}
    return sealed(OthersTaught(garden=garden, name="the valley", gardens=2, told=told))


def test_what_was_looked_at_is_taken_in(client: Client, garden: Garden) -> None:
    response = client.post(WHERE, {"sealed": looked_at(garden)})
    assert (response.status_code, response["Location"]) == (302, url("learned.others"))
    row = OthersTaught.objects.get()
    assert (row.garden, row.name, row.gardens) == (garden, "the valley", 2)
    assert row.prior.beliefs[0].push == (-4.0, 0.2)


def test_nothing_else_is(client: Client, garden: Garden, other_garden: Garden) -> None:
    unchanged = no_rows(OthersTaught)
    for text in ("", looked_at(garden)[:-1], looked_at(other_garden)):
        response = client.post(WHERE, {"sealed": text})
        assert response.status_code == 422
        assert "Choose the files again" in response.content.decode()
    unchanged()


def test_only_posts(client: Client, garden: Garden) -> None:
    only(client, WHERE, "post")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE, "post")
