"""`/shades/`: what can be asked of dyeing."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/shades/"


def test_pieces_that_wait_and_swatches_of_cloth_can_be_asked_about(client: Client, garden: Garden) -> None:
    piece, swatch = cast.a_piece(garden), cast.a_swatch(garden)
    cast.a_piece(garden, name="done", finished_at=cast.moment(1))
    cast.a_swatch(garden, name="powder", of="pigment")
    page = client.get(WHERE).context["page"]
    assert [(one.name, one.to) for one in page.pieces] == [("Piece 9", url("shades.show", key=piece.pk))]
    assert [(one.name, one.to) for one in page.swatches] == [("Swatch 9", url("shades.match", key=swatch.pk))]


def test_many_rows_take_as_many_statements_as_one(client: Client, garden: Garden) -> None:
    cast.a_piece(garden)
    flat(client, WHERE, lambda: [(cast.a_piece(garden), cast.a_swatch(garden)) for _ in range(3)])


def test_another_s_are_not_in_it(client: Client, other_garden: Garden) -> None:
    cast.a_piece(other_garden)
    assert client.get(WHERE, {"as": "json"}).json() == {"pieces": [], "swatches": []}


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")
    to_the_start_without_a_garden(client, WHERE)
