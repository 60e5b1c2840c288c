"""`/cloth/<key>/delete/`: take a piece out."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Piece
from tests import cast
from tests.web.checks import gone_and_back, url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db


def test_it_is_gone_and_can_be_brought_back(client: Client, garden: Garden) -> None:
    row = cast.a_piece(garden)
    gone_and_back(client, row, delete=url("cloth.delete", key=row.pk), restore=url("cloth.restore", key=row.pk))


def test_it_stands_among_what_was_taken_out_and_its_swatch_without_it(client: Client, garden: Garden) -> None:
    row = cast.a_piece(garden, name="Hem")
    swatch = cast.a_swatch(garden, piece=row)
    assert client.get(url("swatches.show", key=swatch.pk)).context["page"].piece == "Hem"
    client.post(url("cloth.delete", key=row.pk))
    assert "Piece Hem, written" in client.get(url("gardens.taken_out")).content.decode()
    assert client.get(url("swatches.show", key=swatch.pk)).context["page"].piece == ""


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    posts_only_to_what_is_there(client, "cloth.delete", other_garden=other_garden, key=theirs.pk)
    assert Piece.objects.filter(pk=theirs.pk).exists()
