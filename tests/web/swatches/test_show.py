"""`/swatches/<key>/`: one swatch: its colour in words and numbers, where it came from, what is like it."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Swatch
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db


def where(row: Swatch) -> str:
    return url("swatches.show", key=row.pk)


def test_it_says_its_colour_with_its_spread_and_where_it_came_from(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    spread = {"l_sd": 0.9, "a_sd": 0.7, "b_sd": 0.8}
    row = cast.a_swatch(garden, jar=jar, k_over_s=9.6, recipe="warm vat", how="instrument", **spread)
    page = client.get(where(row)).context["page"]
    facts = dict(page.facts)
    assert facts["Colour"] == "L\u00a034.2, a\u00a0−1.6, b\u00a0−23.1 (CIELAB, D65, 2° observer)"
    assert facts["Give or take"] == "0.9, 0.7, 0.8"
    assert facts["Hue and chroma"].startswith("h 266° (26")
    assert facts["Depth"].endswith("9.6 at 660 nm")
    assert "spectrometer" in facts["Measured"]
    assert (page.jar, page.jar_page, page.recipe) == ("Jar 9", url("jars.show", key=jar.pk), "warm vat")


def test_without_a_spread_of_its_own_it_says_the_usual_one(client: Client, garden: Garden) -> None:
    """Own hand: 1.5 for two photos of one card is 1.5 / sqrt(6) = 0.61 in each coordinate of each."""
    facts = dict(client.get(where(cast.a_swatch(garden))).context["page"].facts)
    assert facts["Give or take"] == "0.61, 0.61, 0.61 (usual for how it was measured)"


def test_the_three_most_like_it_lead_to_both_beside_each_other(client: Client, garden: Garden) -> None:
    row = cast.a_swatch(garden, name="mine")
    for name, light in (("far", 80.0), ("near", 35.0), ("same", 34.2), ("middling", 45.0)):
        cast.a_swatch(garden, name=name, l_star=light)
    near = client.get(where(row)).context["page"].near
    assert [one.name for one in near] == ["same", "near", "middling"]
    assert near[0].said == "CIEDE2000 0"
    assert client.get(near[1].to).context["page"].standard.name == "mine"


def test_a_jar_that_was_taken_out_is_not_named(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    row = cast.a_swatch(garden, jar=jar)
    delete(jar, by=None)
    page = client.get(where(row)).context["page"]
    assert (page.jar, page.jar_page) == ("", "")
    assert "from" not in page.row.facts


def test_it_stands_on_its_jar_s_page_and_in_the_thread(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    row = cast.a_swatch(garden, jar=jar)
    for page in (url("jars.show", key=jar.pk), url("threads.show", kind="jar", key=jar.pk)):
        html = client.get(page).content.decode()
        assert where(row) in html and "deep blue, h 266°" in html
    delete(row, by=None)
    assert where(row) not in client.get(url("jars.show", key=jar.pk)).content.decode()


def test_as_json_it_is_the_same(client: Client, garden: Garden) -> None:
    assert client.get(where(cast.a_swatch(garden)), {"as": "json"}).json()["row"]["name"] == "Swatch 9"


def test_there_is_no_swatch_of_a_wrong_key_or_another_s(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("swatches.show", key=NOBODY)).status_code == 404
    assert client.get(where(cast.a_swatch(other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("swatches.show", key=NOBODY))


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, where(cast.a_swatch(garden)), "get")


def test_more_swatches_need_no_more_statements(client: Client, garden: Garden) -> None:
    row = cast.a_swatch(garden, jar=cast.a_jar_from_the_bed(garden))
    cast.a_swatch(garden)
    flat(client, where(row), lambda: [cast.a_swatch(garden, jar=row.jar, dips=n) for n in (1, 2, 4)])
