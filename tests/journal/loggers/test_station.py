"""Rain, humidity, wind and sun of a station's lines become those of days."""

from dataclasses import replace
from datetime import date, datetime, timedelta
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from bluewright.journal.loggers import station
from bluewright.journal.loggers.columns import Columns, guess
from bluewright.journal.loggers.reading import read_all

UTC = ZoneInfo("UTC")
HOURLY = ["Time,Temp C,RH %,Wind speed (km/h),Wind dir,Solar radiation W/m2,Rain (mm),Rain rate"]
DAILY = ["Date;Max temp C;Min temp C;Precipitation mm;Sunshine hours", "21.07.2026;24,5;12,0;3,2;7,5"]


def hourly(
    columns: Columns, *, hours: int = 24, rain: float = 0.5, first: str = "2026-07-01 00:00"
) -> tuple[list[station.Day], int]:
    start = datetime.fromisoformat(first)
    body = [
        f"{start + timedelta(hours=k):%Y-%m-%d %H:%M},15,{60 + k % 2 * 20},18,270,{400 if 6 <= k < 18 else 0},{rain},0"
        for k in range(hours)
    ]
    found = read_all([*HOURLY, *body], columns, zone=UTC, low_c=-30, high_c=60)
    values = {name: np.array(every) for name, every in found.beside.items()}
    return station.days(np.array(found.seconds), values, columns, zone=UTC)


def hourly_columns() -> Columns:
    found = guess([*HOURLY, "2026-07-01 00:00,15,60,18,270,0,0.5,0"])
    return replace(found, zone="utc")


def test_columns_are_guessed_by_their_names_where_only_one_bears_it() -> None:
    """Of two columns of rain neither is taken: a person says which."""
    found = hourly_columns()
    assert (found.humidity_column, found.wind_column, found.wind_unit) == (2, 3, "km/h")
    assert (found.sun_column, found.sun_unit, found.rain_column, found.daily) == (5, "W/m2", None, False)
    daily = guess(DAILY)
    assert daily.daily
    assert (daily.temp_column, daily.low_column, daily.rain_column) == (1, 2, 3)
    assert (daily.sun_column, daily.sun_unit, daily.order, daily.zone) == (4, "h", "dmy", "garden")


def test_hours_become_a_day() -> None:
    """Own hand: 24 x 0.5 mm; 60 and 80 % in turn; 18 km/h are 5 m/s; 400 W/m2 for half a day are 17.28 MJ/m2."""
    columns = replace(hourly_columns(), rain_column=6)
    (day,), parts = hourly(columns)
    assert parts == 0
    assert day == station.Day(
        day=date(2026, 7, 1), rain_mm=12.0, humidity_frac=0.7, humidity_low_frac=0.6, humidity_high_frac=0.8,
        wind_m_per_s=5.0, radiation_mj_per_m2=17.28,
    )  # fmt: skip


def test_wind_at_ten_metres_is_brought_down_to_two() -> None:
    """FAO-56, equation 47, and its example 14: 3.2 m/s at 10 m are 2.4 m/s at 2 m, a factor of 0.75."""
    (day,), _parts = hourly(replace(hourly_columns(), wind_height_m="10"))
    assert day.wind_m_per_s == pytest.approx(5.0 * 2.4 / 3.2, rel=0.01)


@pytest.mark.parametrize(("hours", "days", "parts"), [(19, 0, 1), (20, 1, 0), (43, 1, 1), (44, 2, 0)])
def test_a_day_counts_from_twenty_hours_on(hours: int, days: int, parts: int) -> None:
    found, left = hourly(hourly_columns(), hours=hours)
    assert (len(found), left) == (days, parts)


def test_a_running_total_is_parted_into_days_and_may_begin_anew() -> None:
    """Own hand: 0.1, 0.2 ... mm each hour; after 30 hours it falls back to nothing: 0.1 mm each hour all the same."""
    columns = replace(hourly_columns(), rain_column=6, rain_how="total")
    totals = [0.1 * (k % 30) for k in range(48)]
    seconds = np.arange(48) * 3600
    found, _parts = station.days(seconds, {"rain": np.array(totals)}, columns, zone=UTC)
    first, second = (one.rain_mm for one in found)
    assert first == pytest.approx(2.3), "the first line tells nothing of the hour before it"
    assert second == pytest.approx(2.3), "nor does the one of the reset, 0"


def test_days_are_those_of_the_garden_s_clock() -> None:
    """Berlin in July is two hours ahead: 24 hours from 22:00 UTC are its day."""
    columns = replace(hourly_columns(), rain_column=6)
    seconds = int(datetime(2026, 6, 30, 22, tzinfo=UTC).timestamp()) + 3600 * np.arange(24)
    (day,), parts = station.days(seconds, {"rain": np.full(24, 0.5)}, columns, zone=ZoneInfo("Europe/Berlin"))
    assert (day.day, day.rain_mm, parts) == (date(2026, 7, 1), 12.0, 0)


def test_cells_that_cannot_be_are_empty_and_say_nothing() -> None:
    columns = replace(hourly_columns(), rain_column=6)
    assert station.in_own_unit("humidity", 130.0, columns) is None
    assert station.in_own_unit("rain", -1.0, columns) is None
    assert station.in_own_unit("wind", 36.0, columns) == pytest.approx(10.0)
    assert station.in_own_unit("rain", 1.0, replace(columns, rain_unit="in")) == 25.4
    assert station.in_own_unit("low", 50.0, replace(columns, unit="f")) == pytest.approx(10.0)


def test_a_line_with_rain_and_no_temperature_keeps_its_rain() -> None:
    """Empty or a sign for nothing; what is written there and is no temperature stays a mistake of the line."""
    lines = [*DAILY, "22.07.2026;;11,0;4,1;0", "23.07.2026;--;;0;", "24.07.2026;12:30;10;0;0", "25.07.2026;;;;"]
    found = read_all(lines, guess(DAILY), zone=UTC, low_c=-30, high_c=60)
    assert np.isnan(found.temps_c).tolist() == [False, True, True]
    assert found.beside["rain"].tolist() == [3.2, 4.1, 0.0]
    assert [line for line, _why in found.told] == [5, 6]


def test_a_day_s_line_needs_no_hours() -> None:
    columns = guess(DAILY)
    found = read_all(DAILY, columns, zone=UTC, low_c=-30, high_c=60)
    values = {name: np.array(every) for name, every in found.beside.items()}
    days, parts = station.days(np.array(found.seconds), values, columns, zone=UTC)
    assert (days, parts) == ([station.Day(day=date(2026, 7, 21), rain_mm=3.2, sunshine_h=7.5)], 0)
