"""`/book/`: every batch of a year in one table that can be sorted."""

import re
from html.parser import HTMLParser

import pytest
from django.test import Client

from bluewright.journal.bridge.book import SORTS
from bluewright.journal.models import Batch, Garden, Steep
from bluewright.web.pages.book import opened
from bluewright.web.pages.book.page import COLUMNS
from tests import cast
from tests.web.book.season import a_batch_in_its_jar, in_year
from tests.web.checks import flat, only, to_the_start_without_a_garden, url
from tests.web.visitors import visitor

pytestmark = pytest.mark.django_db
WHERE = "/book/"


@pytest.fixture
def place(db: None) -> Garden:
    return cast.a_garden()


def names(client: Client, address: str = WHERE) -> list[str]:
    return [row["name"] for row in client.get(address, {"as": "json"} | dict(_query(address))).json()["rows"]]


def _query(address: str) -> list[tuple[str, str]]:
    return [tuple(pair.split("=")) for pair in address.partition("?")[2].split("&") if pair]  # type: ignore[misc]


def some(place: Garden, *names: str, year: int | None = None) -> list[Batch]:
    """Batches of one straining, each a day older than the one before."""
    strain = cast.a_straining(cast.a_tub(place), liquor_out_l=28.0)
    begun = {"begun_at": in_year(year)} if year else {}
    return [cast.a_batch(strain, liquor_l=[1.0], name=name, **begun) for name in names]


def test_a_batch_stands_in_the_book_with_all_its_figures(client: Client, place: Garden) -> None:
    """Own hand: 6 g of 3 kg are 2 g a kilogram, half of it blue: 1 g; 1.645 spreads of 5 % of 2 g are 0.16 g."""
    batch = a_batch_in_its_jar(place, note="a dry week")
    (row,) = client.get(WHERE, {"as": "json"}).json()["rows"]
    assert row["href"] == url("batches.show", key=batch.pk)
    assert [(tub["name"], row["beds"]) for tub in row["tubs"]] == [("A", "East")]
    assert (row["leaf"], row["plant"], row["steep"], row["temp"]) == ("3 kg", "woad", "20 h", "14 C")
    assert (row["alkali"], row["ph"], row["air"]) == ("soda ash", "9.4", "15 min")
    assert (row["pigment"], row["from_leaf"], row["stage"]) == ("6 g", "2 g per kg", "in Jar A")
    assert row["pure"] == "pure blue 1 (0.84 to 1.2)"
    assert row["purity"] == "50% (42 to 58)"
    page = client.get(WHERE).content.decode()
    for said in ("a dry week", row["pure"], "How much did each batch give?", "The one batch that was weighed"):
        assert said in page


def test_in_a_garden_with_us_units_leaf_and_yield_are_in_pounds(client: Client) -> None:
    """Own hand: 3 kg are 6.6 lb; 2 g a kilogram are 0.91 g a pound."""
    a_batch_in_its_jar(cast.a_garden(system="us"))
    (row,) = client.get(WHERE, {"as": "json"}).json()["rows"]
    assert (row["leaf"], row["from_leaf"], row["temp"]) == ("6.6 lb", "0.91 g per lb", "57 °F")
    assert "g from a pound of leaf" in client.get(WHERE).content.decode()


def test_what_nobody_wrote_down_stays_empty(client: Client, place: Garden) -> None:
    some(place, "Bare")
    (row,) = client.get(WHERE, {"as": "json"}).json()["rows"]
    assert {row[name] for name in ("alkali", "ph", "air", "pigment", "from_leaf", "pure", "purity", "temp", "bar")} == {
        ""
    }
    assert row["stage"] == "strained, no alkali yet"
    assert client.get(WHERE, {"as": "json"}).json()["chart"] == ""


