"""Scales and ticks."""

from datetime import UTC, datetime, timedelta, timezone
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.charts.scale import (
    Scale,
    day_spans,
    hour_ticks,
    inner_ticks,
    nights,
    outer_ticks,
    round_step,
)
from bluewright.charts.svg import number, shortened, text_width, wrapped
from bluewright.science.base.errors import InputError

START = datetime(2026, 7, 3, 11, tzinfo=timezone(timedelta(hours=1)))
finite = st.floats(-1e6, 1e6)


@given(low=finite, span=st.floats(1e-3, 1e6), one=st.floats(0, 1), other=st.floats(0, 1))
def test_a_scale_keeps_order_and_meets_its_ends(low: float, span: float, one: float, other: float) -> None:
    scale = Scale(low, low + span, 10.0, 200.0)
    assert scale(low) == 10.0
    assert scale(low + span) == pytest.approx(200.0)
    first, second = sorted((low + one * span, low + other * span))
    assert scale(first) <= scale(second)
    upwards = Scale(low, low + span, 200.0, 10.0)
    assert upwards(first) >= upwards(second)


@given(low=finite, span=st.floats(1e-3, 1e6), wanted=st.integers(2, 10))
def test_ticks_are_round_rising_and_not_too_many(low: float, span: float, wanted: int) -> None:
    inner, outer = inner_ticks(low, low + span, wanted=wanted), outer_ticks(low, low + span, wanted=wanted)
    step = round_step(span, wanted=wanted)
    for ticks in (inner, outer):
        assert all(b.at > a.at for a, b in pairwise(ticks))
        assert len({tick.label for tick in ticks}) == len(ticks)
        assert len(ticks) <= wanted + 3
    assert outer[0].at <= low + 1e-6 * step
    assert outer[-1].at >= low + span - 1e-6 * step
    assert all(low - 1e-6 * step <= tick.at <= low + span + 1e-6 * step for tick in inner)


def test_round_numbers_are_ones_twos_and_fives() -> None:
    """Own hand: 0 to 7.2 in about 5 pieces of 1.44 takes steps of 2; 0.31 to 0.47 in 0.032 takes steps of 0.05."""
    assert [t.label for t in outer_ticks(0.0, 7.2)] == ["0", "2", "4", "6", "8"]
    assert [t.label for t in outer_ticks(0.31, 0.47)] == ["0.30", "0.35", "0.40", "0.45", "0.50"]
    assert [t.label for t in inner_ticks(950.0, 2100.0, wanted=3)] == ["1,000", "1,500", "2,000"]


@pytest.mark.parametrize("value", [0.0, 5.0, -3.0])
def test_a_range_of_nothing_still_gets_an_axis(value: float) -> None:
    ticks = outer_ticks(value, value)
    assert ticks[0].at < value < ticks[-1].at


def test_a_scale_without_a_span_is_refused() -> None:
    with pytest.raises(InputError, match="scale: it runs from 2 to 2; a scale needs two finite values"):
        Scale(2.0, 2.0, 0.0, 1.0)
    with pytest.raises(InputError, match="spans nan"):
        inner_ticks(0.0, float("nan"))


def test_hours_are_counted_from_midnight_and_midnight_stays_bare() -> None:
    """Own hand: from 11:00 over five days, half-day steps: noon after 1 h, midnight after 13 h, ..."""
    ticks = hour_ticks(START, 120.0, most=10)
    assert [(t.at, t.label) for t in ticks[:3]] == [(1.0, "12:00"), (13.0, ""), (25.0, "12:00")]
    assert [t.label for t in hour_ticks(START, 5.0, most=10)] == [f"{h}:00" for h in range(11, 17)]


@pytest.mark.parametrize("span_h", [0.5, 3.0, 30.0, 120.0, 24.0 * 40, 24.0 * 400])
def test_a_time_axis_never_carries_too_many_ticks(span_h: float) -> None:
    assert len(hour_ticks(START, span_h, most=10)) <= 11


def test_days_follow_the_clock_of_the_start_and_cover_the_span() -> None:
    spans = day_spans(START, 40.0)
    assert [(low, high) for low, high, _ in spans] == [(0.0, 13.0), (13.0, 37.0), (37.0, 40.0)]
    assert [(noon.day, noon.hour) for _, _, noon in spans] == [(3, 12), (4, 12), (5, 12)]


def test_nights_are_cut_to_the_span() -> None:
    end = START + timedelta(hours=36)  # Saturday 23:00
    found = nights(START, end)
    assert [(a.hour, b.hour) for a, b in found] == [(21, 5), (21, 23)]
    early = datetime(2026, 7, 3, 2, tzinfo=UTC)
    assert nights(early, early + timedelta(hours=1)) == [(early, early + timedelta(hours=1))]


@given(value=st.floats(-1e5, 1e5))
def test_coordinates_are_short_and_plain(value: float) -> None:
    text = number(value)
    assert float(text) == pytest.approx(value, abs=0.0051)
    assert "e" not in text
    assert text != "-0"


def test_a_coordinate_that_is_not_finite_is_refused() -> None:
    with pytest.raises(ValueError, match="no place for nan"):
        number(float("nan"))


@given(text=st.text(max_size=200), width=st.floats(20, 400))
def test_wrapped_text_fits_its_width(text: str, width: float) -> None:
    lines = wrapped(text, size=15, width=width, most=3)
    assert len(lines) <= 3
    assert all(text_width(each, 15) <= width for each in lines)


def test_shortened_text_says_that_it_is() -> None:
    assert shortened("settle", size=15, width=200) == "settle"
    assert shortened("settle and wash and dry", size=15, width=80).endswith("…")
