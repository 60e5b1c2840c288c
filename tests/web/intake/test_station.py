"""A weather station's file: brought in by a person once, read the same way ever after, used by the water of beds."""

from datetime import timedelta
from zoneinfo import ZoneInfo

import pytest
from django.contrib.auth import get_user_model
from django.test import Client

from bluewright.journal import transfer
from bluewright.journal.actions.keeping import delete
from bluewright.journal.bridge.watering import bed_water_record
from bluewright.journal.models import AirTemp, Garden, Intake, StationDay
from tests import cast
from tests.web.checks import url
from tests.web.intake.sent import READ, bring, send

pytestmark = pytest.mark.django_db
HEAD = "time,deg C,RH %,wind m/s,rain mm"
COLUMNS = {"humidity_column": "2", "wind_column": "3", "rain_column": "4"}


def hourly(days: int = 3) -> str:
    """Whole days by London's clock up to yesterday: 0.25 mm of rain each hour, 2 m/s, 70 %."""
    first = cast.moment(24 * days).astimezone(ZoneInfo("Europe/London")).replace(hour=0, minute=0)
    body = [f"{first + timedelta(hours=k):%Y-%m-%d %H:%M},{10 + k % 24},70,2,0.25" for k in range(24 * days)]
    return "\n".join([HEAD, *body, ""])


def daily(days: int = 4) -> str:
    body = [f"{cast.a_day(k):%d.%m.%Y};22,5;11,0;{k},0;6,5" for k in range(days, 0, -1)]
    return "\n".join(["day;max C;min C;rain mm;sunshine hours", *body, ""])


def test_hours_become_days_of_rain_humidity_and_wind(client: Client, garden: Garden) -> None:
    """Own hand: 24 x 0.25 mm are 6 mm."""
    intake = bring(client, hourly(), of=None, **COLUMNS)
    rows = StationDay.objects.filter(intake=intake)
    assert len(rows) >= 2, "an hour of summer time may be missing"
    assert {(row.rain_mm, row.humidity_frac, row.wind_m_per_s) for row in rows} == {(6.0, 0.7, 2.0)}
    told = client.get(url("intake.show", key=intake.pk)).context["page"].told
    assert any(line.startswith("Days with rain ") for line in told)


def test_they_reach_the_water_of_a_bed_and_what_a_person_wrote_goes_first(client: Client, garden: Garden) -> None:
    garden.latitude_deg = 51.0
    garden.save()
    bed = cast.a_bed(garden, area_m2=10.0, area_typed="10 m2")
    intake = bring(client, hourly(), of=None, **COLUMNS)
    cast.a_rain(garden, 1.5, days_ago=2)
    record = bed_water_record(bed, today=cast.a_day())
    assert record is not None
    days = {row.day: row for row in record.weather.days}
    assert (days[cast.a_day(2)].rain_mm, days[cast.a_day(2)].humidity_low_frac) == (1.5, 0.7)
    assert (days[cast.a_day(1)].rain_mm, days[cast.a_day(1)].wind_m_per_s) == (6.0, 2.0)
    assert (days[cast.a_day(1)].min_c, days[cast.a_day(1)].max_c) == (10.0, 33.0)
    delete(intake, by=None)
    record = bed_water_record(bed, today=cast.a_day())
    assert record is not None
    assert {row.rain_mm for row in record.weather.days} == {1.5, None}, (
        "what was taken out with its file counts no more"
    )


def test_whole_days_give_both_ends_where_people_write_them(client: Client, garden: Garden) -> None:
    """The columns and their meaning come from the names of the columns alone."""
    where = send(client, daily(), of=None)["Location"]
    form = client.get(where).context["form"]
    typed = {name: form[name].value() for name in form.fields}
    assert (typed["daily"], typed["low_column"], typed["rain_column"], typed["sun_unit"]) == ("day", 2, 3, "h")
    response = client.post(
        where, {k: "" if v is None else v for k, v in typed.items()} | {"do": "write", "order": "dmy"}
    )
    assert response.status_code == 302, response.context["form"].errors
    intake = Intake.objects.get()
    told = sorted((row.time.astimezone(ZoneInfo("Europe/London")).hour, row.temp_c) for row in
                  AirTemp.objects.filter(intake=intake))  # fmt: skip
    assert set(told) <= {(6, 11.0), (15, 22.5)}
    assert {row.sunshine_h for row in StationDay.objects.filter(intake=intake)} == {6.5}
    again = send(client, daily(2), of=None)["Location"]
    assert client.get(again).context["page"].remembered, "and the next file of that station is read alike"


def test_a_look_shows_what_else_a_line_says(client: Client, garden: Garden) -> None:
    where = send(client, hourly(), of=None)["Location"]
    rows = client.post(where, READ | COLUMNS | {"do": "look"}).context["page"].rows
    assert rows[0].beside == "rain 0.25 mm; humidity 70 %; wind 2 m/s"