def test_how_a_batch_ended_is_told(client: Client, place: Garden) -> None:
    first, second = some(place, "First", "Second")
    Batch.objects.filter(pk=first.pk).update(ended_at=cast.moment(0.1), ended_why="foul")
    cast.a_batch(second, name="Third")
    told = {row["name"]: row["stage"] for row in client.get(WHERE, {"as": "json"}).json()["rows"]}
    assert told["First"] == "given up: foul"
    assert told["Second"] == "poured into Third"


def test_airing_that_was_only_counted_is_told_in_pours(client: Client, place: Garden) -> None:
    (batch,) = some(place, "First")
    cast.an_airing(batch, done_min=None, done_pours=20)
    assert client.get(WHERE, {"as": "json"}).json()["rows"][0]["air"] == "20 pours"


def test_the_last_year_with_batches_is_open_and_the_others_are_linked(client: Client, place: Garden) -> None:
    some(place, "Old", year=2023)
    some(place, "Newer A", "Newer B", year=2025)
    page = client.get(WHERE, {"as": "json"}).json()
    assert page["title"] == "Season book 2025"
    assert {row["name"] for row in page["rows"]} == {"Newer A", "Newer B"}
    assert [(link["name"], link["href"]) for link in page["years"]] == [
        ("2025 (2)", ""), ("2023 (1)", "?year=2023"), ("all years", "?year=all"),
    ]  # fmt: skip
    assert names(client, f"{WHERE}?year=2023") == ["Old"]
    assert set(names(client, f"{WHERE}?year=all")) == {"Old", "Newer A", "Newer B"}


def test_a_year_is_one_by_the_garden_s_clock(client: Client) -> None:
    """Half past eleven in the evening by Greenwich on the last of December is the new year in Auckland."""
    place = cast.a_garden(time_zone="Pacific/Auckland")
    (batch,) = some(place, "Night")
    Batch.objects.filter(pk=batch.pk).update(begun_at=in_year(2024).replace(month=12, day=31, hour=23, minute=30))
    assert client.get(WHERE, {"as": "json"}).json()["title"] == "Season book 2025"


@pytest.mark.parametrize("odd", ["?year=1999", "?year=x", "?sort=begun_at", "?sort=garden__name", "?order=%22",
                                 "?page=0", "?page=-1", "?page=99", "?page=x", "?page=9999999999", "?page=²",
                                 "?sort=name'; drop table journal_batch", "?year=%00"])  # fmt: skip
def test_an_address_that_asks_for_what_there_is_not_shows_the_usual(client: Client, place: Garden, odd: str) -> None:
    some(place, "A", "B")
    assert set(names(client, WHERE)) == {"A", "B"}
    response = client.get(f"{WHERE}{odd}")
    assert response.status_code == 200
    assert [row.name for row in response.context["page"].rows] == names(client)


def test_every_column_sorts_and_says_so_without_scripts(client: Client, place: Garden) -> None:
    some(place, "A", "B")
    assert {key for key, _name in COLUMNS} == SORTS
    for key, name in COLUMNS:
        for order, aria in (("up", "ascending"), ("down", "descending")):
            page = client.get(WHERE, {"sort": key, "order": order}).content.decode()
            heads = re.findall(r'<th scope="col"(?: aria-sort="(\w+)")?><a href="([^"]*)">([^<]*)', page)
            (marked,) = [head for head in heads if head[0]]
            assert (marked[0], marked[2].strip()) == (aria, str(name))
            back = {"up": "down", "down": "up"}[order]
            assert f"order={back}" in marked[1] or (key, back) == ("date", "down")


def test_words_sort_from_a_and_figures_from_the_largest(client: Client, place: Garden) -> None:
    a_batch_in_its_jar(place, "Much", pigment_g=9.0)
    a_batch_in_its_jar(place, "little", pigment_g=2.0)
    some(place, "none")
    assert names(client, f"{WHERE}?sort=name") == ["little", "Much", "none"]
    assert names(client, f"{WHERE}?sort=yield") == ["Much", "little", "none"]
    assert names(client, f"{WHERE}?sort=yield&order=up") == ["little", "Much", "none"]


