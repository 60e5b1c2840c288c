"""`/cards/<key>/restore/`: bring a card back."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Card, Garden
from tests import cast
from tests.web.checks import too_late, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_stands_again_with_its_registration(client: Client, garden: Garden) -> None:
    card = cast.a_card(garden)
    cast.a_registration(card)
    delete(card, by=None)
    response = client.post(url("cards.restore", key=card.pk))
    assert (response.status_code, response["Location"]) == (302, url("cards.show", key=card.pk))
    assert len(client.get(response["Location"]).context["page"].swatches) == 18


def test_after_thirty_days_it_stays_out_and_the_page_says_so(client: Client, garden: Garden) -> None:
    card = cast.a_card(garden)
    too_late(client, card, url("cards.restore", key=card.pk))


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_card(other_garden)
    delete(theirs, by=None)
    posts_only_to_what_is_there(client, "cards.restore", other_garden=other_garden, key=theirs.pk)
    assert not Card.objects.filter(pk=theirs.pk).exists()
