"""`/watering/<bed>/`: does this bed want water?"""

from datetime import datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest
from django.test import Client

from bluewright.journal.actions.beds import add_air
from bluewright.journal.models import AirTemp, Bed, Garden
from tests import cast
from tests.web.checks import NOBODY, flat, only, url

pytestmark = pytest.mark.django_db


def where(bed: Bed) -> str:
    return url("watering.show", key=bed.pk)


def test_it_answers_with_litres_on_a_square_metre_and_a_chart(client: Client, bed: Bed) -> None:
    cast.a_water_note(bed, felt="dusty", days_ago=1)
    cast.a_water_note(bed, stage="full_cover", days_ago=3)
    page = client.get(where(bed)).context["page"]
    assert page.answer.first.startswith("Water now: ")
    assert "on each square metre" in page.answer.first
    assert "for 12 m²" in page.answer.first
    assert page.answer.chart.startswith("<svg")
    assert [row.said.partition(":")[0] for row in page.notes] == ["Felt dusty", "Leaves shade all of it"]


def test_a_wet_handful_and_water_put_it_off(client: Client, bed: Bed) -> None:
    cast.a_water_note(bed, felt="wet", days_ago=0)
    assert not client.get(where(bed)).context["page"].answer.first.startswith("Water now")


def test_the_bed_s_page_leads_here_and_back(client: Client, bed: Bed) -> None:
    assert where(bed) in client.get(url("beds.show", key=bed.pk)).content.decode()
    assert url("beds.show", key=bed.pk) in client.get(where(bed)).content.decode()


def test_without_a_place_or_an_area_it_asks_for_them(client: Client, garden: Garden) -> None:
    bed = cast.a_bed(garden)
    response = client.get(where(bed))
    page, html = response.context["page"], response.content.decode()
    assert (page.answer, page.needs_area, page.needs_place) == (None, True, True)
    assert url("beds.change", key=bed.pk) in html
    assert url("gardens.change", key=garden.pk) in html


def test_what_is_guessed_is_said(client: Client, bed: Bed) -> None:
    assert "shaded" in client.get(where(bed)).context["page"].taken_for
    cast.a_water_note(bed, stage="full_cover")
    assert client.get(where(bed)).context["page"].taken_for == ""
    Bed.objects.filter(pk=bed.pk).update(soil="unknown")
    assert "soil" in client.get(where(bed)).context["page"].taken_for


def test_us_units_throughout(client: Client, bed: Bed) -> None:
    Garden.objects.filter(pk=bed.garden_id).update(system="us")
    cast.a_water_note(bed, felt="dusty", days_ago=0)
    page = client.get(where(bed)).context["page"]
    assert "gal" in page.answer.first
    assert "on each square foot" in page.answer.first
    assert "in of water" in page.answer.chart


def test_handfuls_that_contradict_the_weather_are_said(client: Client, bed: Bed) -> None:
    for days_ago in range(20):
        cast.a_water_note(bed, felt="wet" if days_ago % 2 else "dusty", days_ago=days_ago)
    assert "far from what weather and watering tell" in " ".join(client.get(where(bed)).context["page"].answer.to_know)


def test_a_day_that_cannot_be_is_said_in_words(client: Client, bed: Bed) -> None:
    """Coldest at six above the warmest at three: swapped."""
    day = datetime.combine(cast.a_day(3), time(), ZoneInfo("Europe/London"))
    AirTemp.objects.filter(garden=bed.garden, time__gte=day, time__lt=day + timedelta(days=1)).delete()
    rows = [
        AirTemp(garden=bed.garden, time=day + timedelta(hours=hour), temp_c=temp_c, temp_typed=f"{temp_c} C")
        for hour, temp_c in ((6, 25.0), (15, 5.0))
    ]
    add_air(rows, by=None)
    page = client.get(where(bed)).context["page"]
    assert page.answer is None
    assert "were they swapped" in page.trouble


def test_wrong_keys_and_strangers(client: Client, garden: Garden, other_garden: Garden) -> None:
    assert client.get(url("watering.show", key=NOBODY)).status_code == 404
    assert client.get(where(cast.a_bed(other_garden))).status_code == 404


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client, bed: Bed) -> None:
    Garden.everything.update(deleted_at=cast.moment())
    assert client.get(where(bed))["Location"] == url("gardens.begin")


def test_it_is_only_read(client: Client, bed: Bed) -> None:
    only(client, where(bed), "get")


def test_more_notes_need_no_more_statements(client: Client, bed: Bed) -> None:
    def more() -> None:
        for days_ago in range(5, 12):
            cast.a_water_note(bed, water_l=20.0, water_typed="20 L", days_ago=days_ago)

    cast.a_water_note(bed)
    flat(client, where(bed), more)


def test_as_json_it_is_the_same(client: Client, bed: Bed) -> None:
    found = client.get(where(bed), {"as": "json"}).json()
    assert found["name"] == "Wall bed"
    assert found["answer"]["first"] == client.get(where(bed)).context["page"].answer.first
