"""`/cloth/<key>/tests/<row>/change/`: a home test, put right."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_a_grade_typed_anew_is_no_longer_the_photo_s(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    row = cast.a_home_test(piece, grade=4.2, grade_sd=0.2, off_de=3.1, measured_key=NOBODY)
    where = url("cloth.change_test", key=piece.pk, row=row.pk)
    client.post(where, filled_with(client, where) | {"how": "20 strokes"})
    row.refresh_from_db()
    assert (row.grade, row.measured_key, row.how) == (4.2, NOBODY, "20 strokes")
    client.post(where, filled_with(client, where) | {"grade": "4"})
    row.refresh_from_db()
    assert (row.grade, row.grade_sd, row.off_de, row.measured_key) == (4.0, 0.5, None, None)


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    where = url("cloth.change_test", key=piece.pk, row=cast.a_home_test(piece).pk)
    refused(client, where, filled_with(client, where) | {"grade": "9"}, field="grade", says="not one of")


def test_there_is_no_test_of_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    theirs = cast.a_piece(other_garden)
    row = cast.a_home_test(theirs)
    for key in (theirs.pk, cast.a_piece(garden).pk, NOBODY):
        assert client.get(url("cloth.change_test", key=key, row=row.pk)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cloth.change_test", key=NOBODY, row=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    only(client, url("cloth.change_test", key=piece.pk, row=cast.a_home_test(piece).pk), "get", "post")
