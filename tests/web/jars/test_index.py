"""`/jars/`: stock at a glance."""

import pytest
from django.test import Client

from bluewright.journal.bridge import calls
from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/jars/"


def test_each_jar_says_what_is_left_how_pure_it_is_and_where_it_stands(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 12.3, stands="left shelf", purity_frac=0.35, purity_sd_frac=0.04)
    cast.taken(jar, 5.0)
    (row,) = client.get(WHERE).context["page"].jars
    assert row.left == "7.3 g left of 12.3 g"
    assert (row.purity, row.stands, row.empty) == ("35% indigo, give or take 4%", "left shelf", False)
    said = client.get(WHERE).content.decode()
    assert url("jars.show", key=jar.pk) in said
    assert "left shelf" in said


def test_the_blue_of_all_jars_is_a_band(client: Client, garden: Garden) -> None:
    """Own hand: 40 g and 20 g, 5 % water, 35 % indigo: 13.3 + 6.65 = 19.95 g of pure blue, said in two figures."""
    for grams in (40.0, 20.0):
        cast.a_jar_from_the_bed(garden, grams, purity_frac=0.35, purity_sd_frac=0.01, scale_sd_g=0.1)
    page = client.get(WHERE).context["page"]
    assert page.total.startswith("60 g of pigment in all; in it 20 g (")
    assert page.unknown == ""


def test_a_jar_that_was_not_reckoned_yet_is_not_counted_and_named(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden, 12.0, name="Blue <1>")
    page = client.get(WHERE).context["page"]
    assert page.total == "12 g of pigment in all."
    assert "Blue <1>" in page.unknown
    client.get(url("jars.show", key=jar.pk))
    page = client.get(WHERE).context["page"]
    assert "of pure blue" in page.total
    assert page.unknown == ""


def test_the_blue_of_some_jars_is_not_told_as_that_of_all(client: Client, garden: Garden) -> None:
    """Own hand: 40 g of 35 % indigo with 5 % of water hold 13.3 g; what the other 5 g hold nobody has reckoned."""
    cast.a_jar_from_the_bed(garden, 40.0, purity_frac=0.35, purity_sd_frac=0.01, scale_sd_g=0.1)
    cast.a_jar_from_the_bed(garden, 5.0)
    total = client.get(WHERE).context["page"].total
    assert total.startswith("45 g of pigment in all; in 1 of the 2 jars 13.3 g (")


def test_empty_jars_come_last_and_hold_nothing(client: Client, garden: Garden) -> None:
    cast.taken(cast.a_jar_from_the_bed(garden, 6.0, name="Empty", filled_at=cast.moment(-0.01)), 6.0)
    cast.a_jar_from_the_bed(garden, 4.0, name="Full", filled_at=cast.moment(50))
    page = client.get(WHERE).context["page"]
    assert [(row.name, row.empty, row.pure) for row in page.jars] == [("Full", False, ""), ("Empty", True, "")]
    assert page.total == "4 g of pigment in all."


def test_no_strain_call_is_worked_out(client: Client, garden: Garden, monkeypatch: pytest.MonkeyPatch) -> None:
    cast.a_jar_from_the_bed(garden)
    monkeypatch.setattr(calls, "strain_call", None)
    monkeypatch.setattr(calls, "past_call", None)
    assert client.get(WHERE).status_code == 200


def test_without_a_jar_it_says_so(client: Client, garden: Garden) -> None:
    response = client.get(WHERE)
    assert (response.context["page"].jars, response.context["page"].total) == ((), "")
    assert "No jar yet" in response.content.decode()


def test_a_stranger_s_jar_is_not_shown(client: Client, garden: Garden) -> None:
    cast.a_jar_from_the_bed(cast.a_garden())
    assert client.get(WHERE).context["page"].jars == ()


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_jars_need_no_more_statements(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    client.get(url("jars.show", key=jar.pk))

    def more() -> None:
        for _ in range(2):
            other = cast.a_jar_from_the_bed(garden)
            cast.taken(other, 1.0)
            client.get(url("jars.show", key=other.pk))

    flat(client, WHERE, more)


def test_its_json_twin_says_the_same(client: Client, garden: Garden) -> None:
    cast.a_jar_from_the_bed(garden, 12.3)
    page = client.get(WHERE).context["page"]
    twin = client.get(WHERE, {"as": "json"}).json()
    assert twin["total"] == page.total
    assert [row["left"] for row in twin["jars"]] == [row.left for row in page.jars]
