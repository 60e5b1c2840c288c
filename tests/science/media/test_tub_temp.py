"""Tub temperature from a record: rows, answer, cautions, bad input."""

from datetime import datetime, timedelta

import numpy as np
import pytest

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import dump, read
from bluewright.science.media.tub_temp import air_points, tub_temp
from bluewright.science.media.tub_temp_record import TubTempAnswer, TubTempRecord

STARTED = datetime.fromisoformat("2026-07-03T11:00+01:00")


def at(hours: float) -> str:
    return (STARTED + timedelta(hours=hours)).isoformat()


def day(number: int, min_c: float, max_c: float, **other: object) -> dict[str, object]:
    return {"day": f"2026-07-{number:02d}", "min_c": min_c, "max_c": max_c} | other


def made(**fields: object) -> TubTempRecord:
    return read(TubTempRecord, {"liquid_l": 50.0, "started": at(0), "until": at(72)} | fields)


def answer(**fields: object) -> TubTempAnswer:
    return tub_temp(made(**fields), rng=np.random.default_rng(1))


DAYS = [day(3, 11.0, 21.0), day(4, 12.0, 23.0), day(5, 13.0, 22.0), day(6, 12.0, 20.0)]


def test_a_day_gives_its_minimum_at_six_and_its_maximum_at_three() -> None:
    """Own hand: started 11:00 on the 3rd, so 06:00 on the 4th is hour 19 and 15:00 is hour 28."""
    found = air_points(made(days=[day(4, 12.0, 23.0)]), now_h=0.0)
    assert found.hours.tolist() == [19.0, 28.0]
    assert found.temp_c.tolist() == [12.0, 23.0]
    assert found.sd_c.tolist() == [1.0, 1.0]


def test_a_forecast_is_the_less_trusted_the_further_ahead() -> None:
    """Own hand: 1.5 + 0.3 * 19/24 = 1.74 C for tomorrow at six, 0.3 C more the day after; a given error is kept."""
    rows = [
        day(4, 12.0, 23.0, forecast=True),
        day(5, 12.0, 23.0, forecast=True),
        day(6, 12, 23, forecast=True, error_c=4.0),
    ]
    found = air_points(made(days=rows), now_h=0.0)
    assert found.sd_c[0] == pytest.approx(1.7375)
    assert found.sd_c[2] - found.sd_c[0] == pytest.approx(0.3)
    assert found.sd_c[4] == 4.0


def test_a_forecast_hour_is_less_trusted_than_one_that_was_read() -> None:
    """Own hand: 1.5 + 0.3 * 12/24 = 1.65 C half a day ahead; 0.7 C for what was read."""
    rows = [{"time": at(0), "temp_c": 15.0}, {"time": at(12), "temp_c": 15.0, "forecast": True}]
    assert air_points(made(air=rows), now_h=0.0).sd_c.tolist() == pytest.approx([0.7, 1.65])


def test_water_kept_at_the_boil_is_answered() -> None:
    assert answer(hold_c=100.0, hold_error_c=0.1).mean_c.p50 == pytest.approx(100.0, abs=0.5)


def test_a_dense_logger_series_is_taken_as_hourly_means() -> None:
    """Own hand: six points 10 minutes apart, 15 to 20 C, make one of 17.5 C at their middle, 25 minutes past."""
    rows = [{"time": at(k / 6), "temp_c": 15.0 + k} for k in range(6)]
    found = air_points(made(air=rows), now_h=0.0)
    assert found.temp_c.tolist() == [17.5]
    assert found.hours[0] == pytest.approx(25 / 60)


def test_air_read_long_before_is_left_out() -> None:
    assert not len(air_points(made(air=[{"time": at(-300), "temp_c": 3.0}]), now_h=0.0).hours)


def test_the_tub_stays_near_the_mean_of_the_air_and_swings_less() -> None:
    """Law: a lidded tub of 50 L damps the daily swing (air 10 C) to less than half and stands near its mean."""
    found = answer(days=DAYS, tub={"sun": "shade"})
    assert 15.0 < found.mean_c.p50 < 18.0
    middle = [point.p50 for point in found.curve[24:]]
    assert 1.5 < max(middle) - min(middle) < 5.0


def test_a_wrapped_tub_swings_less_than_a_bare_one() -> None:
    def swing(insulated: bool) -> float:
        middle = [point.p50 for point in answer(days=DAYS, tub={"insulated": insulated}).curve[24:]]
        return max(middle) - min(middle)

    assert swing(True) < 0.6 * swing(False)


def test_the_sun_warms_the_tub() -> None:
    shade, full = (answer(days=DAYS, tub={"sun": sun}).mean_c.p50 for sun in ("shade", "full"))
    assert 1.0 < full - shade < 5.0


def test_air_narrows_the_season_and_readings_narrow_the_air() -> None:
    answers = [answer(), answer(days=DAYS), answer(days=DAYS, readings=[{"time": at(24), "temp_c": 18.0}])]
    assert [found.basis for found in answers] == ["prior", "air", "readings"]
    widths = [found.mean_c.p95 - found.mean_c.p5 for found in answers]
    assert widths[0] > 3 * widths[1] > 3 * widths[2]


