"""`/cloth/<key>/dips/<row>/change/`: its times and its vat, put right."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_its_times_are_corrected_and_what_they_were_is_told(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    dip = cast.a_dip(piece, cast.a_made_vat(garden), hours_ago=2)
    where = url("cloth.change_dip", key=piece.pk, row=dip.pk)
    client.post(where, filled_with(client, where) | {"ended_at": cast.typed(cast.moment(1))})
    dip.refresh_from_db()
    assert dip.ended_at == cast.moment(1)
    (told,) = [one for one in client.get(url("cloth.show", key=piece.pk)).context["page"].story if one.kind == "dip"]
    assert len(told.history) == 1


def test_sent_back_as_it_was_nothing_is_changed(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    dip = cast.a_dip(piece, cast.a_made_vat(garden), hours_ago=2.001)
    where = url("cloth.change_dip", key=piece.pk, row=dip.pk)
    assert client.post(where, filled_with(client, where)).status_code == 302
    assert not Change.objects.filter(row_id=dip.pk).exists()


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    dip = cast.a_dip(piece, cast.a_made_vat(garden), hours_ago=2)
    where = url("cloth.change_dip", key=piece.pk, row=dip.pk)
    typed = filled_with(client, where) | {"ended_at": cast.typed(cast.moment(3))}
    refused(client, where, typed, field="ended_at", says="It came out before it went in")


def test_there_is_no_dip_of_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    dip = cast.a_dip(theirs, cast.a_made_vat(other_garden))
    for key in (theirs.pk, cast.a_piece(garden).pk, NOBODY):
        assert client.get(url("cloth.change_dip", key=key, row=dip.pk)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cloth.change_dip", key=NOBODY, row=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    dip = cast.a_dip(piece, cast.a_made_vat(garden))
    only(client, url("cloth.change_dip", key=piece.pk, row=dip.pk), "get", "post")
