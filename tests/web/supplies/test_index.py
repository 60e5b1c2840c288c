"""`/costs/supplies/`: packs of what vats use up; they price a piece, and stock says what is left of them."""

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.bridge.piece_cost import cost_record
from bluewright.journal.models import Garden, Supply
from bluewright.journal.queries import pieces
from tests import cast
from tests.web.checks import flat, only, refused, to_the_start_without_a_garden, url
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db
WHERE = "/costs/supplies/"
TYPED = {"kind": "fructose", "pack": "1 kg", "paid": "7,50", "bought_on": cast.a_day(20).isoformat()}


def test_a_pack_is_written_down_and_prices_what_a_piece_took_of_it(client: Client, garden: Garden) -> None:
    """By hand: a kilogram for 7.5 is 0.0075 a gram; of two packs the one that was bought last counts."""
    cast.a_supply(garden, days_ago=90, pack_money=100.0)
    vat, piece = cast.a_made_vat(garden), cast.a_piece(garden)
    cast.a_dip(piece, vat)
    cast.a_vat_addition(vat, what="fructose", mass_g=18.0)
    client.post(WHERE, TYPED)
    row = Supply.objects.get(garden=garden, pack_typed="1 kg")
    assert (row.kind, row.pack_g, row.pack_money, row.used_up) == ("fructose", 1000.0, 7.5, False)
    assert "7.50" in client.get(WHERE).context["page"].rows[0].said
    record = cost_record(pieces.pieces(garden).get(pk=piece.pk), now=timezone.now())
    assert record is not None
    (fructose,) = [one for one in record.vats[0].others if one.name == "fructose"]
    assert (fructose.pack_g, fructose.pack_money) == (1000.0, 7.5)


def test_stock_tells_what_is_left_by_the_book_and_where_more_went_in_than_was_bought(
    client: Client, garden: Garden
) -> None:
    """By hand: 500 g less 18 g; 10 g of bran were bought, and 25 g went in."""
    cast.a_supply(garden)
    cast.a_supply(garden, kind="bran", pack_g=10.0, pack_typed="10 g")
    cast.a_supply(garden, kind="madder", used_up=True)
    vat = cast.a_vat(garden)
    cast.a_vat_addition(vat, what="fructose", mass_g=18.0)
    cast.a_vat_addition(vat, what="bran", mass_g=25.0)
    said = client.get(url("stock.index")).context["page"].supplies
    assert [one.split(":")[0] for one in said] == ["Bran", "Fructose"]
    assert "more went into vats than the 10 g bought" in said[0]
    assert "482 g left of 500 g" in said[1]


def test_what_could_hurt_of_what_is_at_hand_stands_on_the_page(client: Client, garden: Garden) -> None:
    cast.a_supply(garden)
    assert not any("Dithionite" in text for text in client.get(WHERE).context["page"].care)
    row = cast.a_supply(garden, kind="dithionite")
    assert any("it can catch fire" in text for text in client.get(WHERE).context["page"].care)
    row.used_up = True
    row.save()
    assert not any("Dithionite" in text for text in client.get(WHERE).context["page"].care)


@pytest.mark.parametrize(
    ("wrong", "field", "says"),
    [
        ({"pack": "much"}, "pack", ""),
        ({"bought_on": cast.a_day(-9).isoformat()}, "bought_on", "still to come"),
        ({"kind": "soda_ash"}, "kind", "not one of"),
    ],
)
def test_a_mistake_keeps_the_typing(
    client: Client, garden: Garden, wrong: dict[str, str], field: str, says: str
) -> None:
    refused(client, WHERE, TYPED | wrong, field=field, says=says)
    assert not Supply.objects.exists()


def test_helpers_neither_see_nor_write_it(client: Client, garden: Garden) -> None:
    helper = visitor("helper")
    assert helper.get(WHERE).status_code == helper.post(WHERE, TYPED).status_code == 403
    assert WHERE not in helper.get(url("costs.index")).content.decode()


def test_more_packs_need_no_more_statements_and_another_garden_s_are_not_shown(
    client: Client, garden: Garden, other_garden: Garden
) -> None:
    cast.a_supply(other_garden)
    cast.a_supply(garden)
    assert len(client.get(WHERE, {"as": "json"}).json()["rows"]) == 1
    flat(client, WHERE, lambda: [cast.a_supply(garden, days_ago=k) for k in range(3)])
    flat(client, url("stock.index"), lambda: [cast.a_supply(garden, days_ago=k, kind="madder") for k in range(3)])


def test_it_is_read_and_posted_to(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")
    to_the_start_without_a_garden(client, WHERE)
