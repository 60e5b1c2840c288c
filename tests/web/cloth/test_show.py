"""`/cloth/<key>/`: a piece with its story, its figures, its tests and what is next."""

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.bridge import piece_shade
from bluewright.journal.models import Garden, Piece
from bluewright.journal.queries import pieces
from bluewright.web.pages.cloth.expected import Expected, said
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_its_story_goes_from_the_scour_to_the_swatch(client: Client, garden: Garden) -> None:
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden, wanted_dips=2)
    cast.a_dip(piece, vat, hours_ago=3)
    cast.a_dip(piece, vat, hours_ago=2, minutes=7)
    swatch = cast.a_swatch(garden, piece=piece, name="Corner", measured_at=cast.moment(1))
    page = client.get(url("cloth.show", key=piece.pk)).context["page"]
    assert [event.kind for event in page.story] == ["begun", "scour", "dip", "dip", "swatch"]
    assert page.story[1].said == "scoured: warm with soap"
    assert page.story[3].said.startswith("dip 2 in Vat 9: 7 min, out at ")
    assert page.story[4].page == url("swatches.show", key=swatch.pk)
    assert page.next is not None and page.next.what == "rinse and finish it"
    assert page.next.href == url("cloth.finish", key=piece.pk)


def test_what_it_took_up_says_what_scale_and_weather_leave_of_it(client: Client, garden: Garden) -> None:
    """Own hand: dry 500/1.16 = 431 g, water 4.31 g, scale 0.5 g: sqrt(2) hypot = 6.14 g, 1.645 of it 10.1 g."""
    piece = cast.a_piece(garden, finish="soaped", finished_at=cast.moment(1), after_g=509.0, after_typed="509 g")
    figures = dict(client.get(url("cloth.show", key=piece.pk)).context["page"].figures)
    assert figures["what it took up"] == (
        "9 g (−1.1 to 19): less than scale and weather can tell. "
        "The water in it leaves ±10 g open, the scale ±1.2 g: a finer scale would not help."
    )
    assert figures["bone dry, about"] == "431 g"


def test_one_s_own_scale_and_a_usual_one_say_what_they_leave_open(client: Client, garden: Garden) -> None:
    """Own hand: bone dry, 0.1 g twice: 1.645 sqrt(2) 0.1 = 0.233 g; a usual one of 0.5 g: 1.163 g."""
    dry = {"basis": "dry", "finish": "soaped", "finished_at": cast.moment(1), "after_g": 509.0, "after_typed": "509 g"}
    said = [
        dict(client.get(url("cloth.show", key=cast.a_piece(garden, scale_sd_g=sd, **dry).pk)).context["page"].figures)
        for sd in (0.1, None)
    ]
    own, usual = (one["what it took up"] for one in said)
    assert own.endswith("The scale leaves ±0.23 g of it open, the water in it ±0 g.")
    assert usual.endswith("A usual kitchen scale leaves ±1.2 g of it open: say what yours tells apart.")


def likely(piece: Piece) -> tuple[piece_shade.PieceShade, Expected]:
    row = pieces.piece(piece.pk, of=piece.garden)
    found = piece_shade.reckon(row, now=timezone.now())
    return found, said(row, found)


def test_it_says_what_it_is_likely_to_come_to_and_how_far_to_its_swatch(client: Client, garden: Garden) -> None:
    """A made vat of about 0.5 g/L: wool darkens dip by dip; its swatch is the middle that is told of three dips."""
    piece = cast.a_piece(garden, mass_g=50.0, mass_typed="50 g")
    cast.a_dip(piece, cast.a_made_vat(garden))
    three = next(step for step in likely(piece)[0].answer.steps if step.dips == 3)
    aim = {"l_star": three.l_star.p50, "a_star": three.a_star.p50, "b_star": three.b_star.p50}
    Piece.objects.update(like_key=cast.a_swatch(garden, name="The old shawl", **aim).pk)
    told = likely(piece)[1]
    assert told.first.startswith("Finished after the 1 dip that it has had in Vat 9: ")
    assert "The next dip takes it to L*" in told.first
    assert told.lines[0].startswith("To The old shawl: 2 more dips, then ")
    assert told.lines[1] == "It rests on guesses from literature: of wool you have no ladder of dips yet."
    Piece.objects.update(like_key=None, finished_at=cast.moment(0.1), finish="soaped")
    cast.a_swatch(garden, piece=piece, l_star=99.0)
    told = likely(piece)[1]
    assert told.first.startswith("By its one dip in Vat 9 it was likely to come to ")
    assert told.lines[0] == "Measured: L* 99, paler than that."


def test_while_it_is_reckoned_without_a_vat_and_in_one_that_is_too_small_it_says_so(
    client: Client, garden: Garden
) -> None:
    piece = cast.a_piece(garden, mass_g=50_000.0, mass_typed="50 kg")
    where = url("cloth.show", key=piece.pk)
    assert client.get(where).context["page"].expected is None
    cast.a_made_vat(garden)
    assert "look again in a moment" in client.get(where).context["page"].expected.first
    told = likely(piece)[1]
    assert told.first == "How deep it gets cannot be said." and "too little for 50 kg" in told.lines[0]


def test_home_tests_are_always_called_so(client: Client, garden: Garden) -> None:
    piece = cast.a_piece(garden)
    cast.a_home_test(piece)
    cast.a_home_test(piece, kind="stain", grade=4.2, grade_sd=0.2, off_de=3.1, measured_key=NOBODY)
    response = client.get(url("cloth.show", key=piece.pk))
    by_eye, by_photo = sorted(test.said for test in response.context["page"].tests)
    assert by_eye == "rubbed ten times, wet; grade 3-4 by eye; 10 strokes"
    assert by_photo == "washed, the white cloth beside it; grade 4 (4 to 4-5) by photo, CIEDE2000 3.1; 10 strokes"
    assert "Home tests, no laboratory" in response.content.decode()


def test_as_json_it_is_the_same(client: Client, garden: Garden) -> None:
    where = url("cloth.show", key=cast.a_piece(garden).pk)
    assert client.get(where, {"as": "json"}).json()["row"]["facts"] == "wool, 500 g; 0 dips"


def test_more_dips_and_tests_need_no_more_statements(client: Client, garden: Garden) -> None:
    vat, piece = cast.a_vat(garden), cast.a_piece(garden)

    def more(hours_ago: float) -> None:
        cast.a_dip(piece, vat, hours_ago=hours_ago)
        cast.a_home_test(piece)
        cast.a_swatch(garden, piece=piece)

    more(9)
    flat(client, url("cloth.show", key=piece.pk), lambda: [more(hours) for hours in (7, 5)])


def test_there_is_no_piece_of_a_wrong_key_or_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_piece(other_garden).pk):
        assert client.get(url("cloth.show", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cloth.show", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, url("cloth.show", key=cast.a_piece(garden).pk), "get")
