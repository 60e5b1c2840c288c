"""A garden's weather and a bed's notes as the science takes them."""

from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from bluewright.journal.bridge.watering import bed_water_record, days_of
from bluewright.journal.models import Garden, RainDay
from tests import cast

ZONE = ZoneInfo("Europe/London")
TODAY = date(2026, 7, 10)


def at(day: int, hour: int) -> datetime:
    return datetime(2026, 7, day, hour, tzinfo=ZONE)


def test_a_day_s_lowest_and_highest_are_those_written_down() -> None:
    (day,) = days_of([(at(8, 6), 11.0, False), (at(8, 15), 22.0, False)], [], today=TODAY)
    assert (day.day, day.min_c, day.max_c, day.rain_mm, day.forecast) == (date(2026, 7, 8), 11.0, 22.0, None, False)


def test_a_logger_s_whole_day_tells_its_ends_and_a_part_of_one_does_not() -> None:
    whole = [(at(8, hour), 10.0 + hour / 2, False) for hour in range(24)]
    (day,) = days_of(whole, [], today=TODAY)
    assert (day.min_c, day.max_c) == (10.0, 21.5)
    (part,) = days_of([row for row in whole if row[0].hour in {8, 9, 10}], [], today=TODAY)
    assert (part.min_c, part.max_c) == (None, None)


def test_a_forecast_counts_for_today_and_later_but_not_for_days_that_are_past() -> None:
    rows = [(at(day, 15), 20.0, True) for day in (8, 10, 12)]
    rain = [RainDay(day=date(2026, 7, day), rain_mm=5.0, forecast=True) for day in (8, 12)]
    found = days_of(rows, rain, today=TODAY)
    assert [(day.day.day, day.max_c, day.rain_mm, day.forecast) for day in found] == [
        (10, 20.0, None, True), (12, 20.0, 5.0, True)
    ]  # fmt: skip


@pytest.mark.django_db
def test_notes_and_pickings_of_a_bed_become_its_record(garden: Garden) -> None:
    garden.latitude_deg = -41.0
    garden.save()
    bed = cast.a_bed(garden, area_m2=8.0, area_typed="8 m2", soil="clay", watered_by="drip")
    cast.a_water_note(bed, stage="full_cover", days_ago=90)
    cast.a_water_note(bed, water_l=50.0, water_typed="50 L", felt="dry", days_ago=4)
    cast.a_picking(garden, beds_of=[bed], picked_at=cast.moment(24 * 20))
    cast.a_rain(garden, 7.0, days_ago=2)
    today = cast.a_day()
    record = bed_water_record(bed, today=today)
    assert record is not None
    assert (record.area_m2, record.soil, record.way, record.now) == (8.0, "clay", "drip", today)
    assert [(row.day, row.water_l) for row in record.waterings] == [(cast.a_day(4), 50.0)]
    assert [row.soil for row in record.felt] == ["dry"]
    assert [row.stage for row in record.stages] == ["full_cover", "cut"]
    assert abs(record.stages[1].day - (today - timedelta(days=20))) <= timedelta(days=1)
    assert (cast.a_day(2), 7.0) in [(row.day, row.rain_mm) for row in record.weather.days]
    assert record.weather.latitude_deg == -41.0


@pytest.mark.django_db
def test_without_place_or_area_there_is_no_record(garden: Garden) -> None:
    assert bed_water_record(cast.a_bed(garden, area_m2=8.0), today=TODAY) is None
    garden.latitude_deg = 51.0
    garden.save()
    assert bed_water_record(cast.a_bed(garden, name="B"), today=TODAY) is None