@pytest.mark.parametrize(
    ("told", "field", "says"),
    [
        ({"rain_column": "1"}, "rain_column", "something else already"),
        ({"rain_column": "4", "wind_column": "4"}, "wind_column", "something else already"),
        ({"low_column": "2"}, "low_column", "whole day"),
        ({"sun_column": "9"}, "sun_column", "not one of"),
    ],
)
def test_a_mistake_keeps_what_was_told(
    client: Client, garden: Garden, told: dict[str, str], field: str, says: str
) -> None:
    response = client.post(send(client, hourly(), of=None)["Location"], READ | told)
    assert response.status_code == 422
    assert says in " ".join(response.context["form"].errors[field])
    assert not Intake.objects.exists()


def test_days_that_another_file_said_are_not_taken_twice(client: Client, garden: Garden) -> None:
    bring(client, hourly(2), of=None, **COLUMNS)
    many = StationDay.objects.count()
    where = send(client, hourly(4), of=None)["Location"]
    client.post(where, READ | COLUMNS)
    days = list(StationDay.objects.values_list("day", flat=True))
    assert len(days) == len(set(days)) > many


def test_of_a_tub_nothing_of_a_station_is_asked(client: Client, steeping: object) -> None:
    form = client.get(send(client, hourly(), of=steeping)["Location"]).context["form"]  # type: ignore[arg-type]
    assert form.station_fields() == []


def test_they_go_along_with_the_garden(client: Client, garden: Garden) -> None:
    bring(client, hourly(), of=None, **COLUMNS)
    before = list(StationDay.objects.order_by("day").values_list("day", "rain_mm"))
    whole = transfer.take_out(garden)
    Intake.everything.all().delete()
    for kind, _path in reversed(list(transfer.KINDS.values())):
        getattr(kind, "everything", kind.objects).all().delete()
    Garden.everything.filter(pk=garden.pk).delete()
    assert not StationDay.objects.exists()
    transfer.bring_in(whole, by=get_user_model().objects.create(username="Rowan"))
    assert list(StationDay.objects.order_by("day").values_list("day", "rain_mm")) == before


def of_days(head: str, value: str, days: int = 4) -> str:
    return "\n".join([f"day,{head}", *(f"{cast.a_day(k)},{value}" for k in range(days, 0, -1)), ""])


def by_its_names(client: Client, text: str, **other: str) -> Intake:
    """Brought in as it was guessed, but for what its text leaves open."""
    where = send(client, text, of=None)["Location"]
    form = client.get(where).context["form"]
    typed = {name: form[name].value() for name in form.fields}
    response = client.post(where, {k: "" if v is None else v for k, v in typed.items()} | {"do": "write"} | other)
    assert response.status_code == 302, response.context["form"].errors
    return Intake.objects.get(pk=where.split("/")[2])


def test_a_gauge_for_rain_and_a_meter_for_the_sun_without_temperatures_tell_of_the_same_days(
    client: Client, garden: Garden
) -> None:
    """Both reach the water of a bed; the second file is not called known because the first told of its days."""
    garden.latitude_deg = 51.0
    garden.save()
    bed = cast.a_bed(garden, area_m2=10.0, area_typed="10 m2")
    rain = by_its_names(client, of_days("Rain mm", "3.5"), order="ymd")
    assert (rain.columns["temp_column"], rain.report["written"]) == (None, 0)
    assert not AirTemp.objects.filter(intake=rain).exists()
    by_its_names(client, of_days("Radiation MJ", "14.2"), order="ymd")
    record = bed_water_record(bed, today=cast.a_day())
    assert record is not None
    days = {row.day: row for row in record.weather.days}
    assert (days[cast.a_day(2)].rain_mm, days[cast.a_day(2)].radiation_mj_per_m2) == (3.5, 14.2)
    page = client.get(url("intake.show", key=rain.pk)).context["page"]
    assert page.told[0] == "4 days written."
    again = send(client, of_days("Rain mm", "3.5"), of=None)["Location"]
    form = client.get(again).context["form"]
    typed = {name: "" if form[name].value() is None else form[name].value() for name in form.fields}
    refused = client.post(again, typed | {"do": "write", "order": "ymd"})
    assert refused.status_code == 422
    assert "here already" in refused.content.decode()


def test_without_a_temperature_something_else_must_be_named_and_a_tub_needs_one(client: Client, garden: Garden) -> None:
    where = send(client, of_days("Rain mm", "3.5"), of=None)["Location"]
    form = client.get(where).context["form"]
    typed = {name: "" if form[name].value() is None else form[name].value() for name in form.fields}
    response = client.post(where, typed | {"do": "write", "order": "ymd", "rain_column": ""})
    assert response.status_code == 422
    assert set(response.context["form"].errors) == {"temp_column"}
