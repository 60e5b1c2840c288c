"""How numbers, times and cautions are said. Expected texts are own hand, from the rules in the docstrings."""

import re
from datetime import UTC, datetime
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import bluewright.science
from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.words.numbers import (
    NOTES,
    about,
    by_scale,
    cautions,
    clock,
    day,
    day_of_year,
    days,
    figure,
    frac,
    hour,
    hours,
    minutes,
    moment,
    percent,
    ranged,
    rough,
    weekday,
    weekday_short,
)
from bluewright.words.reader import read_by


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (0.0, "0"),
        (0.00012345, "0.00012"),
        (0.5, "0.5"),
        (0.999, "1"),
        (4.84, "4.8"),
        (9.96, "10"),
        (12.4, "12"),
        (99.4, "99"),
        (99.6, "100"),
        (123.4, "123"),
        (1234.5, "1,230"),
        (1234567.0, "1,230,000"),
        (-4.84, "−4.8"),
        (1e-9, "0.000000001"),
    ],
)
def test_figures_are_short_and_plain(value: float, said: str) -> None:
    assert figure(value) == said


@pytest.mark.parametrize(("value", "said"), [(0.0, "0"), (4.84, "4.8"), (111.0, "110"), (1630.0, "1,600")])
def test_rough_figures_have_two_digits(value: float, said: str) -> None:
    assert rough(value) == said


@given(value=st.floats(-1e9, 1e9).filter(lambda v: v == 0 or abs(v) > 1e-9))
def test_a_figure_is_near_its_value_and_never_has_an_exponent(value: float) -> None:
    for said in (figure(value), rough(value)):
        assert re.fullmatch(r"−?[\d,]+(\.\d+)?", said)
        assert float(said.replace(",", "").replace("−", "-")) == pytest.approx(value, rel=0.051, abs=1e-12)


