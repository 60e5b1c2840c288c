"""`/cards/<key>/`: one card, what it was registered as, and how it has come out."""

from pathlib import Path
from typing import Any

import numpy as np
import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Card, Garden, Measured, Steep
from bluewright.journal.queries import cards
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.spaces import lab_of_linear
from bluewright.science.photo.card import PATCHES
from bluewright.web.pages.cards.page import hex_of_lab
from tests import cast
from tests.photographed import SAMPLE, Shot, jpeg_of
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.measuring import kept_photo

pytestmark = pytest.mark.django_db


@pytest.fixture
def card(garden: Garden) -> Card:
    return cast.a_card(garden, note="inkjet")


def where(card: Card) -> str:
    return url("cards.show", key=card.pk)


def test_before_it_is_registered_it_shows_its_inks_and_says_what_to_do(client: Client, card: Card) -> None:
    response = client.get(where(card))
    page = response.context["page"]
    assert (page.swatches, page.shots, page.drift) == ((), (), "")
    assert "three photos" in page.row.advice
    assert all(patch.ink in page.drawing for patch in PATCHES)
    assert url("cards.register", key=card.pk) in response.content.decode()


def test_each_patch_is_told_by_word_and_number_beside_its_colour(client: Client, card: Card) -> None:
    """Spread by own hand: the root of 0.4^2 + 0.2^2 + 0.3^2 is 0.54."""
    made = cast.a_registration(card)
    page = client.get(where(card)).context["page"]
    assert len(page.swatches) == 18
    pale = page.swatches[1]
    lab = made.found["patches"][1]["lab"]
    assert (pale.name, pale.colour) == ("pale blue", hex_of_lab(tuple(lab)))
    assert pale.said == f"L* {lab[0]:.1f}, a* {lab[1]:.1f}, b* {lab[2]:.1f}, give or take 0.5"
    assert pale.colour in page.drawing


def test_a_colour_as_a_screen_shows_it() -> None:
    """sRGB's own white and the grey of code 119, which has L* 50.0 (IEC 61966-2-1 and CIE 15, own hand)."""
    assert hex_of_lab((100.0, 0.0, 0.0)) == "#ffffff"
    assert hex_of_lab((50.03, 0.0, 0.0)) == "#777777"


def test_photo_by_photo_it_says_what_counted_and_what_did_not(client: Client, card: Card) -> None:
    cast.a_registration(card)
    shots = client.get(where(card)).context["page"].shots
    assert [shot.counts for shot in shots] == [True, True, False, True]
    assert "Light is uneven" in shots[2].said
    assert "0.4 from the middle" in shots[0].said


def test_the_latest_registration_that_stands_counts(client: Client, card: Card) -> None:
    first = cast.a_registration(card, hours_ago=1000)
    second = cast.a_registration(card, spread_de00=0.9)
    page = client.get(where(card)).context["page"]
    assert [one.counts for one in page.registrations] == [True, False]
    assert "0.9" in page.spread
    delete(second, by=None)
    page = client.get(where(card)).context["page"]
    assert [one.key for one in page.registrations] == [str(first.pk)]
    assert "0.6" in page.spread


def test_a_photo_that_is_measured_with_it_is_a_point_of_its_drift(
    client: Client, card: Card, steeping: Steep, tmp_path: Path, settings: Any
) -> None:
    """The card is found by itself in a photo of a tub, its window is marked, and it comes out as it is registered."""
    settings.HOME = tmp_path
    cast.a_registration(card)
    assert len(cards.drift(one(card))) == 3
    photo = kept_photo(card.garden, jpeg_of(Shot(size_px=(750, 1000), number=1)), of=steeping, kind="tub")
    where_to_draw = url("measured.draw", photo=photo.pk)
    form = client.get(where_to_draw).context["form"]
    response = client.post(where_to_draw, {"samples": form["samples"].value(), "light": "daylight", "name": "Vat blue"})
    assert response.status_code == 302
    row = Measured.objects.get(photo=photo)
    assert row.card == card
    assert row.answer["trust"] == "same_card"
    assert ciede2000(np.array(row.answer["samples"][0]["lab"]), lab_of_linear(SAMPLE)) < 1.5
    assert row.card_off_de00 is not None
    assert row.card_off_de00 < 0.7
    assert len(cards.drift(one(card))) == 4
    delete(row, by=None)
    assert len(cards.drift(one(card))) == 3


def one(card: Card) -> Card:
    found = cards.card(card.pk, of=card.garden)
    assert found is not None
    return found


def test_as_json_it_is_the_same(client: Client, card: Card) -> None:
    assert client.get(where(card), {"as": "json"}).json()["row"]["name"] == "Card 1"


def test_there_is_no_card_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("cards.show", key=NOBODY)).status_code == 404


def test_a_stranger_s_card_is_not_shown(client: Client, other_garden: Garden) -> None:
    assert client.get(where(cast.a_card(other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cards.show", key=NOBODY))


def test_it_is_only_read(client: Client, card: Card) -> None:
    only(client, where(card), "get")


def test_more_registrations_need_no_more_statements(client: Client, card: Card) -> None:
    cast.a_registration(card)
    flat(client, where(card), lambda: [cast.a_registration(card, hours_ago=n) for n in (30, 40, 50)])
