"""`/cloth/<key>/tests/add/`: a home test, by eye or by photo."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, HomeTest, Measured
from tests import cast
from tests.known_photos import CLOTH, WHITE, text
from tests.web.checks import NOBODY, filled_with, only, refused, to_the_start_without_a_garden, url
from tests.web.measuring import a_cloth_photo, cloth_typed

pytestmark = pytest.mark.django_db


def test_a_grade_by_eye_is_kept_with_how_far_eyes_differ(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    where = url("cloth.test", key=piece.pk)
    response = client.post(where, filled_with(client, where) | {"kind": "wet_rub", "grade": "3.5"}, follow=True)
    row = HomeTest.objects.get()
    assert (row.piece, row.kind, row.grade, row.grade_sd, row.measured_key) == (piece, "wet_rub", 3.5, 0.5, None)
    undo = url("cloth.delete_test", key=piece.pk, row=row.pk)
    assert [message.extra_tags for message in response.context["messages"]] == [undo]


def test_two_samples_of_one_photo_tell_a_grade(client: Client, garden: Garden) -> None:
    """White paper beside deep blue cloth is as stained as can be: grade 1; and as changed."""
    piece = cast.a_piece(garden)
    photo = a_cloth_photo(garden, of=piece, kind="piece")
    left, top, wide, high = WHITE
    halves = ((left, top, wide // 2 - 10, high), (left + wide // 2, top, wide // 2, high))
    both = "\n".join((text(halves[0]), text(CLOTH)))
    client.post(url("measured.draw", photo=photo.pk), cloth_typed(samples=both, white=text(halves[1])))
    found = Measured.objects.get()
    ways = client.get(url("measured.show", key=found.pk)).context["page"].swatches
    (way,) = [one for one in ways if one.said == "Grade a home test by it"]
    client.post(way.to, filled_with(client, way.to) | {"kind": "stain"})
    row = HomeTest.objects.get()
    assert (row.grade, row.measured_key) == (1.0, found.pk)
    assert row.off_de is not None and row.off_de > 40
    typed = filled_with(client, way.to)
    refused(client, way.to, typed | {"tried": "0"}, field="tried", says="the same sample")
    refused(client, way.to, typed | {"unused": "1", "tried": "0"}, field="unused", says="is not white")


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    where = url("cloth.test", key=cast.a_piece(garden).pk)
    typed = filled_with(client, where) | {"done_at": "2099-01-01T10:00", "grade": "3"}
    refused(client, where, typed, field="done_at", says="still to come")


def test_there_is_no_piece_of_a_wrong_key_or_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_piece(other_garden).pk):
        assert client.get(url("cloth.test", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cloth.test", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, url("cloth.test", key=cast.a_piece(garden).pk), "get", "post")