@given(one=st.floats(0, 1e6), other=st.floats(0, 1e6))
def test_figures_keep_order(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert float(figure(low).replace(",", "")) <= float(figure(high).replace(",", ""))


def test_a_band_is_said_with_its_range() -> None:
    found = Band(p5=2.83, p50=4.81, p95=7.2)
    assert ranged(found, "g") == "4.8 g (2.8 to 7.2)"
    assert ranged(found, "") == "4.8 (2.8 to 7.2)"
    assert frac(Band(p5=0.55, p50=0.821, p95=1.0)) == "82% (55 to 100)"


@pytest.mark.parametrize(
    ("low", "mid", "high", "said"),
    [
        (149.0, 333.0, 958.0, "330 g (150 to 960)"),
        (8.4, 16.0, 29.0, "16 g (8 to 29)"),
        (0.058, 0.18, 0.56, "0.18 g (0.06 to 0.56)"),
        (0.04, 3.0, 40.0, "3 g (0.04 to 40)"),
        (0.0, 0.0, 6.91, "0 g (0 to 6.9)"),
        (38.91, 39.24, 39.48, "39.2 g (38.9 to 39.5)"),
        (163.2, 165.1, 166.8, "165 g (163 to 167)"),
        (97.0, 101.0, 105.0, "101 g (97 to 105)"),
        (74.3, 75.9, 77.3, "76 g (74 to 77)"),
        (13.8, 14.6, 15.4, "14.6 g (13.8 to 15.4)"),
        (5.0, 5.0, 5.0, "5 g"),
    ],
)
def test_the_ends_of_a_range_are_no_finer_than_its_middle(low: float, mid: float, high: float, said: str) -> None:
    assert ranged(Band(p5=low, p50=mid, p95=high), "g") == said


@given(values=st.lists(st.floats(1e-6, 1e6), min_size=3, max_size=3))
def test_a_range_that_is_said_keeps_order_and_never_loses_an_end(values: list[float]) -> None:
    low, mid, high = sorted(values)
    said = ranged(Band(p5=low, p50=mid, p95=high), "g")
    numbers = [float(n.replace(",", "")) for n in re.findall(r"[\d,.]+", said)]
    if len(numbers) == 1:
        assert [numbers[0]] * 3 == pytest.approx(values, rel=0.05), "two figures are all that is said"
        return
    assert numbers[1] <= numbers[0] * 1.0001 <= numbers[2] * 1.001
    assert all(number > 0 for number in numbers)


def test_long_times_are_said_in_larger_units() -> None:
    assert minutes(Band(p5=11, p50=30, p95=69)) == "30 minutes (11 to 69)"
    assert minutes(Band(p5=76, p50=250, p95=1128)) == "4.2 h (1.3 to 19)"
    assert hours(Band(p5=7.3, p50=9.7, p95=12)) == "9.7 h (7.3 to 12)"
    assert hours(Band(p5=69, p50=110, p95=156)) == "4.6 days (2.9 to 6.5)"


@pytest.mark.parametrize(
    ("value", "said"),
    [(12.3, "12.3"), (7.3, "7.3"), (0.25, "0.25"), (99.96, "100"), (412.6, "413"), (1234.4, "1,234"), (0.0, "0")],
)
def test_what_a_scale_tells_can_be_added_up(value: float, said: str) -> None:
    assert by_scale(value) == said


@pytest.mark.parametrize(
    ("value", "said"),
    [
        (0.0, "under 1%"),
        (0.001, "under 1%"),
        (0.005, "under 1%"),
        (0.006, "1%"),
        (0.07, "7%"),
        (0.991, "99%"),
        (0.995, "over 99%"),
        (1.0, "over 99%"),
    ],
)
def test_a_chance_is_never_said_to_be_none_or_certain(value: float, said: str) -> None:
    assert percent(value) == said


def test_moments_are_said_as_people_do() -> None:
    time = datetime(2026, 7, 6, 8, 19, tzinfo=UTC)
    assert moment(time) == "Mon 6 Jul 08:19"
    assert about(time) == "Mon 6 Jul 08:00"
    assert about(time.replace(hour=23, minute=30)) == "Tue 7 Jul 00:00"
    assert day(time) == "6 Jul 2026"
    assert (weekday(time), day_of_year(time), weekday_short(time)) == ("Mon 6 Jul", "6 Jul", "Mon 6")
    assert (clock(time), hour(18)) == ("08:19", "18:00")


def test_a_us_reader_has_the_month_first_and_the_hours_twice_a_day() -> None:
    time = datetime(2026, 7, 6, 18, 5, tzinfo=UTC)
    with read_by(dates="month_first"):
        assert moment(time) == "Mon, Jul 6, 6:05\u00a0pm"
        assert about(time.replace(hour=23, minute=30)) == "Tue, Jul 7, 12:00\u00a0am"
        assert moment(time.replace(hour=12)) == "Mon, Jul 6, 12:05\u00a0pm"
        assert day(time) == "Jul 6, 2026"
        assert [hour(h) for h in (0, 6, 12, 23)] == ["12\u00a0am", "6\u00a0am", "12\u00a0pm", "11\u00a0pm"]
    assert moment(time) == "Mon 6 Jul 18:05"


@pytest.mark.parametrize(
    ("dates", "first", "said"),
    [
        ("day_first", datetime(2026, 7, 6, 8, tzinfo=UTC), "6 Jul 2026"),
        ("day_first", datetime(2026, 6, 28, tzinfo=UTC), "28 Jun to 6 Jul 2026"),
        ("day_first", datetime(2025, 12, 28, tzinfo=UTC), "28 Dec 2025 to 6 Jul 2026"),
        ("month_first", datetime(2026, 6, 28, tzinfo=UTC), "Jun 28 to Jul 6, 2026"),
    ],
)
def test_a_span_of_days_names_the_year_once(dates: str, first: datetime, said: str) -> None:
    with read_by(dates=dates):
        assert days(first, datetime(2026, 7, 6, 18, tzinfo=UTC)) == said


def test_cautions_come_last_after_a_blank_line_those_that_could_hurt_first() -> None:
    assert cautions(()) == []
    heavy = Caution(code="lifting", text="Heavy.", source="common-practice")
    rough_scale = Caution(code="coarse-scale", text="Weigh finer.", source="common-practice")
    assert cautions((heavy,)) == ["", "Take care: Heavy."]
    assert cautions((rough_scale, heavy)) == ["", "Take care: Heavy.", "Note: Weigh finer."]


def test_every_note_is_the_code_of_a_caution() -> None:
    science = Path(bluewright.science.__path__[0])
    text = "".join(path.read_text(encoding="utf-8") for path in science.rglob("*.py"))
    for code in NOTES:
        assert f'"{code}"' in text, code