def test_a_long_year_stands_on_several_pages(client: Client, place: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(opened, "PAGE", 2)
    some(place, *"ABCDE")
    first = client.get(WHERE, {"as": "json", "sort": "name"}).json()
    assert [row["name"] for row in first["rows"]] == ["A", "B"]
    assert [link["name"] for link in first["pages"]] == ["page 1 of 3", "next page", "last page"]
    assert first["pages"][0]["href"] == ""
    last = client.get(WHERE + first["pages"][2]["href"])
    assert [row.name for row in last.context["page"].rows] == ["E"]
    assert "5 batches" in last.content.decode()


def test_tubs_that_are_in_no_batch_are_listed(client: Client, place: Garden) -> None:
    steeping = cast.a_tub(place, name="Steeping")
    strained = cast.a_tub(place, name="Strained", started_at=cast.moment(21))
    cast.a_straining(strained)
    some(place, "A")
    page = client.get(WHERE, {"as": "json"}).json()
    told = {row["name"]: (row["href"], row["said"]) for row in page["waiting"]}
    assert told["Steeping"][0] == url("tubs.show", key=steeping.pk)
    assert "steeping for" in told["Steeping"][1]
    assert "3 kg of woad leaf, strained after 20 h" in told["Strained"][1]
    assert "2 tubs in no batch" in page["summary"]


def test_of_many_waiting_tubs_the_newest_are_shown_and_the_rest_counted(
    client: Client, place: Garden, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("bluewright.journal.queries.book.WAITING_MOST", 1)
    for at in range(3):
        cast.a_tub(place, name=f"Tub {at}", started_at=cast.moment(10 + at))
    page = client.get(WHERE, {"as": "json"}).json()
    assert [row["name"] for row in page["waiting"]] == ["Tub 0"]
    assert page["waiting_more"] == "and 2 older ones"


def test_an_empty_book_says_how_it_fills(client: Client, place: Garden) -> None:
    assert "make a batch of its liquor" in client.get(WHERE).content.decode()


def test_a_stranger_s_batches_are_not_shown(client: Client, garden: Garden, strangers_tub: Steep) -> None:
    cast.a_batch(strangers_tub.strains.get(), name="Not yours")
    assert "Not yours" not in client.get(WHERE).content.decode()


def test_names_are_only_words(client: Client, place: Garden) -> None:
    a_batch_in_its_jar(place, "<b>&amp;", note="<script>1</script>")
    page = client.get(WHERE).content.decode()
    assert "&lt;b&gt;" in page
    assert "<script>1" not in page
    HTMLParser().feed(page)


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_onlookers_may_read_it_but_not_take_out_the_garden(garden: Garden) -> None:
    page = visitor("onlooker").get(WHERE).content.decode()
    assert url("book.csv") in page
    assert url("gardens.take_out", key=garden.pk) not in page
    assert url("gardens.take_out", key=garden.pk) in Client().get(WHERE).content.decode()


@pytest.mark.parametrize("sort", sorted(SORTS))
def test_more_batches_need_no_more_statements(client: Client, place: Garden, sort: str) -> None:
    a_batch_in_its_jar(place)
    flat(client, f"{WHERE}?sort={sort}", lambda: [a_batch_in_its_jar(place) for _ in range(3)])


def test_it_tells_what_a_gram_cost_of_the_year_and_of_each_batch(client: Client, place: Garden) -> None:
    cast.a_jar_from_the_bed(place)
    page = client.get(WHERE)
    book = page.context["page"]
    assert "gram of pure blue" in book.cost
    assert any(row.gram.startswith("a gram cost ") for row in book.rows)
    assert f"{url('costs.index')}?year={book.year}" in page.content.decode()
    assert client.get(WHERE, {"year": "all"}).context["page"].cost == ""