def test_readings_teach_how_fast_this_tub_follows() -> None:
    """A tub of water at 45 C, cooling by a time constant of 20 h; the walls alone say 12 h."""
    rows = [{"time": at(h), "temp_c": 17 + 28 * np.exp(-h / 20), "error_c": 0.3} for h in (0.0, 6.0, 12.0, 18.0)]
    found = answer(days=DAYS, tub={"sun": "shade"}, readings=rows)
    assert found.tau_h is not None
    assert found.tau_before_h.p50 < found.tau_h.p50
    assert found.tau_h.p5 < 20 < found.tau_h.p95
    assert found.tau_h.p95 / found.tau_h.p5 < 0.6 * found.tau_before_h.p95 / found.tau_before_h.p5


def test_one_more_reading_helps_where_nothing_was_read() -> None:
    first = answer(days=DAYS).one_more_reading
    again = answer(days=DAYS, readings=[{"time": at(0), "temp_c": 16.0}]).one_more_reading
    assert first is not None and again is not None
    gain = first.mean_width_without_c - first.mean_width_with_c
    assert gain > 0.3
    assert again.mean_width_without_c - again.mean_width_with_c < 0.5 * gain
    assert answer(now=at(72)).one_more_reading is None


def test_degree_hours_are_the_mean_above_the_base_times_the_hours() -> None:
    """Own hand: never below the base, so (mean - 5 C) * 72 h."""
    found = answer(days=DAYS)
    assert found.degree_h.p50 == pytest.approx((found.mean_c.p50 - 5.0) * 72, rel=0.01)
    assert answer(days=DAYS, base_c=40.0).degree_h.p50 == 0


def test_the_curve_is_hourly_and_ordered() -> None:
    curve = answer().curve
    assert len(curve) == 73
    assert curve[1].time - curve[0].time == timedelta(hours=1)
    assert all(point.p5 <= point.p50 <= point.p95 for point in curve)


def test_seasons_are_half_a_year_apart_in_the_south() -> None:
    assert answer().mean_c.p50 - answer(hemisphere="south").mean_c.p50 > 8


def test_a_held_tub_has_no_time_constant_and_a_hot_one_a_caution() -> None:
    found = answer(hold_c=75.0)
    assert found.tau_h is None
    assert found.mean_c.p50 == pytest.approx(75.0, abs=0.5)
    assert "scald" in {c.code for c in found.cautions}
    assert any("7" in c.text for c in found.cautions)


def test_cautions_say_what_is_missing_or_doubtful() -> None:
    def codes(**fields: object) -> set[str]:
        return {c.code for c in answer(**fields).cautions}

    assert codes() == {"season-only"}
    assert codes(days=DAYS) == set()
    assert "outside-range" in codes(days=[day(3, -20.0, -8.0), day(4, -22.0, -9.0), day(5, -21.0, -9.0)])
    assert "outside-range" in codes(until=at(15 * 24))
    odd = [{"time": at(h), "temp_c": t, "error_c": 0.2} for h, t in ((10.0, 17.0), (10.2, 27.0), (10.4, 17.0))]
    assert "doubtful-reading" in codes(days=DAYS, readings=odd)


def test_the_answer_is_plain_json_and_repeats_with_its_seed() -> None:
    assert dump(answer(days=DAYS)) == dump(answer(days=DAYS))


@pytest.mark.parametrize(
    ("fields", "said"),
    [
        ({"until": at(-1)}, "until: it is not after started"),
        ({"until": at(24 * 32)}, "until: it is 31 days or more"),
        ({"now": at(80)}, "now: it is not between"),
        ({"readings": [{"time": at(5), "temp_c": 15.0}], "now": at(4)}, r"readings\[0\].time: this lies after now"),
        ({"air": [{"time": at(5), "temp_c": 15.0}], "now": at(4)}, r"air\[0\].time: this lies after now"),
        ({"days": [day(4, 10.0, 20.0)], "now": at(4)}, r"days\[0\].day: this lies after now; .* forecast true"),
        ({"readings": [{"time": at(-5), "temp_c": 15.0}]}, r"readings\[0\].time: this reading is not between"),
        (
            {"readings": [{"time": at(5), "temp_c": 15.0}, {"time": at(3), "temp_c": 15.0}]},
            r"readings\[1\].time: .* does not come after",
        ),
        ({"air": [{"time": at(5), "temp_c": 15.0}, {"time": at(5), "temp_c": 15.0}]}, r"air\[1\].time: .* after"),
        ({"days": [day(5, 10, 20), day(4, 10, 20)]}, r"days\[1\].day: 2026-07-04 does not come after"),
        ({"days": [day(5, 21.0, 20.0)]}, r"days\[0\].min_c: the minimum 21 C is above the maximum 20 C"),
        ({"days": [day(5, -31.0, 20.0)]}, r"days\[0\].min_c: -31.0 is not possible here; it must be at least -30"),
        ({"air": [{"time": at(5), "temp_c": 101.0}]}, r"air\[0\].temp_c: 101.0 .* at most 100"),
        ({"readings": [{"time": at(5), "temp_c": float("nan")}]}, "temp_c"),
        ({"liquid_l": 0.0}, "liquid_l: 0.0 is not possible here; it must be more than 0"),
        ({"started": "2026-07-03T11:00"}, "started: .*offset"),
        ({"tub": {"sun": "dappled"}}, "tub.sun: 'dappled'"),
    ],
)
def test_impossible_input_is_refused_with_its_field(fields: dict[str, object], said: str) -> None:
    with pytest.raises(InputError, match=said):
        answer(**fields)
