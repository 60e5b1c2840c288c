"""`/cloth/<key>/.../restore/`: bring a dip back."""

import pytest
from django.test import Client

from bluewright.journal.models import Dip, Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there, too_late_to_bring_back

pytestmark = pytest.mark.django_db


def test_after_thirty_days_it_is_too_late(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    row = cast.a_dip(piece, cast.a_made_vat(garden))
    keys = {"key": piece.pk, "row": row.pk}
    too_late_to_bring_back(
        client, row, delete=url("cloth.delete_dip", **keys), restore=url("cloth.restore_dip", **keys)
    )  # fmt: skip


def test_not_if_it_was_in_a_vat_then_by_another_dip(client: Client, garden: Garden) -> None:
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    row = cast.a_dip(piece, vat)
    keys = {"key": piece.pk, "row": row.pk}
    client.post(url("cloth.delete_dip", **keys))
    cast.a_dip(piece, vat)
    assert "correct the other dip first" in client.post(url("cloth.restore_dip", **keys), follow=True).content.decode()
    assert not Dip.objects.filter(pk=row.pk).exists()


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    row = cast.a_dip(theirs, cast.a_made_vat(other_garden))
    posts_only_to_what_is_there(client, "cloth.restore_dip", other_garden=other_garden, key=theirs.pk, row=row.pk)
