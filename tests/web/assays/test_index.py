"""`/assays/jar/<key>/`: all assays of a jar, what they say together, and the ways of another."""

from uuid import UUID

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Jar
from tests import cast
from tests.web.assays.rows import a_jar, an_ash, to_the_beginning
from tests.web.checks import NOBODY, flat, only, url

pytestmark = pytest.mark.django_db


def where(jar: Jar) -> str:
    return url("assays.index", key=jar.pk)


def test_before_the_first_it_offers_every_way(client: Client, garden: Garden) -> None:
    jar = a_jar(garden)
    response = client.get(where(jar))
    page = response.context["page"]
    assert page.together is None
    assert [way.method for way in page.ways] == ["dyeing", "ash", "powder", "led", "spectrum", "titration"]
    for way in page.ways:
        assert url("assays.add", key=jar.pk, method=way.method) in response.content.decode()


def test_two_that_agree_are_told_together_with_a_drawing(client: Client, garden: Garden) -> None:
    """Own hand: three times as much of it dyes as deep as a standard of 95 %: about a third of dry pigment."""
    jar = a_jar(garden, purity_frac=0.34, purity_sd_frac=0.03, purity_how="by a friend's meter")
    cast.an_assay(jar)
    page = client.get(where(jar)).context["page"]
    assert page.together.said.startswith("Together: 3")
    assert "by a friend&#x27;s meter" in page.together.chart or "by a friend's meter" in page.together.chart
    assert "all together" in page.together.chart
    assert [row.title for row in page.rows] == ["Test dyeing"]


def test_two_that_disagree_are_shown_side_by_side(client: Client, garden: Garden) -> None:
    jar = a_jar(garden, purity_frac=0.12, purity_sd_frac=0.01)
    cast.an_assay(jar)
    page = client.get(where(jar)).context["page"]
    assert page.together.said == "The results do not agree: no one figure is told."
    assert "all together" not in page.together.chart
    assert any("too far apart" in text for text in page.together.to_know)


def test_a_bound_below_a_result_is_a_disagreement(client: Client, garden: Garden) -> None:
    """Own hand: 1.6 g of ash in 1.9 g leave 16 % at most, and the dyeing says a third."""
    jar = a_jar(garden)
    cast.an_assay(jar)
    an_ash(jar, 1.6)
    assert "do not agree" in client.get(where(jar)).context["page"].together.said


def test_wrong_keys_strangers_and_jars_taken_out(client: Client, garden: Garden, other_garden: Garden) -> None:
    gone = a_jar(garden)
    delete(gone, by=None)
    for key in (NOBODY, a_jar(other_garden).pk, gone.pk):
        assert client.get(url("assays.index", key=UUID(str(key)))).status_code == 404


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(a_jar(garden)), "get")


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client, garden: Garden) -> None:
    to_the_beginning(client, where(a_jar(garden)))


def test_as_many_queries_for_many_as_for_one(client: Client, garden: Garden) -> None:
    jar = a_jar(garden)
    cast.an_assay(jar)
    flat(client, where(jar), lambda: (cast.an_assay(jar, deeper=1.01), an_ash(jar, 0.2)))


def test_the_same_as_json(client: Client, garden: Garden) -> None:
    jar = a_jar(garden)
    cast.an_assay(jar)
    twin = client.get(where(jar), {"as": "json"}).json()
    assert twin["jar"] == jar.name
    assert twin["rows"][0]["title"] == "Test dyeing"
