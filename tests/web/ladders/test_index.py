"""`/ladders/`: all ladders of dips."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Ladder
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/ladders/"


def test_it_says_of_each_fibre_how_much_was_learned(client: Client, garden: Garden, ladder: Ladder) -> None:
    cast.a_done_ladder(garden, name="First")
    cast.a_done_ladder(garden, name="Second")
    page = client.get(WHERE).context["page"]
    assert page.learned == ("Wool: 2 ladders, 8 strips.",)
    assert page.rows[-1].said == "wool, 3 strips with 1, 2, 4 dips" or "1, 2, 4" in page.rows[0].said


def test_an_empty_garden_says_what_a_ladder_is_for(client: Client, garden: Garden) -> None:
    assert "No ladder yet" in client.get(WHERE).content.decode()


def test_many_rows_take_as_many_statements_as_one(client: Client, garden: Garden) -> None:
    cast.a_done_ladder(garden)
    flat(client, WHERE, lambda: [cast.a_done_ladder(garden) for _ in range(3)])


def test_another_s_are_not_in_it(client: Client, theirs: Ladder) -> None:
    assert client.get(WHERE, {"as": "json"}).json()["rows"] == []


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")
    to_the_start_without_a_garden(client, url("ladders.index"))
