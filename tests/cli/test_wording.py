"""How numbers are said. Expected texts are own hand, from the rule in the docstring of `figure`."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bluewright.cli.wording import cautions, figure, frac, litres, ranged
from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution


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
        (-4.84, "-4.8"),
        (1e-9, "0.000000001"),
    ],
)
def test_figures_are_short_and_plain(value: float, said: str) -> None:
    assert figure(value) == said


@given(value=st.floats(-1e9, 1e9).filter(lambda v: v == 0 or abs(v) > 1e-9))
def test_a_figure_is_near_its_value_and_never_has_an_exponent(value: float) -> None:
    said = figure(value)
    assert re.fullmatch(r"-?[\d,]+(\.\d+)?", said)
    assert float(said.replace(",", "")) == pytest.approx(value, rel=0.051, abs=1e-12)


@given(one=st.floats(0, 1e6), other=st.floats(0, 1e6))
def test_figures_keep_order(one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert float(figure(low).replace(",", "")) <= float(figure(high).replace(",", ""))


def test_a_band_is_said_with_its_range() -> None:
    found = Band(p5=2.83, p50=4.81, p95=7.2)
    assert ranged(found, "g") == "4.8 g (2.8 to 7.2)"
    assert ranged(found, "") == "4.8 (2.8 to 7.2)"
    assert litres(found) == "4.8 L (2.8 to 7.2)"
    assert frac(Band(p5=0.55, p50=0.821, p95=1.0)) == "82% (55 to 100)"


def test_cautions_come_last_after_a_blank_line() -> None:
    assert cautions(()) == []
    assert cautions((Caution(code="x", text="Heavy.", source="common-practice"),)) == ["", "Take care: Heavy."]
