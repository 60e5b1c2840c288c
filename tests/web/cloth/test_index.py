"""`/cloth/`: all pieces, each with its colour and what is next."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/cloth/"


def test_each_piece_has_its_colour_in_words_and_says_what_is_next(client: Client, garden: Garden) -> None:
    """#305375 by coloraide, another library."""
    vat = cast.a_made_vat(garden)
    raw = cast.a_piece(garden, name="Raw", scour="", scoured_at=None)
    dyed = cast.a_piece(garden, name="Dyed", wanted_dips=3, begun_at=cast.moment(40))
    cast.a_dip(dyed, vat)
    cast.a_swatch(garden, piece=dyed)
    page = client.get(WHERE).context["page"]
    told = {row.name: row for row in page.pieces}
    assert [row.key for row in page.pieces] == [str(raw.pk), str(dyed.pk)]
    assert (told["Raw"].facts, told["Raw"].patch.said, told["Raw"].next) == (
        "wool, 500 g; 0 dips", "not measured", "scour it",
    )  # fmt: skip
    assert (told["Dyed"].facts, told["Dyed"].patch.colour) == ("wool, 500 g; 1 of 3 dips", "#305375")
    assert told["Dyed"].next == "dip it again"


def test_empty_it_says_what_to_do(client: Client, garden: Garden) -> None:
    page = client.get(WHERE).content.decode()
    assert "No piece yet" in page and url("cloth.add") in page


def test_another_s_are_not_shown_and_as_json_it_is_the_same(
    client: Client, garden: Garden, other_garden: Garden
) -> None:
    cast.a_piece(other_garden)
    assert client.get(WHERE, {"as": "json"}).json()["pieces"] == []


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_pieces_need_no_more_statements(client: Client, garden: Garden) -> None:
    vat = cast.a_vat(garden)

    def a_dyed_piece() -> None:
        piece = cast.a_piece(garden)
        cast.a_dip(piece, vat, hours_ago=3)
        cast.a_dip(piece, vat)
        cast.a_swatch(garden, piece=piece)
        cast.a_home_test(piece)

    a_dyed_piece()
    flat(client, WHERE, lambda: [a_dyed_piece() for _ in range(2)])
