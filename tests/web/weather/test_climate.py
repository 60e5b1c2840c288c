"""`/weather/climate/`: the twelve months as they usually are."""

import pytest
from django.test import Client

from bluewright.journal.bridge.watering import climate_of
from bluewright.journal.models import Change, Garden
from tests.cast import a_garden
from tests.web.checks import only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/weather/climate/"
TABLE = {f"low_{m}": f"{m} C" for m in range(12)} | {f"high_{m}": f"{m + 8} C" for m in range(12)}
RAIN = {f"rain_{m}": "2 in" for m in range(12)}


def test_twelve_months_are_written_down_and_shown_as_typed(client: Client, db: None) -> None:
    """Two inches are 50.8 mm by definition."""
    garden = a_garden()
    response = client.post(WHERE, TABLE | RAIN)
    assert (response.status_code, response["Location"]) == (302, url("weather.days"))
    months = climate_of(Garden.objects.get(pk=garden.pk))
    assert [(month.min_c, month.max_c) for month in months] == [(m, m + 8.0) for m in range(12)]
    assert months[6].rain_mm == pytest.approx(50.8)
    assert client.get(WHERE).context["form"].initial == TABLE | RAIN
    client.post(WHERE, TABLE | RAIN)
    assert Change.objects.filter(row_id=garden.pk).count() == 1, "nothing corrected is nothing written"


def test_without_rain_it_is_a_table_too_and_emptied_it_is_none(client: Client, garden: Garden) -> None:
    client.post(WHERE, TABLE)
    assert [month.rain_mm for month in climate_of(Garden.objects.get(pk=garden.pk))] == [None] * 12
    client.post(WHERE, {})
    assert climate_of(Garden.objects.get(pk=garden.pk)) == ()


def test_a_mistake_keeps_what_was_typed(client: Client, garden: Garden) -> None:
    refused(client, WHERE, TABLE | {"low_3": "cold"}, field="low_3", says="cold")
    refused(client, WHERE, TABLE | {"low_3": "30 C"}, field="low_3", says="above the highest")
    refused(client, WHERE, TABLE | {"low_3": ""}, field=None, says="all twelve months")
    refused(client, WHERE, TABLE | {"rain_3": "50 mm"}, field=None, says="rain of all twelve")
    assert Garden.objects.get(pk=garden.pk).climate == []


def test_the_weather_leads_here(client: Client, garden: Garden) -> None:
    assert WHERE in client.get(url("weather.days")).content.decode()


def test_a_stranger_s_climate_is_not_shown(client: Client, garden: Garden, other_garden: Garden) -> None:
    client.post(WHERE, TABLE)
    client.post(url("gardens.open", key=other_garden.pk))
    assert client.get(WHERE).context["form"].initial == {}


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client, db: None) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")
