"""`/cloth/<key>/dips/`: the dip timer."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db


def test_before_its_first_dip_it_can_go_into_each_vat_that_stands(client: Client, garden: Garden) -> None:
    cast.a_vat(garden, name="Gone", ended_at=cast.moment(1))
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    page = client.get(url("cloth.dips", key=piece.pk)).context["page"]
    assert [(one.key, one.chosen) for one in page.vats] == [(str(vat.pk), True)]
    assert (page.timer.clock.dip, page.timer.clock.began_ms, page.timer.clock.out_ms) == ("", None, None)
    assert page.timer.said == "It has not been in a vat yet."
    assert (page.timer.clock.dip_s, page.timer.clock.air_s) == (300.0, 900.0)


def test_in_the_vat_it_says_since_when_and_until_when(client: Client, garden: Garden) -> None:
    """Own hand: in an hour ago, five minutes wanted: out 55 minutes ago."""
    piece = cast.a_piece(garden)
    dip = cast.a_dip(piece, cast.a_made_vat(garden), minutes=None)
    page = client.get(url("cloth.dips", key=piece.pk)).context["page"]
    assert (page.timer.clock.dip, page.timer.vat) == (str(dip.pk), "Vat 9")
    assert page.timer.clock.began_ms == round(1000 * dip.began_at.timestamp())
    assert "it was to come out at" in page.timer.said
    assert page.timer.clock.known == (str(dip.pk),)


def test_in_the_air_it_says_from_when_on_it_may_go_in_again(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden, air_min=90, wanted_dips=2)
    vat = cast.a_made_vat(garden)
    dip = cast.a_dip(piece, vat)
    page = client.get(url("cloth.dips", key=piece.pk)).context["page"]
    assert "next dip from" in page.timer.said and not page.done
    assert page.timer.clock.out_ms == round(1000 * dip.ended_at.timestamp()) and page.timer.clock.done == 1
    assert page.timer.clock.known == (f"{dip.pk}:out",)
    cast.a_dip(piece, vat, hours_ago=0.5)
    page = client.get(url("cloth.dips", key=piece.pk)).context["page"]
    assert page.done and "finish it from" in page.timer.said


def test_pieces_of_one_vat_stand_beside_each_other(client: Client, garden: Garden) -> None:
    vat, piece, other = cast.a_made_vat(garden), cast.a_piece(garden), cast.a_piece(garden, name="Other")
    cast.a_dip(piece, vat)
    dip = cast.a_dip(other, vat, minutes=None)
    cast.a_dip(cast.a_piece(garden, name="Done", finished_at=cast.moment(0.1), finish="soaped"), vat)
    page = client.get(url("cloth.dips", key=piece.pk)).context["page"]
    assert [(one.name, one.clock.dip) for one in page.others] == [("Other", str(dip.pk))]


def test_an_onlooker_sees_it_without_its_buttons(garden: Garden) -> None:
    piece = cast.a_piece(garden)
    cast.a_dip(piece, cast.a_made_vat(garden), minutes=None)
    page = visitor("onlooker").get(url("cloth.dips", key=piece.pk)).content.decode()
    assert "In Vat 9 since" in page and "tap out" not in page and "dips.js" not in page


def test_as_json_it_is_the_same(client: Client, garden: Garden) -> None:
    where = url("cloth.dips", key=cast.a_piece(garden).pk)
    assert client.get(where, {"as": "json"}).json()["timer"]["clock"]["done"] == 0


def test_more_pieces_and_dips_need_no_more_statements(client: Client, garden: Garden) -> None:
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    cast.a_dip(piece, vat)
    cast.a_dip(cast.a_piece(garden), vat)
    flat(client, url("cloth.dips", key=piece.pk), lambda: [cast.a_dip(cast.a_piece(garden), vat) for _ in range(2)])


def test_there_is_no_piece_of_a_wrong_key_or_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_piece(other_garden).pk):
        assert client.get(url("cloth.dips", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cloth.dips", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, url("cloth.dips", key=cast.a_piece(garden).pk), "get")
