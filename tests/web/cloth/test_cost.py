"""`/cloth/<key>/cost/`: what a piece costs."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden, Piece
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def a_dyed_piece(garden: Garden) -> Piece:
    """Wool of half a kilogram, twice in a vat of 40 L with 60 g of bought powder; a clock ran for an hour."""
    garden.wage_money_per_h, garden.currency = 12.0, "EUR"
    garden.save()
    cast.an_alkali(garden, name="Lime", kind="slaked_lime", mol_per_l=None, pack_amount=1000.0, pack_money=4.0)
    piece, vat = cast.a_piece(garden), cast.a_made_vat(garden)
    for hours_ago in (2, 1):
        cast.a_dip(piece, vat, hours_ago=hours_ago)
    cast.a_work_note(garden, 60.0, piece=piece)
    return piece


def test_it_tells_blue_vat_and_hours_and_names_what_has_no_price(client: Client, garden: Garden) -> None:
    """Own hand: an hour at 12; 120 g of lime at 4 a kilogram are 0.48, of which it bears a share below one."""
    piece = a_dyed_piece(garden)
    page = client.get(url("cloth.cost", key=piece.pk)).context["page"]
    assert page.answer.first.startswith("It costs 12 EUR (")
    parts = {row[0]: row[1] for _advised, row in page.answer.tables[0].rows}
    assert set(parts) == {"work on it", "its share of reductant and alkali"}
    assert any("'blue of Vat 9', 'fructose'" in text for text in page.answer.to_know)
    assert page.answer.why.to == url("cloth.why", key=piece.pk, figure="cost_money")


def test_before_its_first_dip_it_says_so(client: Client, garden: Garden) -> None:
    page = client.get(url("cloth.cost", key=cast.a_piece(garden).pk)).context["page"]
    assert (page.answer, page.trouble) == (None, "It has not been in a vat yet.")


def test_its_blue_has_the_price_of_the_batches_in_the_vat(client: Client, garden: Garden) -> None:
    piece = a_dyed_piece(garden)
    jar = cast.a_jar_from_the_bed(garden, 12.3, purity_frac=0.35, purity_sd_frac=0.04)
    vat = cast.a_vat(garden, name="Own")
    cast.a_vat_addition(vat, mass_g=10.0, taken=cast.taken(jar, 10.0))
    cast.a_vat_addition(vat, "slaked_lime", 20.0)
    cast.a_vat_addition(vat, "fructose", 30.0)
    cast.a_dip(piece, vat, hours_ago=0.5)
    page = client.get(url("cloth.cost", key=piece.pk)).context["page"]
    assert "the blue" in {row[0] for _advised, row in page.answer.tables[0].rows}


def test_there_is_none_of_a_wrong_key_or_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_piece(other_garden).pk):
        assert client.get(url("cloth.cost", key=key)).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("cloth.cost", key=NOBODY))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, url("cloth.cost", key=cast.a_piece(garden).pk), "get")
