"""Filtering: Ruth's equation and what is left to wait."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.settle.filtering import filter_time, filtered_h, filtrate_l
from bluewright.science.settle.filtering_record import FilterAnswer, FilterRecord
from tests.published import Row, rows

TWO = [{"after_min": 10.0, "filtrate_l": 2.0}, {"after_min": 30.0, "filtrate_l": 4.0}]


def answer(readings: list[dict[str, float]] = TWO, **fields: object) -> FilterAnswer:
    record = read(FilterRecord, {"total_l": 10.0, "readings": readings} | fields)
    return filter_time(record, rng=np.random.default_rng(1))


def published(number: float) -> list[Row]:
    return [row for row in rows("ruth-filtrations", "seconds") if row.given["set"] == number]


def test_ruths_equation_is_the_integral_of_its_rate() -> None:
    """Reference library: SciPy integrates dV/dt = 1/(2 a V + b)."""
    cake, cloth = np.array(0.2), np.array(0.1)
    run = integrate.solve_ivp(lambda _, v: 1 / (2 * 0.2 * v + 0.1), (0, 5), [0.0], rtol=1e-9, atol=1e-12).y[0][-1]
    assert filtrate_l(np.array(5.0), cake_h_per_l2=cake, cloth_h_per_l=cloth) == pytest.approx(run, rel=1e-6)
    assert filtered_h(run, cake_h_per_l2=cake, cloth_h_per_l=cloth) == pytest.approx(5.0, rel=1e-6)


def test_two_readings_by_hand() -> None:
    """Own hand: t/V 5 and 7.5 min/L: a = 1.25 min/L2, b = 2.5 min/L; 10 L take 150 min, 2 h after the last reading."""
    found = answer(volume_sd_frac=0.005)
    assert found.total_h.p50 == pytest.approx(2.5, rel=0.02)
    assert found.left_h.p50 == pytest.approx(2.0, rel=0.02)
    assert found.rate_now_l_per_h.p50 == pytest.approx(60 / 12.5, rel=0.02)
    assert found.cake_share_frac.p50 == pytest.approx(10 / 12.5, rel=0.02)


@pytest.mark.parametrize("number", [1.0, 2.0])
def test_early_readings_foretell_the_end_of_a_published_run(number: float) -> None:
    """Published: two constant-pressure filtrations; from three readings up to 2 L the last (5 L, 3 L) is foretold.

    The first run starts easier than Ruth's law has it, so the middle is a tenth short; the range holds it.
    """
    run = published(number)
    early = [{"after_min": row.value / 60, "filtrate_l": row.given["filtrate_l"]} for row in (run[0], run[2], run[3])]
    end = run[-1]
    found = answer(early, total_l=end.given["filtrate_l"])
    assert found.total_h.p5 < end.value / 3600 < found.total_h.p95
    assert found.total_h.p50 == pytest.approx(end.value / 3600, rel=0.15)


def test_all_readings_agree_with_the_usual_straight_line() -> None:
    """Published data, reference library: NumPy's straight line through t/V against V, read off at the last volume."""
    run = published(1.0)
    litres, seconds = np.array([r.given["filtrate_l"] for r in run]), np.array([r.value for r in run])
    slope, cloth = np.polyfit(litres, seconds / litres, 1)
    readings = [{"after_min": s / 60, "filtrate_l": v} for s, v in zip(seconds, litres, strict=True)]
    found = answer(readings, total_l=6.0)
    assert found.total_h.p50 * 3600 == pytest.approx(slope * 36 + cloth * 6, rel=0.03)


def test_one_reading_is_answered_widely() -> None:
    one, two = answer(TWO[:1]).left_h, answer().left_h
    assert one.p5 < two.p5 and one.p95 > two.p95


@settings(max_examples=30)
@given(more=st.floats(1.01, 8.0))
def test_more_to_filter_takes_longer_and_slows(more: float) -> None:
    less, further = answer(total_l=4.5), answer(total_l=4.5 * more)
    assert less.total_h.p50 < further.total_h.p50
    assert further.rate_end_l_per_h.p50 <= less.rate_end_l_per_h.p50 <= less.rate_now_l_per_h.p50


def test_cautions_stand_beside_what_they_belong_to() -> None:
    assert {c.code for c in answer().cautions} == {"blinding"}
    assert {"outside-range", "slow"} <= {c.code for c in answer(total_l=100.0).cautions}
    odd = [{"after_min": t, "filtrate_l": v} for t, v in ((1.0, 2.0), (60.0, 2.05), (61.0, 4.0))]
    assert "poor-fit" in {c.code for c in answer(odd).cautions}


@pytest.mark.parametrize(
    ("readings", "fields", "message"),
    [
        (TWO[::-1], {}, r"readings\[1\].after_min: 10 min is not after 30 min"),
        ([TWO[0], {"after_min": 30.0, "filtrate_l": 1.0}], {}, r"readings\[1\].filtrate_l: the filtrate falls"),
        (TWO, {"total_l": 3.0}, r"total_l: 4 L have run through already, of 3 L"),
        ([], {}, r"readings: .* at least 1"),
        ([{"after_min": 0.0, "filtrate_l": 1.0}], {}, r"readings\[0\].after_min: .* more than 0"),
    ],
)
def test_what_cannot_be_is_refused_by_name(
    readings: list[dict[str, float]], fields: dict[str, object], message: str
) -> None:
    with pytest.raises(InputError, match=message):
        answer(readings, **fields)
