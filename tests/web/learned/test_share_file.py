"""`/learned/share/file/`: what is given away, as a file to keep."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from bluewright.journal.queries import learned as queries
from tests import cast
from tests.web.checks import only, to_the_start_without_a_garden

pytestmark = pytest.mark.django_db
WHERE = "/learned/share/file/"


def test_it_is_kept_as_a_file(client: Client, garden: Garden) -> None:
    file = client.get(WHERE)
    assert file["Content-Disposition"].startswith("attachment")
    assert set(file.json()) == {"version", "messages", "batches"}


def test_before_anything_was_learned_there_is_none(client: Client, garden: Garden) -> None:
    for steep in queries.strained(garden):
        cast.left_out(steep)
    assert client.get(WHERE).status_code == 404


def test_only_reading(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_without_a_garden_it_leads_to_the_start(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)
