"""`/airing/<key>/`: the airing of a batch."""

import re

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Garden
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.working import a_working_batch, an_aired_batch

pytestmark = pytest.mark.django_db


def where(batch: Batch) -> str:
    return url("airing.show", key=batch.pk)


def test_before_anything_is_begun_it_offers_the_ways(client: Client, garden: Garden) -> None:
    html = client.get(where(a_working_batch(garden))).content.decode()
    for way in ("pour", "whisk", "bubble", "paddle"):
        assert f"?way={way}" in html
    assert "data-counter" not in html


def test_without_a_temperature_it_asks_for_that_first(client: Client, garden: Garden) -> None:
    batch = a_working_batch(garden, warm=False)
    cast.an_airing(batch)
    response = client.get(where(batch))
    assert "How warm is the liquor?" in response.content.decode()
    assert response.context["page"].answer is None


def test_a_counter_an_answer_and_the_end_point_stand_on_one_page(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)
    response = client.get(where(batch))
    page, html = response.context["page"], response.content.decode()
    assert (page.counter.pours, page.counter.minutes, page.counter.counts_pours) == (20, 10.0, True)
    assert re.search(r"minutes .*\(\d+ to \d+\)", page.answer.first), "a range, always"
    assert page.answer.chart.startswith("<svg")
    assert "white or grey, or none left" in page.end_point
    assert html.count("<svg") == 2 + 8, "the vessel, the chart, and four pictures of each of two signs"


def test_the_counter_can_be_used_without_a_script(client: Client, garden: Garden) -> None:
    """Two fields and a button, open; what needs the script is hidden until the script shows it."""
    batch, airing = an_aired_batch(garden)
    html = client.get(where(batch)).content.decode()
    form = re.search(rf'action="{url("airing.count", key=batch.pk, row=airing.pk)}".*?</form>', html, re.S)
    assert form is not None
    assert 'name="pours" value="20"' in form[0]
    assert 'name="minutes" value="10"' in form[0]
    assert '<details data-part="typed" open>' in html
    assert '<div data-part="live" hidden>' in html


def test_other_ways_are_counted_in_minutes_only(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden, way="whisk", done_pours=None)
    response = client.get(where(batch))
    assert response.context["page"].counter.counts_pours is False
    assert 'name="pours"' not in re.sub(r'type="hidden" name="pours"', "", response.content.decode())


def test_pours_of_an_earlier_airing_of_the_same_way_count_on(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden, started_at=cast.moment(0.5), ended_at=cast.moment(0.4))
    cast.an_airing(batch, started_at=cast.moment(0.1), done_pours=7, done_min=3.0)
    response = client.get(where(batch))
    counter = response.context["page"].counter
    assert (counter.pours, counter.before_pours, counter.before_min) == (7, 20, 10.0)
    assert response.context["look"]["after_pours"].value() == 27


def test_once_it_is_done_it_says_since_when(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden, ended_at=cast.moment())
    html = client.get(where(batch)).content.decode()
    assert "Aired; done" in html
    assert "It was not done after all" in html
    assert "data-counter" not in html


def test_once_it_is_done_and_stands_it_is_not_told_to_go_on(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden, ended_at=cast.moment())
    assert client.get(where(batch)).context["page"].answer is not None, "it may have been ended too soon"
    cast.a_standing(batch)
    assert client.get(where(batch)).context["page"].answer is None


def test_liquor_of_another_batch_brought_its_alkali_along(client: Client, garden: Garden) -> None:
    joined = cast.a_batch(a_working_batch(garden), name="Joined")
    assert client.get(where(joined)).context["page"].alkali == ""


def test_liquor_without_alkali_is_warned_of(client: Client, garden: Garden) -> None:
    assert "No alkali is written down yet" in client.get(where(a_working_batch(garden, alkali=False))).content.decode()


def test_what_cannot_be_answered_is_said_in_words(client: Client, garden: Garden) -> None:
    """Nobody pours 90 L out of 8 L."""
    batch, _airing = an_aired_batch(garden, pour_l=90.0, pour_typed="90 L")
    response = client.get(where(batch))
    assert response.status_code == 200
    assert "90 L is more than the liquor" in response.context["page"].trouble


def test_what_was_seen_stands_with_the_newest_first(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)
    cast.a_liquor_look(batch, hours_ago=0.1, foam=1, liquor=2, dissolved_oxygen_mg_l=0.4, after_pours=20, after_min=10)
    said = client.get(where(batch)).context["page"].looks[0].said
    assert said == ("after 20 pours; 10 minutes; foam: blue on top and plenty; liquor: dark blue; oxygen 0.4 mg/L")


def test_the_page_is_there_as_json(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)
    twin = client.get(where(batch), {"as": "json"}).json()
    assert (twin["head"]["name"], twin["counter"]["pours"]) == ("Batch 9", 20)


def test_there_is_no_batch_of_a_wrong_key_nor_a_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("airing.show", key=NOBODY)).status_code == 404
    assert client.get(where(a_working_batch(other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("airing.show", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(a_working_batch(garden)), "get")


def test_more_looks_and_airings_need_no_more_statements(client: Client, garden: Garden) -> None:
    batch, _airing = an_aired_batch(garden)

    def more() -> None:
        for hours in (0.2, 0.15, 0.1):
            cast.a_liquor_look(batch, hours_ago=hours, foam=1, after_pours=10, after_min=5.0)
            cast.an_airing(batch, started_at=cast.moment(hours))

    flat(client, where(batch), more)
