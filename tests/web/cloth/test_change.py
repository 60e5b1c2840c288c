"""`/cloth/<key>/change/`: what was written of a piece, put right."""

import pytest
from django.test import Client

from bluewright.journal.models import Change, Garden
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url
from tests.web.measuring import measured_cloth

pytestmark = pytest.mark.django_db


def test_it_is_corrected_and_what_it_said_before_is_told(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden, like_key=cast.a_swatch(garden, name="The old shawl").pk)
    where = url("cloth.change", key=piece.pk)
    client.post(where, filled_with(client, where) | {"name": "Hem", "mass": "20 oz", "like": ""})
    piece.refresh_from_db()
    assert (piece.name, piece.mass_typed) == ("Hem", "20 oz")
    (change,) = client.get(url("cloth.show", key=piece.pk)).context["page"].history
    assert "name Piece 9" in change.said and "mass 500 g" in change.said
    assert "whose colour it is to get The old shawl" in change.said


def test_sent_back_as_it_was_nothing_is_changed(client: Client, garden: Garden) -> None:
    known = {"scale_sd_g": 0.05, "like_key": cast.a_swatch(garden).pk}
    piece = cast.a_piece(garden, ground_l_star=84.1, ground_a_star=1.2, ground_b_star=9.6, **known)
    where = url("cloth.change", key=piece.pk)
    assert client.post(where, filled_with(client, where)).status_code == 302
    assert not Change.objects.filter(row_id=piece.pk).exists()


def test_a_measured_photo_of_it_tells_the_undyed_cloth(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    found = measured_cloth(client, garden, of=piece, kind="piece")
    ways = client.get(url("measured.show", key=found.pk)).context["page"].swatches
    (way,) = [one for one in ways if one.said == "It is the undyed cloth"]
    client.post(way.to, filled_with(client, way.to))
    piece.refresh_from_db()
    told = (piece.ground_l_star, piece.ground_a_star, piece.ground_b_star)
    assert told == pytest.approx(found.answer["samples"][0]["lab"], rel=1e-5)


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    where = url("cloth.change", key=cast.a_piece(garden).pk)
    refused(client, where, filled_with(client, where) | {"mass": "-3 g"}, field="mass", says="-3")


def test_there_is_no_piece_of_a_wrong_key_or_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_piece(other_garden).pk):
        assert client.get(url("cloth.change", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cloth.change", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, url("cloth.change", key=cast.a_piece(garden).pk), "get", "post")
