"""`/swatches/compare/?a=..&b=..`: two swatches beside each other, with words, numbers and the drawing."""

import pytest
from django.test import Client

from bluewright.journal.actions.keeping import delete
from bluewright.journal.models import Garden, Swatch
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.measuring import measured_cloth

pytestmark = pytest.mark.django_db
WHERE = "/swatches/compare/"


@pytest.fixture
def two(garden: Garden) -> tuple[Swatch, Swatch]:
    return cast.a_swatch(garden, name="Kept"), cast.a_swatch(garden, name="New", l_star=39.9, a_star=-5.4, b_star=-20.0)


def asked(one: Swatch, other: Swatch) -> dict[str, str]:
    return {"a": str(one.pk), "b": str(other.pk)}


def test_it_says_which_way_and_how_far_they_differ(client: Client, two: tuple[Swatch, Swatch]) -> None:
    page = client.get(WHERE, asked(*two)).context["page"]
    assert page.answer.startswith("New beside Kept: lighter, greener, duller; ")
    assert "CIEDE2000" in page.answer
    figures = {name: said for name, said, _path in page.figures}
    assert figures["times as deep"].startswith("0.")
    assert "grade of change (estimate, no test report)" in figures
    for word in ("← darker", "redder →", "Kept", "New"):
        assert word in page.chart


def test_the_other_way_round_the_words_turn(client: Client, two: tuple[Swatch, Swatch]) -> None:
    page = client.get(WHERE, asked(*reversed(two))).context["page"]
    assert page.answer.startswith("Kept beside New: darker, redder, brighter; ")


def test_measured_in_different_ways_a_difference_means_less(client: Client, garden: Garden) -> None:
    """Two photos with one card tell 2 apart (sd 1.5); a photo without a card and an instrument do not (sd 4)."""
    kept, near = cast.a_swatch(garden, name="Kept"), cast.a_swatch(garden, name="Near", l_star=38.4)
    assert "no more than measuring" not in client.get(WHERE, asked(kept, near)).context["page"].answer
    Swatch.objects.filter(pk=near.pk).update(how="instrument")
    page = client.get(WHERE, asked(kept, near)).context["page"]
    assert "no more than measuring leaves uncertain" in page.answer
    assert any("share no card" in text for text in page.to_know)


def test_what_lies_in_one_photo_is_told_apart_best(client: Client, garden: Garden) -> None:
    """Photos without a card share nothing (sd 4); two boxes of one photo differ by 0.5 where they are equal."""
    found = measured_cloth(client, garden, of=cast.a_jar_from_the_bed(garden), kind="jar")
    same = {"how": "photo", "measured_key": found.pk, "measured_sample": 0, "l_sd": 2.0, "a_sd": 2.0, "b_sd": 2.0}
    one, other = cast.a_swatch(garden, **same), cast.a_swatch(garden, name="Near", l_star=36.0, **same)
    assert "plain" not in client.get(WHERE, asked(one, other)).context["page"].answer
    assert "no more than measuring" not in client.get(WHERE, asked(one, other)).context["page"].answer
    Swatch.objects.update(measured_key=None)
    assert "no more than measuring" in client.get(WHERE, asked(one, other)).context["page"].answer


def test_staining_is_graded_where_the_standard_is_white(client: Client, garden: Garden) -> None:
    white = cast.a_swatch(garden, name="White", of="ground", l_star=93.0, a_star=0.0, b_star=3.0)
    stained = cast.a_swatch(garden, name="Stained", l_star=88.0, a_star=-3.0, b_star=-4.0)
    names = [name for name, _said, _path in client.get(WHERE, asked(white, stained)).context["page"].figures]
    assert "grade of staining (estimate, no test report)" in names


def test_asked_for_none_or_one_it_offers_the_choice(client: Client, two: tuple[Swatch, Swatch]) -> None:
    for typed in ({}, {"a": str(two[0].pk)}):
        response = client.get(WHERE, typed)
        assert (response.status_code, response.context["page"]) == (200, None)
        assert "New" in response.content.decode()
    assert f'value="{two[0].pk}" selected' in client.get(WHERE, {"a": str(two[0].pk)}).content.decode()


def test_with_less_than_two_it_says_so(client: Client, garden: Garden) -> None:
    assert "It takes two swatches" in client.get(WHERE).content.decode()


def test_what_is_no_swatch_here_is_refused(client: Client, two: tuple[Swatch, Swatch], other_garden: Garden) -> None:
    gone = cast.a_swatch(two[0].garden)
    delete(gone, by=None)
    for wrong in (str(NOBODY), "blue", str(cast.a_swatch(other_garden).pk), str(gone.pk)):
        response = client.get(WHERE, {"a": str(two[0].pk), "b": wrong})
        assert (response.status_code, response.context["page"]) == (422, None)
        assert "not one of" in response.content.decode()


def test_as_json_it_is_the_same(client: Client, two: tuple[Swatch, Swatch]) -> None:
    assert client.get(WHERE, asked(*two) | {"as": "json"}).json()["standard"]["name"] == "Kept"


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_it_is_only_read(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get")


def test_more_swatches_need_no_more_statements(client: Client, two: tuple[Swatch, Swatch]) -> None:
    where = f"{WHERE}?a={two[0].pk}&b={two[1].pk}"
    flat(client, where, lambda: [cast.a_swatch(two[0].garden, name=f"S{n}") for n in range(4)])
    assert url("swatches.compare") == WHERE
