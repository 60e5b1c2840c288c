"""`/cloth/<key>/finish/`: how it was finished, and what it weighs then."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_is_kept_and_the_mass_can_come_later(client: Client, garden: Garden) -> None:
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    cast.a_dip(piece, vat, hours_ago=5)
    where = url("cloth.finish", key=piece.pk)
    response = client.post(where, filled_with(client, where), follow=True)
    piece.refresh_from_db()
    assert (piece.finish, piece.after_g) == ("soaped", None)
    assert url("cloth.unfinish", key=piece.pk) in [message.extra_tags for message in response.context["messages"]]
    assert response.context["page"].next.what == "weigh it"
    client.post(where, filled_with(client, where) | {"after": "509 g"})
    piece.refresh_from_db()
    assert (piece.after_g, piece.after_typed) == (509.0, "509 g")


@pytest.mark.parametrize(
    ("change", "field", "says"),
    [
        ({"after": "50 g"}, "after", "It weighed 500 g before the vat: 50 g cannot be."),
        ({"finished_at": "2099-01-01T10:00"}, "finished_at", "still to come"),
        ({"finished_at": cast.typed(cast.moment(9))}, "finished_at", "before its last dip was over"),
    ],
)
def test_a_mistake_keeps_what_was_typed(
    client: Client, garden: Garden, change: dict[str, str], field: str, says: str
) -> None:
    piece = cast.a_piece(garden)
    cast.a_dip(piece, cast.a_made_vat(garden), hours_ago=5)
    where = url("cloth.finish", key=piece.pk)
    refused(client, where, filled_with(client, where) | change, field=field, says=says)


def test_what_is_in_the_vat_comes_out_first(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    cast.a_dip(piece, cast.a_made_vat(garden), minutes=None)
    assert client.get(url("cloth.finish", key=piece.pk))["Location"] == url("cloth.dips", key=piece.pk)


def test_there_is_no_piece_of_a_wrong_key_or_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_piece(other_garden).pk):
        assert client.get(url("cloth.finish", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cloth.finish", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, url("cloth.finish", key=cast.a_piece(garden).pk), "get", "post")
