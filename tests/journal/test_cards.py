"""Cards in the journal: numbers, which registration counts, and the card of a photo found by itself."""

import json
from typing import Any

import pytest

from bluewright.journal import transfer
from bluewright.journal.actions.keeping import delete
from bluewright.journal.bridge.cards import card_in_photo
from bluewright.journal.models import Card, CardRegistration, Garden
from bluewright.journal.queries import cards
from bluewright.pictures.decoding import picture
from bluewright.science.base.errors import InputError
from tests import cast
from tests.journal.test_transfer import brought, gone, out
from tests.photographed import Shot, jpeg_of

pytestmark = pytest.mark.django_db
PLAIN = Shot(size_px=(750, 1000), number=2)


def test_numbers_go_on_from_the_highest_that_was_ever_given(garden: Garden, other_garden: Garden) -> None:
    assert cards.next_number(garden) == 1
    delete(cast.a_card(garden, number=8), by=None)
    cast.a_card(other_garden, number=50)
    assert cards.next_number(garden) == 9
    cast.a_card(garden, number=199)
    assert cards.next_number(garden) is None


def test_the_card_of_a_photo_is_found_by_its_number_in_its_own_garden(garden: Garden, other_garden: Garden) -> None:
    opened = picture(jpeg_of(PLAIN))
    cast.a_registration(cast.a_card(other_garden, number=2))
    cast.a_card(garden, number=2)
    before = card_in_photo(opened, of=garden)
    assert before is not None
    assert (before.number, before.lying) == (2, None)
    cast.a_registration(Card.objects.get(garden=garden))
    after = card_in_photo(opened, of=garden)
    assert after is not None
    assert after.lying is not None
    assert after.lying.check.mean_de00 < 1.0


def test_a_photo_without_a_card_has_none_and_half_a_card_says_so(garden: Garden) -> None:
    assert card_in_photo(picture(jpeg_of(Shot(size_px=(750, 1000), shift_px=(0.0, 3000.0)))), of=garden) is None
    with pytest.raises(InputError, match="whole card"):
        card_in_photo(picture(jpeg_of(Shot(size_px=(750, 1000), shift_px=(0.0, 300.0)))), of=garden)


def test_a_card_and_what_it_is_registered_as_go_along(garden: Garden) -> None:
    cast.a_registration(cast.a_card(garden, number=3))
    before = out(garden)
    gone(garden)
    again = brought(before)
    assert out(again) == before
    assert cards.of_number(3, of=again) is not None


@pytest.mark.parametrize("spoilt", [{}, {"version": 1}, {"patches": []}, [], "x"])
def test_a_registration_that_is_none_is_refused(garden: Garden, spoilt: Any) -> None:
    cast.a_registration(cast.a_card(garden))
    whole = out(garden)
    whole["card_registrations"][0]["found"] = spoilt
    gone(garden)
    with pytest.raises(InputError, match=r"card_registrations\[0\]\.found"):
        transfer.bring_in(json.dumps(whole), by=None)
    assert not CardRegistration.everything.exists()
