"""A span of weather: gaps filled with a spread that keeps its word on measured weather, and sums through them."""

from datetime import date, timedelta
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.media.weather.climate import by_day
from bluewright.science.media.weather.days import weather_days
from bluewright.science.media.weather.days_record import WeatherAnswer, WeatherRecord
from bluewright.science.media.weather.filling import span
from tests.science.media.weather.seattle import LATITUDE_DEG, day, measured, normals

TABLE = [
    {"min_c": low, "max_c": high, "rain_mm": 50.0, "wet_d": 10.0}
    for low, high in zip(
        [1, 1, 3, 5, 8, 11, 13, 13, 10, 7, 4, 2.0], [6, 7, 10, 14, 18, 21, 23, 23, 19, 14, 9, 7.0], strict=True
    )
]  # fmt: skip
"""An invented climate."""
YEAR = span(date(2015, 1, 1), date(2015, 12, 31))


def answer(*, days: list[dict[str, Any]], first: str, last: str, table: bool = True, **fields: Any) -> WeatherAnswer:
    weather = {"latitude_deg": 52.0, "normals": TABLE if table else [], "days": days} | fields.pop("weather", {})
    record = read(WeatherRecord, {"weather": weather, "first": first, "last": last} | fields)
    return weather_days(record, rng=np.random.default_rng(record.seed))


def row(day: str, low: float, high: float, **more: Any) -> dict[str, Any]:
    return {"day": day, "min_c": low, "max_c": high} | more


