"""`/cloth/<key>/dips/in/`: a tap puts it into a vat, once however often it is sent."""

from datetime import timedelta
from uuid import uuid4

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.models import Dip, Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db
JSON = {"HTTP_ACCEPT": "application/json"}


def test_it_is_in_from_now_on_and_that_can_be_undone(client: Client, garden: Garden) -> None:
    vat, piece, key = cast.a_made_vat(garden), cast.a_piece(garden), uuid4()
    typed = {"dip": str(key), "vat": str(vat.pk)}
    response = client.post(url("cloth.dip_in", key=piece.pk), typed, follow=True)
    dip = Dip.objects.get()
    assert (dip.pk, dip.piece, dip.vat, dip.ended_at) == (key, piece, vat, None)
    assert abs(timezone.now() - dip.began_at) < timedelta(seconds=30)
    (undo,) = [message.extra_tags for message in response.context["messages"]]
    assert undo == url("cloth.delete_dip", key=piece.pk, row=key)
    client.post(url("cloth.dip_in", key=piece.pk), typed)
    assert Dip.everything.count() == 1


def test_a_tap_that_was_kept_counts_from_when_it_was_whatever_the_browser_s_clock_says(
    client: Client, garden: Garden
) -> None:
    """Own hand: sent twenty minutes after the tap, by a clock that is years behind."""
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    sent_ms = 1_000_000_000_000
    typed = {"dip": str(uuid4()), "vat": str(vat.pk), "tapped_ms": sent_ms - 20 * 60_000, "sent_ms": sent_ms}
    said = client.post(url("cloth.dip_in", key=piece.pk), typed, **JSON).json()
    assert said["wrong"] == "" and abs(said["now_ms"] / 1000 - timezone.now().timestamp()) < 30
    ago = timezone.now() - Dip.objects.get().began_at
    assert abs(ago - timedelta(minutes=20)) < timedelta(seconds=30)


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"tapped_ms": "2000", "sent_ms": "1000"}, "was turned"),
        ({"dip": "x"}, "valid UUID"),
        ({"vat": "00000000-0000-4000-8000-000000000000"}, "valid choice"),
        ({"tapped_ms": "0", "sent_ms": str(40 * 3_600_000)}, "Vat 9 did not stand then"),
    ],
)
def test_what_cannot_be_is_refused_in_words(client: Client, garden: Garden, change: dict[str, str], says: str) -> None:
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    typed = {"dip": str(uuid4()), "vat": str(vat.pk)} | change
    response = client.post(url("cloth.dip_in", key=piece.pk), typed, **JSON)
    assert response.status_code == 422 and says in response.json()["wrong"]
    assert says in client.post(url("cloth.dip_in", key=piece.pk), typed, follow=True).content.decode()
    assert not Dip.objects.exists()


def test_it_is_in_one_vat_at_a_time(client: Client, garden: Garden) -> None:
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    cast.a_dip(piece, vat, minutes=None)
    typed = {"dip": str(uuid4()), "vat": str(vat.pk)}
    wrong = client.post(url("cloth.dip_in", key=piece.pk), typed, **JSON).json()["wrong"]
    assert wrong == "The piece was in a vat then already: correct the other dip first."
    assert Dip.objects.count() == 1


def test_from_another_piece_s_timer_it_leads_back_there(client: Client, garden: Garden) -> None:
    vat, piece, other = cast.a_made_vat(garden), cast.a_piece(garden), cast.a_piece(garden)
    typed = {"dip": str(uuid4()), "vat": str(vat.pk), "back": str(piece.pk)}
    assert client.post(url("cloth.dip_in", key=other.pk), typed)["Location"] == url("cloth.dips", key=piece.pk)


def test_another_s_vat_is_none(client: Client, garden: Garden, other_garden: Garden) -> None:
    piece, theirs = cast.a_piece(garden), cast.a_made_vat(other_garden)
    typed = {"dip": str(uuid4()), "vat": str(theirs.pk)}
    assert client.post(url("cloth.dip_in", key=piece.pk), typed, **JSON).status_code == 422


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    posts_only_to_what_is_there(client, "cloth.dip_in", other_garden=other_garden, key=theirs.pk)
