"""`/cards/add/`: a card of the next number, to be printed."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Card, Garden
from tests import cast
from tests.web.checks import no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/cards/add/"


def test_it_gets_the_next_number_and_its_print_is_shown(client: Client, garden: Garden) -> None:
    cast.a_card(garden, number=4)
    response = client.post(WHERE, {"paper": "a5", "note": "inkjet"})
    made = Card.objects.get(number=5)
    assert (response.status_code, response["Location"]) == (302, url("prints.card", key=made.pk))
    assert (made.garden, made.paper, made.note, made.layout) == (garden, "a5", "inkjet", 1)
    assert made.made_by is not None


def test_a_number_is_not_given_twice_though_its_card_was_taken_out(client: Client, garden: Garden) -> None:
    """The sheet may still lie in a drawer, and its corner mark says the number."""
    delete(cast.a_card(garden, number=1), by=None)
    client.post(WHERE, {"paper": "a4"})
    assert Card.objects.get().number == 2


def test_paper_is_offered_as_the_garden_measures(client: Client, garden: Garden) -> None:
    assert client.get(WHERE).context["form"]["paper"].value() == "a4"
    Garden.objects.filter(pk=garden.pk).update(system="us")
    assert client.get(WHERE).context["form"]["paper"].value() == "us-letter"


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    unchanged = no_rows(Card)
    refused(client, WHERE, {"paper": "a3", "note": "ink"}, field="paper", says="not one of")
    unchanged()


def test_after_the_last_number_there_is_no_further_card(client: Client, garden: Garden) -> None:
    cast.a_card(garden, number=199)
    unchanged = no_rows(Card)
    refused(client, WHERE, {"paper": "a4", "note": "ink"}, field=None, says="as many cards")
    unchanged()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE, "post")


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")
