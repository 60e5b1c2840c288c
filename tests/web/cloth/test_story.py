"""`/cloth/<key>/story/`: from the bed to the cloth, to hand to a buyer or a class."""

from typing import Any

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Piece
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db


def a_told_piece(garden: Garden, **other: Any) -> Piece:
    """Wool that was dyed with the garden's own blue, finished, measured and tried."""
    jar = cast.a_jar_from_the_bed(garden, 12.3)
    vat = cast.a_vat(garden)
    cast.a_vat_addition(vat, mass_g=2.0, taken=cast.taken(jar, 2.0))
    cast.a_vat_addition(vat, "slaked_lime", 4.0)
    done = {"finish": "soaped", "finished_at": cast.moment(0.4), "after_g": 509.0, "after_typed": "509 g"}
    piece = cast.a_piece(garden, **{"name": "Shawl"} | done | other)
    for hours_ago in (3, 2, 1):
        cast.a_dip(piece, vat, hours_ago=hours_ago)
    cast.a_swatch(garden, piece=piece)
    cast.a_home_test(piece)
    return piece


def story(client: Client, piece: Piece) -> Any:
    return client.get(url("cloth.story", key=piece.pk)).context["page"]


def test_it_goes_from_the_bed_to_the_home_tests(client: Client, garden: Garden) -> None:
    page = story(client, a_told_piece(garden))
    assert page.opening == "Wool, 500 g, dyed with the indigo of woad grown at Marl Bank."
    told = {part.title: " ".join(part.lines) for part in page.chapters}
    assert (
        "The leaf grew in Wall bed (woad, sown)." in told["Grown and picked"]
        and "It was picked " in told["Grown and picked"]
    )
    assert "The leaf steeped in water, 1 tub" in told["The blue"] and "it was kept in Jar 9." in told["The blue"]
    assert "by fructose, a sugar, alkaline with slaked lime; no solvent." in told["Dyed"]
    assert (
        "First it was cleaned: warm with soap. In its vat (Vat 9) " in told["Dyed"]
        and "It was dipped 3 times, " in told["Dyed"]
        and "Then it was soaped and rinsed, " in told["Dyed"]
    )
    assert "deep blue, L\u00a034.2" in told["Its colour"].replace("Deep", "deep")
    assert told["Home tests, no laboratory's"] == (
        "Grades run from 5, nothing to be seen, to 1, very much. Rubbed ten times, wet; grade 3-4 by eye; 10 strokes."
    )
    assert "by hand" in told["Care"]
    assert page.invented == "invented"
    assert "check your local rules" in page.label


def test_it_names_nobody(client: Client, garden: Garden) -> None:
    piece = a_told_piece(garden)
    client.post(url("cloth.change", key=piece.pk), {})
    assert "owner" not in " ".join(line for part in story(client, piece).chapters for line in part.lines)


def test_it_says_what_nobody_knows(client: Client, garden: Garden) -> None:
    piece, vat = cast.a_piece(garden), cast.a_made_vat(garden, heel_g=2.0)
    cast.a_dip(piece, vat)
    page = story(client, piece)
    assert page.opening == "Wool, 500 g, dyed with indigo at Marl Bank."
    unknown = " ".join(page.unknown)
    for says in ("bought indigo", "stood in the vat before", "From which bed", "was not measured", "was not tried"):
        assert says in unknown
    told = " ".join(story(client, a_told_piece(garden)).unknown)
    assert "bought indigo" not in told and "laboratory would grade it" in told


def test_a_photo_is_shown_only_where_it_is_chosen(client: Client, garden: Garden, settings: Any, tmp_path: Any) -> None:
    settings.HOME = tmp_path
    piece = a_told_piece(garden)
    photo = cast.a_photo(garden, of=piece, kind="piece")
    strange = cast.a_photo(garden, of=a_told_piece(garden), kind="piece")
    where = url("cloth.story", key=piece.pk)
    assert client.get(where).context["page"].photo == ""
    assert client.get(where, {"photo": str(photo.pk)}).context["page"].photo == str(photo.pk)
    assert client.get(where, {"photo": str(strange.pk)}).context["page"].photo == ""


def test_an_onlooker_may_read_it_and_as_json_it_is_the_same(garden: Garden) -> None:
    where = url("cloth.story", key=a_told_piece(garden).pk)
    assert visitor("onlooker").get(where, {"as": "json"}).json()["patch"]["said"].startswith("deep blue")


def test_longer_stories_need_no_more_statements(client: Client, garden: Garden) -> None:
    piece = a_told_piece(garden)

    def more() -> None:
        vat = cast.a_made_vat(garden)
        cast.a_dip(piece, vat, hours_ago=5)
        cast.a_home_test(piece)

    more()
    flat(client, url("cloth.story", key=piece.pk), lambda: cast.a_home_test(piece))


def test_there_is_none_of_a_wrong_key_or_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_piece(other_garden).pk):
        assert client.get(url("cloth.story", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cloth.story", key=NOBODY))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, url("cloth.story", key=cast.a_piece(garden).pk), "get")
