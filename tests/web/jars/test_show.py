"""`/jars/<key>/`: one jar, what it holds, its stock and its thread."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Jar, YieldSeen
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(jar: Jar) -> str:
    return url("jars.show", key=jar.pk)


def of_unknown_leaf(garden: Garden, **other: object) -> Jar:
    strain = cast.a_straining(cast.a_tub(garden, leaf=[]), liquor_out_l=20.0, liquor_typed="20 L")
    return cast.a_jar((cast.a_batch(strain), 40.0), **other)


def test_it_says_what_the_leaf_gave_and_where_the_rest_went(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 12.3)
    page = client.get(where(jar)).context["page"]
    assert page.trouble == ""
    assert "of pure blue" in page.found.said[0]
    assert "From each kilogram of leaf" in page.found.said[1]
    assert page.found.next_reading.startswith("What would tell most")
    assert [row[0] for row in page.found.lost.rows][:2] == ["steeping", "straining"]
    assert page.found.chart.startswith("<svg")
    assert "Where did the blue of Jar 9 go?" in page.found.chart


def test_stock_goes_in_and_out(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 12.3)
    row = cast.taken(jar, 5.0, what_for="wool vat")
    response = client.get(where(jar))
    page = response.context["page"]
    assert page.stock.left == "7.3 g left of 12.3 g"
    assert " g (" in page.stock.pure
    assert [(one.key, one.said) for one in page.taken] == [(str(row.pk), "5 g for wool vat")]
    assert page.went_in == ("12.3 g of Batch 9",)
    said = response.content.decode()
    for way in (url("jars.take", key=jar.pk), url("jars.change", key=jar.pk), url("jars.delete", key=jar.pk)):
        assert way in said
    assert "dust mask" in said


def test_its_thread_leads_from_the_bed_to_the_uses(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    cast.taken(jar, 5.0, what_for="wool vat")
    thread = client.get(where(jar)).context["page"].thread
    assert [level.name for level in thread.levels] == ["Beds", "Pickings", "Tubs", "Batches", "Jars"]
    assert thread.uses[0].endswith("5 g out of Jar 9 for wool vat")


def test_what_was_seen_is_kept_once(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    client.get(where(jar))
    client.get(where(jar))
    assert YieldSeen.objects.filter(jar=jar).count() == 1


def test_a_jar_of_unknown_leaf_says_why_and_keeps_its_stock(client: Client, garden: Garden) -> None:
    jar = of_unknown_leaf(garden)
    response = client.get(where(jar))
    page = response.context["page"]
    assert page.found is None
    assert "leaf" in page.trouble
    assert (page.stock.left, page.stock.pure) == ("40 g left of 40 g", "")
    assert page.trouble.replace("'", "&#x27;") in response.content.decode()
    assert not YieldSeen.objects.exists()


def test_a_measured_purity_tells_the_blue_without_the_leaf(client: Client, garden: Garden) -> None:
    """Own hand: 40 g, 5 % water, 35 % indigo: 13 g."""
    jar = of_unknown_leaf(garden, purity_frac=0.35, purity_sd_frac=0.04, purity_how="swatches")
    page = client.get(where(jar)).context["page"]
    assert page.stock.pure.startswith("13 g (")
    assert page.purity == "35% indigo, give or take 4% (swatches)"


def test_an_empty_jar_offers_nothing_to_take(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 12.0)
    cast.taken(jar, 12.4)
    response = client.get(where(jar))
    assert response.context["page"].stock.left == "empty; it held 12 g"
    assert url("jars.take", key=jar.pk) not in response.content.decode()


def test_what_was_typed_is_shown_as_text(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, name="<b>J</b>", note="<script>alert(1)</script>", stands="<i>shelf</i>")
    cast.taken(jar, 1.0, what_for="<u>vat</u>")
    said = client.get(where(jar)).content.decode()
    for tag in ("<b>J", "<script>alert", "<i>shelf", "<u>vat"):
        assert tag not in said


def test_there_is_no_jar_of_a_wrong_key(client: Client, garden: Garden) -> None:
    assert client.get(url("jars.show", key=NOBODY)).status_code == 404
    jar = cast.a_jar_from_the_bed(garden)
    delete(jar, by=None)
    assert client.get(where(jar)).status_code == 404


def test_a_stranger_s_jar_is_not_there(client: Client, garden: Garden) -> None:
    assert client.get(where(cast.a_jar_from_the_bed(cast.a_garden()))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("jars.show", key=NOBODY))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(cast.a_jar_from_the_bed(garden)), "get")


def test_more_tubs_and_takings_need_no_more_statements(client: Client, garden: Garden) -> None:
    strains = [cast.a_straining(cast.a_tub(garden), liquor_out_l=20.0, liquor_typed="20 L") for _ in range(3)]
    batch = cast.a_batch(strains[0])
    jar = cast.a_jar((batch, 12.0))

    def more() -> None:
        for strain in strains[1:]:
            batch.came_from.create(strain=strain)
            cast.taken(jar, 1.0)

    flat(client, where(jar), more)


def test_its_json_twin_says_the_same(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 12.3)
    page = client.get(where(jar)).context["page"]
    twin = client.get(where(jar), {"as": "json"}).json()
    assert twin["stock"]["left"] == page.stock.left
    assert twin["found"]["said"] == list(page.found.said)
    assert [level["name"] for level in twin["thread"]["levels"]] == [level.name for level in page.thread.levels]
