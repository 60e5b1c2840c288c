"""`/cloth/<key>/dips/add/`: a dip that was not timed."""

import pytest
from django.test import Client

from bluewright.journal.models import Dip, Garden
from tests import cast
from tests.web.checks import NOBODY, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_is_kept_and_can_be_undone(client: Client, garden: Garden) -> None:
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    typed = {"vat": str(vat.pk), "began_at": cast.typed(cast.moment(2)), "ended_at": cast.typed(cast.moment(1.5))}
    response = client.post(url("cloth.add_dip", key=piece.pk), typed, follow=True)
    dip = Dip.objects.get()
    assert (dip.piece, dip.vat, dip.began_at, dip.ended_at) == (piece, vat, cast.moment(2), cast.moment(1.5))
    undo = url("cloth.delete_dip", key=piece.pk, row=dip.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


@pytest.mark.parametrize(
    ("began", "ended", "field", "says"),
    [
        (2, 3, "ended_at", "It came out before it went in"),
        (40, 39, "began_at", "Vat 9 did not stand then"),
        (5.01, 4, "began_at", "The piece was in a vat then already"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, began: float, ended: float, field: str, says: str
) -> None:
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    cast.a_dip(piece, vat, hours_ago=5)
    typed = {
        "vat": str(vat.pk), "began_at": cast.typed(cast.moment(began)), "ended_at": cast.typed(cast.moment(ended))
    }  # fmt: skip
    refused(client, url("cloth.add_dip", key=piece.pk), typed, field=field, says=says)
    assert Dip.objects.count() == 1


def test_there_is_no_piece_of_a_wrong_key_or_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_piece(other_garden).pk):
        assert client.get(url("cloth.add_dip", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cloth.add_dip", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, url("cloth.add_dip", key=cast.a_piece(garden).pk), "get", "post")
