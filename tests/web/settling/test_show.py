"""`/settling/<key>/`: settling and washing of a batch."""

import re

import pytest
from django.test import Client

from bluewright.journal.models import Batch, Garden
from tests import cast
from tests.web.checks import NOBODY, flat, only, to_the_start_without_a_garden, url
from tests.web.working import a_decanted_batch, a_settling_batch, a_working_batch

pytestmark = pytest.mark.django_db


def where(batch: Batch) -> str:
    return url("settling.show", key=batch.pk)


def test_before_it_stands_it_says_what_to_do(client: Client, garden: Garden) -> None:
    batch = a_working_batch(garden)
    response = client.get(where(batch))
    page = response.context["page"]
    assert (page.stands, page.answer, page.wash) == (None, None, None)
    assert url("settling.stand", key=batch.pk) in response.content.decode()


def test_what_stands_is_answered_with_clock_times_litres_and_a_chart(client: Client, garden: Garden) -> None:
    batch, standing = a_settling_batch(garden)
    response = client.get(where(batch))
    page, html = response.context["page"], response.content.decode()
    assert re.search(r"Decant after .*\(\d+ to \d+\)", page.answer.first), "a range, always"
    said = " ".join(page.answer.lines)
    assert re.search(r"No use looking before \w{3} \d+ \w{3} \d\d:00", said)
    assert re.search(r"Clear liquor to take off then: [\d.]+ L", said)
    assert page.answer.chart.startswith("<svg")
    assert [edge.said for edge in page.stands.edges] == ["180 mm", "260 mm"]
    assert url("settling.decant", key=batch.pk, row=standing.pk) in html


def test_without_a_depth_it_asks_for_that(client: Client, garden: Garden) -> None:
    batch, _standing = a_settling_batch(garden, depth_mm=None, depth_typed="")
    response = client.get(where(batch))
    assert response.context["page"].needs_depth
    assert "How deep does it stand?" in response.content.decode()


def test_an_edge_that_rises_is_said_in_words(client: Client, garden: Garden) -> None:
    batch, _standing = a_settling_batch(garden, edges=False)
    cast.a_standing(batch, hours_ago=5.0, edges=[(4.0, 180.0), (0.5, 290.0)])
    assert "rises" in client.get(where(batch)).context["page"].trouble


def test_after_decanting_the_washes_are_counted_with_the_water_that_is_asked(client: Client, garden: Garden) -> None:
    """Of 1.2 L with 8 L each: about 1.2 / 9.2 stays a wash, and 0.13 cubed is a fifth of a hundredth."""
    batch, _standing = a_decanted_batch(garden, conductivity_us_per_cm=None)
    assert client.get(where(batch)).context["page"].wash.needs_refill
    page = client.get(where(batch), {"refill": "8 L"}).context["page"]
    assert page.wash.answer.first.startswith("Washes still to do: 3")
    assert page.stands is None


def test_a_refill_that_cannot_be_read_is_said_beside_its_field(client: Client, garden: Garden) -> None:
    batch, _standing = a_decanted_batch(garden)
    response = client.get(where(batch), {"refill": "plenty"})
    assert response.status_code == 200
    assert "plenty" in str(response.context["refill"].errors)


def test_a_rinse_near_the_tap_is_enough(client: Client, garden: Garden) -> None:
    """7.6 is 0.2 from 7.4."""
    garden.tap_ph = 7.4
    garden.save()
    batch, _standing = a_decanted_batch(garden, conductivity_us_per_cm=None)
    cast.a_standing(
        batch, hours_ago=1.5, refill_l=8.0, refill_typed="8 L", decanted_at=cast.moment(0.5), left_l=1.2, ph=7.6
    )
    response = client.get(where(batch))
    wash = response.context["page"].wash
    assert (wash.done, wash.enough, wash.tap) == (1, True, "pH 7.4")
    assert "Enough by the reading" in wash.answer.first
    assert url("drying.show", key=batch.pk) in response.content.decode()


def test_what_stayed_must_be_known_for_the_washes(client: Client, garden: Garden) -> None:
    batch, _standing = a_decanted_batch(garden, left_l=None, left_typed="")
    assert "what stayed after decanting is missing" in client.get(where(batch)).context["page"].wash.trouble


def test_acid_is_offered_where_lime_went_in(client: Client, garden: Garden) -> None:
    batch, _standing = a_decanted_batch(garden)
    acid = url("washing.acid", key=batch.pk)
    assert acid not in client.get(where(batch)).content.decode()
    lime = cast.an_alkali(garden, name="lime", kind="slaked_lime", mol_per_l=None)
    cast.an_alkali_part(batch, lime, added_ml=None, added_g=20.0, added_typed="20 g")
    assert acid in client.get(where(batch)).content.decode()


def test_the_filter_is_worked_out_on_the_bench(client: Client, garden: Garden) -> None:
    html = client.get(where(a_working_batch(garden))).content.decode()
    assert url("bench.show", calculator="filter-time") in html


def test_the_story_tells_each_decanting(client: Client, garden: Garden) -> None:
    batch, _standing = a_decanted_batch(garden)
    (row,) = client.get(where(batch)).context["page"].standings
    assert row.decanted.endswith("1.2 L stayed; no blue: straw or brown; pH 9.2; 3600 µS/cm")


def test_the_page_is_there_as_json(client: Client, garden: Garden) -> None:
    batch, _standing = a_settling_batch(garden)
    twin = client.get(where(batch), {"as": "json"}).json()
    assert (twin["head"]["name"], len(twin["stands"]["edges"])) == ("Batch 9", 2)


def test_there_is_no_batch_of_a_wrong_key_nor_a_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("settling.show", key=NOBODY)).status_code == 404
    assert client.get(where(a_working_batch(other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, url("settling.show", key=NOBODY))


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, where(a_working_batch(garden)), "get")


def test_more_washes_and_heights_need_no_more_statements(client: Client, garden: Garden) -> None:
    batch, _standing = a_decanted_batch(garden)
    cast.a_standing(batch, hours_ago=1.0, refill_l=8.0, edges=[(0.9, 250.0)])

    def more() -> None:
        for hours in (0.8, 0.6, 0.4):
            cast.a_standing(batch, hours_ago=hours, refill_l=8.0, edges=[(hours - 0.1, 250.0), (hours - 0.2, 240.0)])

    flat(client, where(batch), more)
