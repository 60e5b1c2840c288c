"""`/swatches/`: the library, with its plane of colours and its ladders of depth."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden
from tests import cast
from tests.web.checks import flat, only, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/swatches/"


def test_each_colour_has_words_and_numbers_and_says_what_they_are_told_for(client: Client, garden: Garden) -> None:
    """#305375 by coloraide, another library."""
    jar = cast.a_jar_from_the_bed(garden)
    cast.a_swatch(garden, jar=jar, dips=3)
    response = client.get(WHERE)
    (row,) = response.context["page"].swatches
    assert (row.colour, row.said, row.lab) == ("#305375", "deep blue, h 266°", "L\u00a034.2, a\u00a0−1.6, b\u00a0−23.1")
    assert row.facts == "dyed cloth or yarn, wool, 3 dips, from Jar 9"
    assert row.depth.startswith("K/S 16 (")
    page = response.content.decode()
    assert "CIELAB, D65, 2° observer" in page
    assert "yours may differ" in page


def test_the_lightest_stands_first_and_all_are_on_the_plane(client: Client, garden: Garden) -> None:
    cast.a_swatch(garden, name="deep")
    cast.a_swatch(garden, name="pale", l_star=70.0, a_star=-5.0, b_star=-12.0)
    page = client.get(WHERE).context["page"]
    assert [row.name for row in page.swatches] == ["pale", "deep"]
    assert "pale, pale blue" in page.plane and "deep, deep blue" in page.plane
    assert page.ladders == ()


def test_depth_is_compared_within_one_fibre_only(client: Client, garden: Garden) -> None:
    for dips, light in ((1, 62.0), (4, 38.0)):
        cast.a_swatch(garden, name=f"wool {dips}", dips=dips, l_star=light)
    cast.a_swatch(garden, name="linen 2", fibre="linen", dips=2)
    cast.a_swatch(garden, name="powder", of="pigment", fibre="", dips=None)
    (ladder,) = client.get(WHERE).context["page"].ladders
    assert "How deep does each dip take wool?" in ladder
    assert "linen 2" not in ladder and "powder" not in ladder


def test_it_can_be_of_one_fibre(client: Client, garden: Garden) -> None:
    cast.a_swatch(garden, name="sheep")
    cast.a_swatch(garden, name="flax", fibre="linen")
    for asked, names in (("linen", ["flax"]), ("silk", []), ("nonsense", ["sheep", "flax"])):
        found = client.get(WHERE, {"fibre": asked}).context["page"].swatches
        assert sorted(row.name for row in found) == sorted(names)


def test_empty_it_says_what_to_do(client: Client, garden: Garden) -> None:
    cast.a_swatch(garden).delete()
    page = client.get(WHERE).content.decode()
    assert "No swatch yet" in page
    assert url("swatches.add") in page


def test_what_was_taken_out_and_another_s_are_not_shown(client: Client, garden: Garden, other_garden: Garden) -> None:
    delete(cast.a_swatch(garden), by=None)
    cast.a_swatch(other_garden)
    assert client.get(WHERE).context["page"].swatches == ()


def test_as_json_it_is_the_same(client: Client, garden: Garden) -> None:
    cast.a_swatch(garden)
    assert client.get(WHERE, {"as": "json"}).json()["swatches"][0]["said"] == "deep blue, h 266°"


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_swatches_need_no_more_statements(client: Client, garden: Garden) -> None:
    jar = cast.a_jar_from_the_bed(garden)
    cast.a_swatch(garden, jar=jar)
    flat(client, WHERE, lambda: [cast.a_swatch(garden, jar=jar, dips=n) for n in (1, 2, 4)])
