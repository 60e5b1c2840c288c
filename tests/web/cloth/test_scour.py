"""`/cloth/<key>/scour/`: how it was cleaned before the vat."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_it_is_kept_and_the_vat_is_next(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden, scour="", scoured_at=None)
    where = url("cloth.scour", key=piece.pk)
    client.post(where, filled_with(client, where) | {"scour": "soda_soap"})
    piece.refresh_from_db()
    assert piece.scour == "soda_soap" and piece.scoured_at is not None
    assert client.get(url("cloth.show", key=piece.pk)).context["page"].next.what == "dip it"


def test_wool_is_not_told_to_boil(client: Client, garden: Garden) -> None:
    for fibre, says, care in (("wool", "no boiling", "Hot water scalds"), ("linen", "boiled with soda", "goggles")):
        page = client.get(url("cloth.scour", key=cast.a_piece(garden, fibre=fibre).pk)).content.decode()
        assert says in page and care in page
        assert ("Hot soda" in page) == (fibre == "linen")


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    where = url("cloth.scour", key=cast.a_piece(garden).pk)
    refused(client, where, {"scour": "soap", "scoured_at": "2099-01-01T10:00"}, field="scoured_at", says="to come")


def test_there_is_no_piece_of_a_wrong_key_or_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_piece(other_garden).pk):
        assert client.get(url("cloth.scour", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cloth.scour", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, url("cloth.scour", key=cast.a_piece(garden).pk), "get", "post")
