"""`/jarlooks/how/jar/`: how to stand jars and light, on one sheet."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests.web.checks import only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db

WHERE = "jarlooks.how_jar"


def test_it_shows_the_picture_and_short_steps(client: Client, garden: Garden) -> None:
    page = client.get(url(WHERE)).context["page"]
    assert page.picture.startswith("<svg")
    assert 4 <= len(page.steps) <= 7
    assert max(map(len, page.steps)) < 110


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url(WHERE))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, url(WHERE), "get")


def test_its_json_twin_says_the_same(client: Client, garden: Garden) -> None:
    page = client.get(url(WHERE)).context["page"]
    assert client.get(url(WHERE), {"as": "json"}).json()["steps"] == list(page.steps)
