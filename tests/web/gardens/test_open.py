"""`/gardens/<key>/open/`: open a garden in this browser."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden
from tests.web.checks import NOBODY, only, url

pytestmark = pytest.mark.django_db


def test_the_garden_is_open_from_then_on(client: Client, other_garden: Garden) -> None:
    response = client.post(url("gardens.open", key=other_garden.pk))
    assert (response.status_code, response["Location"]) == (302, url("today"))
    assert client.get(url("beds.index")).context["garden"] == other_garden


def test_another_browser_has_its_own_garden_open(client: Client, garden: Garden, other_garden: Garden) -> None:
    client.post(url("gardens.open", key=other_garden.pk))
    assert Client().get(url("beds.index")).context["garden"] == garden


def test_there_is_no_garden_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.post(url("gardens.open", key=NOBODY)).status_code == 404


def test_a_garden_that_was_taken_out_cannot_be_opened(client: Client, garden: Garden, other_garden: Garden) -> None:
    delete(other_garden, by=None)
    assert client.post(url("gardens.open", key=other_garden.pk)).status_code == 404


def test_it_is_only_posted(client: Client, garden: Garden) -> None:
    only(client, url("gardens.open", key=garden.pk), "post")