@pytest.fixture(scope="module")
def half_known() -> WeatherAnswer:
    """Seattle in 2015 with every other fortnight lost, filled from the rest and the climate of 2012 to 2014."""
    kept = [day(when) for when in YEAR if (when.timetuple().tm_yday // 14) % 2 == 0]
    return answer(
        days=kept, first="2015-01-01", last="2015-12-31", rule="average",
        weather={"latitude_deg": LATITUDE_DEG, "normals": normals((2012, 2013, 2014))},
    )  # fmt: skip


def test_ranges_of_lost_days_hold_the_measured_temperature_about_nine_times_in_ten(half_known: WeatherAnswer) -> None:
    lost = [found for found in half_known.days if found.known == "filled"]
    assert len(lost) > 170
    for name, place in (("min_c", 0), ("max_c", 1)):
        held = [getattr(f, name).p5 <= measured()[f.day][place] <= getattr(f, name).p95 for f in lost]
        assert 0.84 <= float(np.mean(held)) <= 0.97, name


def test_the_sum_through_gaps_holds_that_of_the_whole_record(half_known: WeatherAnswer) -> None:
    """By hand from the measured days: the sum of means above 5 C; rain in mm."""
    truth = sum(max((measured()[d][0] + measured()[d][1]) / 2 - 5.0, 0.0) for d in YEAR)
    assert half_known.degree_d.p5 <= truth <= half_known.degree_d.p95
    assert half_known.degree_d.p95 - half_known.degree_d.p5 < 0.15 * truth
    assert half_known.rain_mm.p5 <= sum(measured()[d][2] for d in YEAR) <= half_known.rain_mm.p95


def test_a_day_between_two_that_were_read_is_known_better_than_one_in_a_lost_month() -> None:
    days = [row(d.isoformat(), 9.0, 19.0) for d in span(date(2026, 5, 1), date(2026, 5, 20)) if d.day != 10]
    found = answer(days=days, first="2026-05-01", last="2026-06-30")
    lone, lost = found.days[9].max_c, found.days[50].max_c
    assert found.days[9].known == found.days[50].known == "filled"
    assert lone.p95 - lone.p5 < 0.8 * (lost.p95 - lost.p5)


def test_without_any_day_the_climate_answers_as_wide_as_days_are() -> None:
    """Own hand: 23.2 C; season 1, day to day 9 times (1 + 0.45)^2 in July, half ranges 0.25 and 2.25: sd 4.7 C."""
    found = answer(days=[], first="2026-07-05", last="2026-07-25")
    assert found.basis == "climate"
    middle = found.days[10].max_c
    assert middle.p50 == pytest.approx(23.2, abs=0.5)
    assert middle.p95 - middle.p5 == pytest.approx(3.29 * 22.4**0.5, rel=0.12)


def test_one_temperature_alone_helps_the_other() -> None:
    hot = answer(days=[{"day": "2026-07-10", "min_c": 19.0}], first="2026-07-10", last="2026-07-12")
    usual = answer(days=[], first="2026-07-10", last="2026-07-12")
    assert hot.days[0].known == "part"
    assert hot.days[0].min_c.p50 == pytest.approx(19.0, abs=1.0)
    assert hot.days[0].max_c.p50 > usual.days[0].max_c.p50 + 1.0


def test_a_forecast_is_trusted_less_the_further_ahead() -> None:
    days = [row((date(2026, 7, 1) + timedelta(days=k)).isoformat(), 14.0, 26.0, forecast=True) for k in range(10)]
    found = answer(days=days, first="2026-07-01", last="2026-07-10", now="2026-06-30")
    near, far = found.days[0].max_c, found.days[9].max_c
    assert far.p95 - far.p5 > 1.2 * (near.p95 - near.p5)
    assert found.days_forecast == 10


def test_degree_days_of_days_that_were_read_are_those_of_the_rule() -> None:
    """Own hand: sixty days of 9 to 19 C above 5 C are 60 * 9 = 540, and 300 is reached on the 34th day, 3 June."""
    days = [row(d.isoformat(), 9.0, 19.0) for d in span(date(2026, 5, 1), date(2026, 6, 29))]
    found = answer(days=days, first="2026-05-01", last="2026-06-29", target_degree_d=300.0)
    assert found.degree_d.p50 == pytest.approx(540.0, rel=0.02)
    assert found.reached_on is not None
    assert found.reached_on.middle is not None
    assert abs((found.reached_on.middle - date(2026, 6, 3)).days) <= 1
    assert found.reached_chance == 1.0


def test_a_sum_that_may_not_be_reached_has_a_chance_and_no_last_day() -> None:
    found = answer(days=[], first="2026-05-01", last="2026-06-29", target_degree_d=590.0)
    assert found.reached_on is not None
    assert found.reached_chance is not None
    assert 0.02 < found.reached_chance < 0.95
    assert found.reached_on.late is None


def test_known_rain_is_kept_and_unknown_rain_is_not_dry() -> None:
    days = [row(d.isoformat(), 9.0, 19.0, rain_mm=4.0) for d in span(date(2026, 5, 1), date(2026, 5, 30))]
    known = answer(days=days, first="2026-05-01", last="2026-05-30")
    unknown = answer(days=[], first="2026-05-01", last="2026-05-30", now="2026-05-30")
    assert known.rain_mm.p50 == pytest.approx(120.0, rel=0.03)
    assert 25.0 < unknown.rain_mm.p50 < 75.0
    assert unknown.rain_mm.p95 > 1.5 * unknown.rain_mm.p50
    assert "rain-unknown" in {c.code for c in unknown.cautions}
    assert "rain-unknown" not in {c.code for c in known.cautions}


def test_what_is_measured_narrows_the_evaporation() -> None:
    """Wet, still and dull days give less; FAO-56's rules for missing figures are wider than figures."""
    plain = [row(d.isoformat(), 12.0, 22.0) for d in span(date(2026, 7, 1), date(2026, 7, 10))]
    full = [each | {"humidity_frac": 0.7, "wind_m_per_s": 2.0, "sunshine_h": 8.0} for each in plain]
    dull = [each | {"humidity_frac": 0.9, "wind_m_per_s": 1.0, "sunshine_h": 1.0} for each in plain]
    guessed, known, damp = (
        answer(days=days, first="2026-07-01", last="2026-07-10").eto_mm for days in (plain, full, dull)
    )  # fmt: skip
    assert known.p95 - known.p5 < 0.85 * (guessed.p95 - guessed.p5)
    assert damp.p50 < 0.7 * known.p50


@settings(max_examples=30)
@given(months=st.lists(st.floats(-20, 35), min_size=12, max_size=12))
def test_a_daily_curve_keeps_the_mean_of_every_month(months: list[float]) -> None:
    year = span(date(2026, 1, 1), date(2026, 12, 31))
    curve = by_day(months, year)
    for month in range(12):
        mine = [value for when, value in zip(year, curve, strict=True) if when.month == month + 1]
        assert float(np.mean(mine)) == pytest.approx(months[month], abs=1e-6)


def test_the_south_has_its_summer_in_january() -> None:
    south = answer(days=[], first="2026-01-10", last="2026-01-20", table=False, weather={"latitude_deg": -40.0})
    north = answer(days=[], first="2026-01-10", last="2026-01-20", table=False, weather={"latitude_deg": 40.0})
    assert south.days[5].max_c.p50 > north.days[5].max_c.p50 + 8.0
    assert "season-only" in {c.code for c in south.cautions}


@pytest.mark.parametrize(
    ("days", "fields", "said"),
    [
        ([row("2026-05-02", 9, 19), row("2026-05-01", 9, 19)], {}, r"weather.days\[1\].day: .* sort the rows"),
        ([row("2026-05-02", 19, 9)], {}, r"weather.days\[0\].min_c: .* swapped"),
        ([row("2026-05-03", 9, 19)], {"now": "2026-05-02"}, "say forecast true"),
        ([], {"last": "2026-04-30"}, "last: it is before the first day"),
        ([], {"last": "2027-08-01"}, "ask for a shorter span"),
        ([], {"cutoff_c": 5.0}, "cutoff_c: 5 C is not above the base"),
        ([], {"weather": {"normals": TABLE[:5]}}, "give all twelve"),
        ([row("2026-05-02", 9, 19, humidity_low_frac=0.5)], {}, "give both"),
    ],
    ids=["order", "swapped", "ahead", "backwards", "long", "cutoff", "months", "humidity"],
)
def test_what_cannot_be_is_refused_with_what_would_be_right(
    days: list[dict[str, Any]], fields: dict[str, Any], said: str
) -> None:
    with pytest.raises(InputError, match=said):
        answer(**({"days": days, "first": "2026-05-01", "last": "2026-05-30"} | fields))
