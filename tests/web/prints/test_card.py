"""`/prints/card/<key>/`: how a card is printed, and its PDF."""

import re

import pytest
from django.test import Client

from bluewright.journal.models import Card, Garden
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url
from tests.web.prints.pdf import pages

pytestmark = pytest.mark.django_db


@pytest.fixture
def card(garden: Garden) -> Card:
    return cast.a_card(garden, number=3)


def where(card: Card) -> str:
    return url("prints.card", key=card.pk)


def test_it_says_how_to_print_and_shows_the_card(client: Client, card: Card) -> None:
    response = client.get(where(card))
    page = response.context["page"]
    assert (page.name, page.paper) == ("Card 3", "a4")
    said = response.content.decode()
    assert "100 %" in said
    assert "without brightener" in said
    assert "<svg" in said
    assert page.lines[0] == "Marl Bank (invented)"


def test_the_pdf_is_one_page_on_the_paper_asked_for(client: Client, card: Card) -> None:
    """A5 is 148 by 210 mm: 419.53 by 595.28 points of 1/72 inch; half of Letter 396 by 612."""
    for paper, box in (
        ("a5", rb"419\.5\d* 595\.2\d*"),
        ("us-statement", rb"396 612"),
        ("nonsense", rb"595\.2\d* 841\.8\d*"),
    ):
        response = client.get(where(card), {"as": "pdf", "paper": paper})
        assert response["Content-Disposition"] == 'inline; filename="card-card-3.pdf"'
        assert pages(response.content) == 1
        assert re.search(rb"MediaBox\s*\[0 0 " + box, response.content), paper


def test_the_pdf_is_the_same_bytes_each_time(client: Client, card: Card) -> None:
    first, second = (client.get(where(card), {"as": "pdf"}).content for _ in range(2))
    assert first == second


def test_its_json_twin_is_what_is_typeset(client: Client, card: Card) -> None:
    assert client.get(where(card), {"as": "json"}).json()["number"] == 3


def test_there_is_no_card_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("prints.card", key=NOBODY)).status_code == 404


def test_a_stranger_s_card_is_not_printed(client: Client, other_garden: Garden) -> None:
    assert client.get(where(cast.a_card(other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("prints.card", key=NOBODY))


def test_it_is_only_read(client: Client, card: Card) -> None:
    only(client, where(card), "get")
