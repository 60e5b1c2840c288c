"""`/cloth/<key>/dips/out/`: a tap takes it out again."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import url
from tests.web.working import posts_only_to_what_is_there

pytestmark = pytest.mark.django_db
JSON = {"HTTP_ACCEPT": "application/json"}


def test_it_is_out_and_the_first_word_counts(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    dip = cast.a_dip(piece, cast.a_made_vat(garden), minutes=None)
    where, typed = url("cloth.dip_out", key=piece.pk), {"dip": str(dip.pk)}
    kept = typed | {"tapped_ms": "0", "sent_ms": str(10 * 60_000)}
    assert client.post(where, kept, **JSON).json()["wrong"] == ""
    dip.refresh_from_db()
    out = dip.ended_at
    assert out is not None and abs(timezone.now() - out - timedelta(minutes=10)) < timedelta(seconds=30)
    client.post(where, typed)
    dip.refresh_from_db()
    assert dip.ended_at == out


def test_it_is_undone_by_putting_it_back_in(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    dip = cast.a_dip(piece, cast.a_made_vat(garden), minutes=None)
    response = client.post(url("cloth.dip_out", key=piece.pk), {"dip": str(dip.pk)}, follow=True)
    undo = url("cloth.back_in", key=piece.pk, row=dip.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


def test_it_does_not_come_out_before_it_went_in(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    dip = cast.a_dip(piece, cast.a_made_vat(garden), minutes=None)
    typed = {"dip": str(dip.pk), "tapped_ms": "0", "sent_ms": str(2 * 3_600_000)}
    response = client.post(url("cloth.dip_out", key=piece.pk), typed, **JSON)
    assert response.json()["wrong"] == "It came out before it went in: give a later moment."


def test_another_piece_s_dip_is_not_found(client: Client, garden: Garden) -> None:
    dip = cast.a_dip(cast.a_piece(garden), cast.a_made_vat(garden), minutes=None)
    where = url("cloth.dip_out", key=cast.a_piece(garden).pk)
    assert client.post(where, {"dip": str(dip.pk)}).status_code == 404


def test_only_posts_to_one_s_own(client: Client, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    posts_only_to_what_is_there(client, "cloth.dip_out", other_garden=other_garden, key=theirs.pk)
