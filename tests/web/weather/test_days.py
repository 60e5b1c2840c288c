"""`/weather/`: the lowest and highest of the days about now."""

from datetime import timedelta

import pytest
from django.test import Client
from django.utils import timezone

from bluewright.journal.actions.keeping import delete, keep
from bluewright.journal.models import AirTemp, Change, Garden, Intake, RainDay, StationDay
from tests.cast import a_day, a_garden
from tests.web.checks import flat, no_rows, only, refused, to_the_start_without_a_garden, url

pytestmark = pytest.mark.django_db
WHERE = "/weather/"


def field(end: str, days_ahead: int) -> str:
    from zoneinfo import ZoneInfo

    day = timezone.localdate(timezone=ZoneInfo("Europe/London")) + timedelta(days=days_ahead)
    return f"{end}_{day.isoformat()}"


@pytest.fixture
def bare(db: None) -> Garden:
    """A garden without weather."""
    return a_garden()


def test_what_is_past_was_read_and_what_is_to_come_is_forecast(client: Client, bare: Garden) -> None:
    """68 F is (68 - 32) * 5/9 = 20 C."""
    assert client.get(WHERE).status_code == 200
    response = client.post(WHERE, {field("low", -1): "11", field("high", 2): "68 F"})
    assert (response.status_code, response["Location"]) == (302, url("today"))
    past, coming = AirTemp.objects.filter(garden=bare)
    assert (past.temp_c, past.temp_typed, past.forecast) == (11.0, "11 C", False)
    assert coming.temp_c == pytest.approx(20.0)
    assert (coming.temp_typed, coming.forecast) == ("68 F", True)


def test_a_lowest_falls_at_six_and_a_highest_at_three_by_the_garden_s_clock(client: Client) -> None:
    """Auckland has whole-day offsets from UTC of 12 or 13 h, so a mix-up of clocks would show."""
    from zoneinfo import ZoneInfo

    zone = ZoneInfo("Pacific/Auckland")
    a_garden(time_zone="Pacific/Auckland", hemisphere="south")
    day = timezone.localdate(timezone=zone) - timedelta(days=1)
    client.post(WHERE, {f"low_{day.isoformat()}": "9 C", f"high_{day.isoformat()}": "19 C"})
    assert [row.time.astimezone(zone).hour for row in AirTemp.objects.all()] == [6, 15]
    assert {row.time.astimezone(zone).date() for row in AirTemp.objects.all()} == {day}


def test_rain_is_written_down_by_day_and_corrected(client: Client, bare: Garden) -> None:
    """Half an inch is 12.7 mm by definition; a dry day is a figure too."""
    client.post(WHERE, {field("rain", -1): "0.5 in", field("rain", -2): "0", field("rain", 2): "3 mm"})
    dry, wet, coming = RainDay.objects.filter(garden=bare)
    assert (dry.rain_mm, dry.rain_typed, dry.forecast) == (0.0, "0 mm", False)
    assert (wet.rain_mm, coming.forecast) == (pytest.approx(12.7), True)
    client.post(WHERE, {field("rain", -1): "1 mm", field("rain", -2): "0 mm"})
    assert [row.rain_mm for row in RainDay.objects.filter(garden=bare)] == [0.0, 1.0, 3.0]
    assert RainDay.everything.count() == 4
    refused(client, WHERE, {field("rain", 0): "much"}, field=field("rain", 0), says="much")


def test_what_is_known_is_shown_and_left_alone(client: Client, bare: Garden) -> None:
    client.post(WHERE, {field("low", -1): "11 C"})
    assert client.get(WHERE).context["form"].initial[field("low", -1)] == "11 C"
    client.post(WHERE, {field("low", -1): "11 C", field("high", -1): "20 C"})
    assert AirTemp.everything.count() == 2
    assert not Change.objects.exists()


def test_a_correction_counts_instead_of_what_was_wrong(client: Client, bare: Garden) -> None:
    client.post(WHERE, {field("low", -1): "11 C"})
    client.post(WHERE, {field("low", -1): "1 C"})
    assert [row.temp_c for row in AirTemp.objects.all()] == [1.0]
    assert AirTemp.everything.count() == 2


@pytest.mark.parametrize(("text", "says"), [("warm", "warm"), ("300 C", "cannot"), ("5 kg", "temperature")])
def test_a_mistake_keeps_what_was_typed(client: Client, bare: Garden, text: str, says: str) -> None:
    unchanged = no_rows(AirTemp)
    refused(client, WHERE, {field("low", 0): text, field("high", 0): "20 C"}, field=field("low", 0), says=says)
    unchanged()


def test_a_lowest_above_the_highest_is_a_mistake(client: Client, bare: Garden) -> None:
    refused(client, WHERE, {field("low", 0): "25", field("high", 0): "12"}, field=field("low", 0), says="above the")


def test_a_stranger_s_weather_is_not_shown_nor_touched(client: Client, garden: Garden, other_garden: Garden) -> None:
    client.post(url("gardens.open", key=other_garden.pk))
    assert client.get(WHERE).context["form"].initial == {}
    known = AirTemp.objects.filter(garden=garden).count()
    client.post(WHERE, {field("low", 0): "7 C"})
    assert AirTemp.objects.filter(garden=garden).count() == known


def test_before_the_first_garden_it_leads_to_the_beginning(client: Client) -> None:
    to_the_start_without_a_garden(client, WHERE)


def test_other_methods_are_refused(client: Client, garden: Garden) -> None:
    only(client, WHERE, "get", "post")


def test_more_weather_needs_no_more_statements(client: Client, bare: Garden) -> None:
    flat(client, WHERE, lambda: client.post(WHERE, {field("low", d): f"{d + 10} C" for d in range(-2, 4)}))


def test_what_a_station_said_stands_below_with_only_the_columns_that_it_has(client: Client, bare: Garden) -> None:
    assert client.get(WHERE).context["station"] is None
    intake = keep(Intake(garden=bare, file_name="gauge.csv", columns={}, signature="", report={}), by=None)
    StationDay.objects.create(intake=intake, day=a_day(1), rain_mm=5.2, humidity_frac=0.71)
    StationDay.objects.create(intake=intake, day=a_day(2), rain_mm=0.0)
    table = client.get(WHERE).context["station"]
    assert table.head == ("day", "rain, mm", "humidity")
    assert [cells[1:] for _advised, cells in table.rows] == [("5.2", "71%"), ("0", "–")]
    delete(intake, by=None)
    assert client.get(WHERE).context["station"] is None
