"""`/cloth/<key>/.../delete/`: take a home test out."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, taken_out_and_back

pytestmark = pytest.mark.django_db


def test_it_is_taken_out_and_comes_back(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    row = cast.a_home_test(piece)
    keys = {"key": piece.pk, "row": row.pk}
    taken_out_and_back(
        client, row, delete=url("cloth.delete_test", **keys), restore=url("cloth.restore_test", **keys),
        back_to=url("cloth.show", key=piece.pk),
    )  # fmt: skip


def test_it_stands_among_what_was_taken_out(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden, name="Hem")
    row = cast.a_home_test(piece)
    client.post(url("cloth.delete_test", key=piece.pk, row=row.pk))
    assert "Home test of Hem" in client.get(url("gardens.taken_out")).content.decode()


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    row = cast.a_home_test(theirs)
    posts_only_to_what_is_there(client, "cloth.delete_test", other_garden=other_garden, key=theirs.pk, row=row.pk)
