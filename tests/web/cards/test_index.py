"""`/cards/`: the printed cards of a garden."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/cards/"


def test_each_card_says_whether_it_is_registered_and_what_it_wants(client: Client, garden: Garden) -> None:
    cast.a_registration(cast.a_card(garden))
    cast.a_card(garden, number=2, paper="us-letter")
    cast.a_registration(cast.a_card(garden, number=3), hours_ago=24 * 366)
    old, bare, fresh = client.get(WHERE).context["page"].cards
    assert (old.name, bare.name, fresh.name) == ("Card 3", "Card 2", "Card 1")
    assert "more than a year ago" in old.advice
    assert (bare.stands, bare.printed.split(" on ")[1]) == ("not registered yet", "US Letter, cut in half")
    assert "register it" in bare.advice
    assert fresh.stands.startswith("registered ")
    assert fresh.advice == ""


def test_a_registration_that_was_taken_out_counts_no_more(client: Client, garden: Garden) -> None:
    made = cast.a_registration(cast.a_card(garden))
    delete(made, by=None)
    assert client.get(WHERE).context["page"].cards[0].stands == "not registered yet"


def test_without_cards_it_says_so_and_how_to_make_one(client: Client, garden: Garden) -> None:
    page = client.get(WHERE).content.decode()
    assert "No card yet" in page
    assert url("cards.add") in page


def test_a_stranger_s_cards_are_not_shown(client: Client, other_garden: Garden) -> None:
    cast.a_card(other_garden)
    assert client.get(WHERE).context["page"].cards == ()


def test_as_json_it_is_the_same(client: Client, garden: Garden) -> None:
    cast.a_card(garden)
    assert client.get(WHERE, {"as": "json"}).json()["cards"][0]["name"] == "Card 1"


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_cards_need_no_more_statements(client: Client, garden: Garden) -> None:
    cast.a_registration(cast.a_card(garden))
    flat(client, WHERE, lambda: [cast.a_registration(cast.a_card(garden, number=n)) for n in (2, 3, 4)])
