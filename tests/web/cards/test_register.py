"""`/cards/<key>/register/`: a card registered from several photos."""

from functools import cache
from typing import Any

import pytest
from django.test import Client

from bluewright.journal.models import Card, CardRegistration, Garden, Photo
from bluewright.journal.queries import cards
from tests import cast
from tests.photographed import Shot, jpeg_of
from tests.pictures import sent
from tests.web.checks import NOBODY, no_rows, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


@cache
def shade(seed: int, number: int = 1) -> bytes:
    return jpeg_of(Shot(size_px=(750, 1000), number=number), seed=seed)


@pytest.fixture
def card(garden: Garden) -> Card:
    return cast.a_card(garden)


def where(card: Card) -> str:
    return url("cards.register", key=card.pk)


def send(client: Client, card: Card, *photos: bytes) -> Any:
    return client.post(where(card), {"photos": [sent(one, f"{n}.jpg") for n, one in enumerate(photos)]})


def test_photos_that_agree_register_it_and_are_kept(client: Client, card: Card) -> None:
    assert client.get(where(card)).status_code == 200
    response = send(client, card, shade(1), shade(2), shade(3), shade(4, number=2))
    assert (response.status_code, response["Location"]) == (302, url("cards.show", key=card.pk))
    made = CardRegistration.objects.get(card=card)
    assert made.made_by is not None
    assert made.program
    assert [one.left_out for one in cards.registered(made).photos] == [None, None, None, "other_card"]
    assert Photo.objects.filter(about_kind="card", about_id=card.pk).count() == 4
    page = client.get(response["Location"])
    assert [shot.thumb is not None for shot in page.context["page"].shots] == [True] * 4
    assert "1 of 4 photos were left out" in page.content.decode()
    assert url("cards.delete_registration", key=card.pk, row=made.pk) in page.content.decode()


def test_how_it_came_out_is_told_from_its_photos(client: Client, card: Card) -> None:
    send(client, card, shade(1), shade(2), shade(3))
    (found,) = [one for one in cards.cards(card.garden) if one == card]
    points = cards.drift(found)
    assert len(points) == 3
    assert all(0 <= point.mean_de00 < 1 for point in points)
    page = client.get(url("cards.show", key=card.pk))
    assert "Yes: " in page.context["page"].drift
    assert "Does Card 1 still come out as it was registered?" in page.content.decode()


def test_too_few_register_nothing_and_it_is_said_of_each_why(client: Client, card: Card) -> None:
    unchanged = no_rows(CardRegistration, Photo)
    response = send(client, card, shade(1), shade(2), shade(5, number=2))
    assert response.status_code == 422
    said = response.content.decode()
    assert "2 photos count; it takes 3 that agree" in said
    assert "It shows a card of another number" in said
    unchanged()


def test_what_is_no_photo_is_refused(client: Client, card: Card) -> None:
    unchanged = no_rows(CardRegistration, Photo)
    assert send(client, card, b"no photo").status_code == 422
    assert client.post(where(card)).status_code == 422
    unchanged()


def test_there_is_no_card_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("cards.register", key=NOBODY)).status_code == 404


def test_a_stranger_s_card_is_not_registered(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_card(other_garden)
    assert client.get(where(theirs)).status_code == 404
    assert send(client, theirs, shade(1), shade(2), shade(3)).status_code == 404
    assert not CardRegistration.objects.exists()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cards.register", key=NOBODY))


def test_other_methods_are_refused(client: Client, card: Card) -> None:
    only(client, where(card), "get", "post")
