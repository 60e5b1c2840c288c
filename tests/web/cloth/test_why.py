"""`/cloth/<key>/why/<figure>/`: why a figure of a piece's cost is so."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url
from tests.web.cloth.test_cost import a_dyed_piece

pytestmark = pytest.mark.django_db


def test_a_figure_says_what_it_rests_on(client: Client, garden: Garden) -> None:
    piece = a_dyed_piece(garden)
    response = client.get(url("cloth.why", key=piece.pk, figure="cost_money"))
    assert response.status_code == 200
    assert "share of the vat" in response.content.decode()
    assert client.get(url("cloth.why", key=piece.pk, figure="nonsense")).status_code == 404


def test_without_an_answer_it_leads_back(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    response = client.get(url("cloth.why", key=piece.pk, figure="cost_money"))
    assert response["Location"] == url("cloth.cost", key=piece.pk)


def test_there_is_none_of_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("cloth.why", key=cast.a_piece(other_garden).pk, figure="blue_g")).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cloth.why", key=NOBODY, figure="blue_g"))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, url("cloth.why", key=cast.a_piece(garden).pk, figure="blue_g"), "get")
