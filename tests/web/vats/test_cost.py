"""`/vats/<key>/cost/`: what all that went into a vat cost."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import NOBODY, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def test_each_thing_costs_its_share_of_the_newest_pack(client: Client, garden: Garden) -> None:
    """180 g of a kilogram for 8: 1.44 (own hand); an older price does not count; lime comes from the cupboard."""
    vat = cast.a_made_vat(garden)
    cast.a_supply(garden, pack_g=1000.0, pack_money=20.0, days_ago=60)
    cast.a_supply(garden, pack_g=1000.0, pack_money=8.0)
    page = client.get(url("vats.cost", key=vat.pk)).context["page"]
    assert [cells[:2] for _, cells in page.parts.rows] == [("fructose", "180 g")]
    assert page.parts.rows[0][1][2].startswith("1.44 ")
    assert page.first.startswith("What went into it cost 1.4")
    assert "slaked lime" in page.unpriced and "blue of Vat 9" in page.unpriced
    cast.an_alkali(garden, kind="slaked_lime", mol_per_l=None, pack_amount=500.0, pack_typed="500 g", pack_money=3.0)
    page = client.get(url("vats.cost", key=vat.pk)).context["page"]
    money = {cells[0]: cells[2].split()[0] for _, cells in page.parts.rows}
    assert money["slaked lime"] == "0.72", "120 g of 500"
    assert "slaked lime" not in page.unpriced


def test_blue_out_of_a_jar_costs_what_its_batch_cost(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 80.0, purity_frac=0.31, purity_sd_frac=0.03)
    cast.a_kit_item(garden, paid_money=400.0, lasts_batches=10)
    vat = cast.a_vat(garden)
    cast.a_vat_addition(vat, mass_g=20.0, taken=cast.taken(jar, 20.0))
    page = client.get(url("vats.cost", key=vat.pk)).context["page"]
    assert [cells[0] for _, cells in page.parts.rows] == ["its pure blue"]
    assert page.unpriced == ""


def test_without_any_price_it_says_so(client: Client, garden: Garden) -> None:
    page = client.get(url("vats.cost", key=cast.a_made_vat(garden).pk)).context["page"]
    assert (page.first, page.parts) == ("Nothing that went into it has a price yet.", None)


def test_there_is_none_of_a_wrong_key_or_of_a_stranger(client: Client, garden: Garden, other_garden: Garden) -> None:
    for key in (NOBODY, cast.a_vat(other_garden).pk):
        assert client.get(url("vats.cost", key=key)).status_code == 404
    to_the_start_without_a_garden(client, url("vats.cost", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, url("vats.cost", key=cast.a_vat(garden).pk), "get")
