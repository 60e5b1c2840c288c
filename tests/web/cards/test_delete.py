"""`/cards/<key>/delete/`: take a card out."""

import pytest
from django.test import Client

from bluewright.journal.models import Card, Garden
from tests import cast
from tests.web.checks import gone_and_back, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_is_gone_and_can_be_brought_back(client: Client, garden: Garden) -> None:
    card = cast.a_card(garden)
    gone_and_back(client, card, delete=url("cards.delete", key=card.pk), restore=url("cards.restore", key=card.pk))


def test_it_stands_among_what_was_taken_out(client: Client, garden: Garden) -> None:
    client.post(url("cards.delete", key=cast.a_card(garden, number=7).pk))
    assert "Card 7 for photos" in client.get(url("gardens.taken_out")).content.decode()


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_card(other_garden)
    posts_only_to_what_is_there(client, "cards.delete", other_garden=other_garden, key=theirs.pk)
    assert Card.objects.filter(pk=theirs.pk).exists()
