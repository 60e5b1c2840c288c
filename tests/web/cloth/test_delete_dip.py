"""`/cloth/<key>/.../delete/`: take a dip out."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    row = cast.a_dip(piece, cast.a_made_vat(garden))
    keys = {"key": piece.pk, "row": row.pk}
    taken_out_and_back(
        client, row, delete=url("cloth.delete_dip", **keys), restore=url("cloth.restore_dip", **keys),
        back_to=url("cloth.dips", key=piece.pk),
    )  # fmt: skip


def test_it_stands_among_what_was_taken_out(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden, name="Hem")
    row = cast.a_dip(piece, cast.a_made_vat(garden))
    client.post(url("cloth.delete_dip", key=piece.pk, row=row.pk))
    assert "Dip of Hem" in client.get(url("gardens.taken_out")).content.decode()


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    row = cast.a_dip(theirs, cast.a_made_vat(other_garden))
    posts_only_to_what_is_there(client, "cloth.delete_dip", other_garden=other_garden, key=theirs.pk, row=row.pk)
