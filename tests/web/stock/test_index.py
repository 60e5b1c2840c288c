"""`/stock/`: what is left in jars and cupboard."""

import pytest
from django.test import Client

from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where() -> str:
    return url("stock.index")


def test_an_empty_garden_says_so(client: Client, garden: Garden) -> None:
    page = client.get(where()).content.decode()
    assert "No pigment is in any jar" in page
    assert "No jar was weighed again yet" in page


def test_the_oldest_jar_stands_first_and_empty_ones_not_at_all(client: Client, garden: Garden) -> None:
    cast.a_jar_from_the_bed(garden, name="new", purity_frac=0.3)
    cast.a_jar_from_the_bed(garden, name="old", filled_at=cast.moment(48), purity_frac=0.3)
    cast.taken(cast.a_jar_from_the_bed(garden, 5.0, name="empty"), 5.0)
    page = client.get(where()).context["page"]
    assert [jar.name for jar in page.jars] == ["old", "new"]
    assert page.total.startswith("24 g of pigment in all; in it ")


def test_what_was_taken_out_is_added_up_by_what_it_was_for(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 20.0, purity_frac=0.3)
    for grams, what in ((2.0, "vat"), (3.0, "vat"), (1.0, "swatches")):
        cast.taken(jar, grams, what_for=what)
    used = client.get(where()).context["page"].used
    assert [row.what for row in used] == ["vat", "swatches"]
    assert used[0].said.startswith("5 g, in it 1.4 g (")


def test_alkali_is_told_with_the_batches_that_it_still_serves(client: Client, garden: Garden) -> None:
    """Of 1,000 mL 50 went into one batch: 950 are left for nineteen."""
    soda = cast.an_alkali(garden, pack_amount=1000.0, pack_typed="1 L")
    cast.an_alkali_part(cast.a_batch(cast.a_straining(cast.a_tub(garden))), soda)
    cast.an_alkali(garden, name="no pack")
    page = client.get(where()).context["page"]
    assert page.cupboard.first.startswith("soda, half molar: 950 mL (")
    assert " for 19 (" in page.cupboard.first
    assert page.missing == ("What a pack holds is not written down of: no pack.",)


def test_more_than_a_pack_held_asks_for_the_new_one(client: Client, garden: Garden) -> None:
    soda = cast.an_alkali(garden, pack_amount=30.0, pack_typed="30 mL")
    cast.an_alkali_part(cast.a_batch(cast.a_straining(cast.a_tub(garden))), soda)
    page = client.get(where()).context["page"]
    assert page.cupboard is None
    assert page.missing[0].startswith("More went in than the pack held")


def test_the_blue_that_stands_in_vats_is_told_beside_the_jars_once_it_is_reckoned(
    client: Client, garden: Garden
) -> None:
    """60 g, 35 % pure when dry, 5 % water: 20 g stand in it (own hand)."""
    vat = cast.a_made_vat(garden, name="Tin")
    cast.a_vat(garden, name="Gone", ended_at=cast.moment(1), end="used_up")
    page = client.get(where()).context["page"]
    assert (page.vats, page.in_vats) == ((), "")
    assert "Tin" in page.waits
    assert "Gone" not in page.waits
    client.get(url("vats.show", key=vat.pk))
    page = client.get(where()).context["page"]
    assert [row.name for row in page.vats] == ["Tin"]
    assert page.in_vats.startswith("Pure blue that stands in vats: 20 g (")


def test_many_rows_take_as_many_statements_as_one(client: Client, garden: Garden) -> None:
    def more() -> None:
        for _ in range(3):
            cast.taken(cast.a_jar_from_the_bed(garden, purity_frac=0.3), 1.0)
            cast.an_alkali(garden, pack_amount=1000.0)

    more()
    flat(client, where(), more)


def test_another_garden_s_jars_are_not_in_it(client: Client, garden: Garden, other_garden: Garden) -> None:
    cast.a_jar_from_the_bed(other_garden)
    assert client.get(where(), {"as": "json"}).json()["jars"] == []


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(), "get")
    to_the_start_without_a_garden(client, where())
