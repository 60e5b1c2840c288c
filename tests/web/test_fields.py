"""Fields take what people type, keep it, and say what would be right."""

from datetime import UTC, datetime, timedelta

import pytest
from django.core.exceptions import ValidationError
from django.forms import Field
from django.utils import timezone

from bluewright.science.base.measures import MeasureKind, System
from bluewright.web.ui.typed import CM_OR_IN, DecimalField, MeasureField, MomentField, not_to_come


def test_a_measure_keeps_its_typing_beside_its_value() -> None:
    """A US cup is 0.2365882365 L by definition (half a pint, of eight to a gallon of 231 cubic inches)."""
    found = MeasureField(kind="volume_l").clean(" 1 1/2 cups ")
    assert found is not None
    assert found.typed == "1 1/2 cups"
    assert found.value == pytest.approx(1.5 * 0.2365882365)


def test_a_bare_number_is_in_the_garden_s_own_unit() -> None:
    """64 F is (64 - 32) * 5/9 C."""
    field = MeasureField(kind="temp_c", system="us")
    found = field.clean("64")
    assert found is not None
    assert found.value == pytest.approx((64 - 32) * 5 / 9)


@pytest.mark.parametrize(
    ("kind", "system", "text", "kept"),
    [
        ("temp_c", "metric", "17", "17 C"), ("temp_c", "us", "64", "64 F"), ("mass_kg", "metric", "4,5", "4,5 kg"),
        ("volume_l", "us", "1 1/2", "1 1/2 gal"), ("ph", "metric", "9,4", "9,4"), ("mass_kg", "us", "3 lb", "3 lb"),
        ("fraction", "metric", "10 %", "10 %"), ("temp_c", "metric", "-2°", "-2°"),
    ],
)  # fmt: skip
def test_a_bare_number_is_kept_with_its_unit(kind: MeasureKind, system: System, text: str, kept: str) -> None:
    """Where it is read again, nobody has to guess; what has a unit is kept as it was typed."""
    found = MeasureField(kind=kind, system=system).clean(text)
    assert found is not None
    assert found.typed == kept


@pytest.mark.parametrize(("system", "mm", "kept"), [("metric", 300.0, "30 cm"), ("us", 762.0, "30 in")])
def test_a_bare_depth_is_in_what_tubs_are_measured_in(system: System, mm: float, kept: str) -> None:
    """30 inches of 25.4 mm are 762 mm."""
    found = MeasureField(kind="length_mm", system=system, bare=CM_OR_IN).clean("30")
    assert found is not None
    assert (found.value, found.typed) == (pytest.approx(mm), kept)
    inch = MeasureField(kind="length_mm", system=system, bare=CM_OR_IN).clean("12 in")
    assert inch is not None
    assert inch.value == pytest.approx(12 * 25.4)


def test_a_limit_says_how_the_number_was_understood() -> None:
    with pytest.raises(ValidationError, match="50 m cannot be; give 2 cm to 5 m"):
        MeasureField(kind="length_m", low=0.02, high=5).clean("50")


def test_left_empty_it_is_none_where_it_may_be() -> None:
    assert MeasureField(kind="temp_c", required=False).clean("  ") is None
    with pytest.raises(ValidationError, match="required"):
        MeasureField(kind="temp_c").clean("")


@pytest.mark.parametrize(("system", "says"), [("metric", "100 °C"), ("us", "212 °F")])
def test_outside_its_limits_it_says_them_in_the_garden_s_units(system: str, says: str) -> None:
    """Water boils at 100 C, which is 212 F."""
    with pytest.raises(ValidationError) as error:
        MeasureField(kind="temp_c", system=system, low=0, high=100).clean("400 C")  # type: ignore[arg-type]
    assert says in error.value.messages[0]


def test_longer_than_any_measure_is_refused() -> None:
    with pytest.raises(ValidationError, match="at most 30"):
        MeasureField(kind="volume_l").clean("1" * 31)


@pytest.mark.parametrize("text", ["6,7", "6.7", " 6.7 "])
def test_a_number_may_have_a_decimal_comma(text: str) -> None:
    assert DecimalField().clean(text) == 6.7


@pytest.mark.parametrize("field", [DecimalField(), MeasureField(kind="volume_ml")])
@pytest.mark.parametrize(("text", "says"), [
    ("1,234", "could mean two numbers; write 1234, or 1.234"), ("1.234,5", "no thousands marks"),
    ("1 234", "two numbers"), ("12-15", "range"),
])  # fmt: skip
def test_what_could_mean_two_numbers_is_refused_with_what_would_be_right(field: Field, text: str, says: str) -> None:
    with pytest.raises(ValidationError) as error:
        field.clean(text)
    assert says in error.value.messages[0]


@pytest.mark.parametrize(("text", "value"), [("-0,5", -0.5), ("−3", -3.0), ("1/2", 0.5), ("+4", 4.0)])
def test_a_number_may_have_a_sign_or_be_a_fraction(text: str, value: float) -> None:
    assert DecimalField().clean(text) == value


@pytest.mark.parametrize("text", ["nan", "inf", "1e999", "six", "6.7.8", "9" * 400, "1/0", "①"])
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(ValidationError):
        DecimalField().clean(text)


def test_clocks_may_differ_by_some_minutes() -> None:
    not_to_come(timezone.now() + timedelta(minutes=4))
    with pytest.raises(ValidationError, match="still to come"):
        not_to_come(timezone.now() + timedelta(minutes=7))


@pytest.mark.parametrize(
    ("typed", "moment"),
    [
        ("2024-02-29T10:00", datetime(2024, 2, 29, 10, tzinfo=UTC)),
        ("2025-10-26T01:30", datetime(2025, 10, 26, 1, 30, tzinfo=UTC)),
        ("2150-10-25T01:30", datetime(2150, 10, 25, 0, 30, tzinfo=UTC)),
        ("2025-07-01T10:00+02:00", datetime(2025, 7, 1, 8, tzinfo=UTC)),
    ],
)
def test_an_hour_that_comes_twice_is_the_later_that_has_been(typed: str, moment: datetime) -> None:
    """Clocks of London go back at 01:00 UTC on the last Sunday of October (the Summer Time Order 2002, common rule)."""
    with timezone.override("Europe/London"):
        assert MomentField().clean(typed).astimezone(UTC) == moment


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        ("2026-03-29T01:30", "went forward"),
        ("0001-01-01T00:00", "from 1900 on"),
        ("9999-12-31T23:59", "from 1900 on"),
        ("2026-02-30T10:00", "valid"),
        ("soon", "valid"),
    ],
)
def test_a_moment_that_cannot_be_says_why(typed: str, says: str) -> None:
    with timezone.override("Europe/London"), pytest.raises(ValidationError, match=says):
        MomentField().clean(typed)
