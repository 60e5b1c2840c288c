"""`/gardens/`: begin a garden, or open one that there is."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from bluewright.web.ui.context import OPEN_GARDEN
from tests.cast import a_garden
from tests.web.checks import flat, no_rows, only, refused, url

pytestmark = pytest.mark.django_db
WHERE = "/gardens/"
TYPED = {"name": "Hollow", "time_zone": "Europe/London", "hemisphere": "north", "system": "metric"}


def test_a_garden_that_is_begun_is_written_and_open(client: Client) -> None:
    response = client.post(WHERE, TYPED | {"system": "us", "hemisphere": "south"})
    made = Garden.objects.get()
    assert (response.status_code, response["Location"]) == (302, url("today"))
    assert (made.name, made.system, made.hemisphere, made.invented) == ("Hollow", "us", "south", False)
    assert made.made_by is not None
    assert client.session[OPEN_GARDEN] == str(made.pk)


def test_at_first_it_offers_the_invented_garden(client: Client) -> None:
    response = client.get(WHERE)
    assert response.status_code == 200
    assert list(response.context["gardens"]) == []
    assert url("gardens.demo") in response.content.decode()


def test_the_gardens_that_there_are_can_be_opened(client: Client, garden: Garden, other_garden: Garden) -> None:
    page = client.get(WHERE).content.decode()
    assert url("gardens.open", key=garden.pk) in page
    assert url("gardens.open", key=other_garden.pk) in page
    assert "(invented)" in page
    assert url("gardens.demo") not in page


@pytest.mark.parametrize(
    ("field", "text", "says"), [("time_zone", "Mars/Base", "not a time zone"), ("name", "", "required")]
)
def test_a_mistake_keeps_what_was_typed(client: Client, field: str, text: str, says: str) -> None:
    unchanged = no_rows(Garden)
    refused(client, WHERE, TYPED | {field: text}, field=field, says=says)
    unchanged()


def test_nothing_sent_is_a_mistake(client: Client) -> None:
    assert client.post(WHERE, {}).status_code == 422


def test_other_methods_are_refused(client: Client) -> None:
    only(client, WHERE, "get", "post")


def test_more_gardens_need_no_more_statements(client: Client, garden: Garden) -> None:
    flat(client, WHERE, lambda: [a_garden() for _ in range(4)])
