"""`/gardens/demo/`: open the invented garden."""

import pytest
from django.test import Client

from bluewright.journal import demo
from bluewright.journal.models import Garden, Steep
from tests import small_garden
from tests.cast import a_garden
from tests.web.checks import only, url

pytestmark = pytest.mark.django_db
WHERE = "/gardens/demo/"


@pytest.fixture(autouse=True)
def a_small_season(monkeypatch: pytest.MonkeyPatch) -> None:
    """The season itself is tested where it is made; here a small one does."""
    monkeypatch.setattr(demo, "plant", small_garden.plant)


def test_the_invented_garden_is_filled_in_and_open(client: Client) -> None:
    response = client.post(WHERE)
    assert (response.status_code, response["Location"]) == (302, url("today"))
    made = Garden.objects.get()
    assert made.invented
    assert Steep.objects.filter(garden=made).count() == 2
    assert "(invented)" in client.get(url("beds.index")).content.decode()


def test_asked_for_twice_there_is_one(client: Client) -> None:
    client.post(WHERE)
    client.post(WHERE)
    assert Garden.objects.count() == 1


def test_it_opens_beside_a_garden_of_one_s_own(client: Client) -> None:
    own = a_garden()
    client.post(WHERE)
    shown = client.get(url("beds.index")).context["garden"]
    assert shown != own
    assert shown.invented


def test_it_is_only_posted(client: Client) -> None:
    only(client, WHERE, "post")
    assert not Garden.objects.exists()
