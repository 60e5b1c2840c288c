"""Measures as people type and read them."""

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from bluewright.science.base import units
from bluewright.science.base.errors import InputError
from bluewright.science.base.measures import MAX_TYPED, Measure, MeasureKind, System, read_measure, say_measure
from bluewright.science.base.typed_numbers import number, plain
from bluewright.science.base.unit_names import _TABLE, UNITS, find_unit
from tests.published import Row, rows

RANGES: dict[MeasureKind, tuple[float, float]] = {
    "mass_kg": (1e-5, 1e5),
    "mass_g": (1e-2, 1e6),
    "volume_l": (1e-4, 1e6),
    "volume_ml": (1e-1, 1e6),
    "length_m": (1e-4, 1e4),
    "length_mm": (1e-1, 1e6),
    "area_m2": (1e-4, 1e5),
    "time_h": (1e-4, 1e5),
    "time_min": (1e-2, 1e6),
    "fraction": (1e-4, 1.0),
    "hardness_mg_caco3_l": (1e-1, 5e3),
}
KINDS: list[MeasureKind] = [*RANGES, "temp_c", "ph", "count"]
SYSTEMS: list[System] = ["metric", "us"]

PUBLISHED: dict[str, tuple[str, MeasureKind]] = {
    "pound": ("1 lb", "mass_kg"),
    "ounce": ("1 oz", "mass_kg"),
    "inch": ("1 in", "length_m"),
    "foot": ("1 ft", "length_m"),
    "yard": ("1 yd", "length_m"),
    "square_inch": ("1 sq in", "area_m2"),
    "square_foot": ("1 sq ft", "area_m2"),
    "square_yard": ("1 sq yd", "area_m2"),
    "us_gallon": ("1 gal", "volume_l"),
    "us_quart": ("1 qt", "volume_l"),
    "us_pint": ("1 pint", "volume_l"),
    "us_cup": ("1 cup", "volume_l"),
    "us_fluid_ounce": ("1 fl oz", "volume_l"),
    "us_tablespoon": ("1 tbsp", "volume_l"),
    "us_teaspoon": ("1 tsp", "volume_l"),
    "uk_gallon": ("1 imp gal", "volume_l"),
    "uk_fluid_ounce": ("1 UK fl oz", "volume_l"),
    "day": ("1 d", "time_h"),
}


def value(text: str, kind: MeasureKind, prefer: System = "metric") -> float:
    return read_measure(text, kind=kind, prefer=prefer).value


def refusal(text: str, kind: MeasureKind, prefer: System = "metric") -> InputError:
    with pytest.raises(InputError) as caught:
        read_measure(text, kind=kind, prefer=prefer)
    assert caught.value.where == ""
    assert caught.value.right
    return caught.value


# --- examples ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "kind", "expected", "unit"),
    [
        ("5.5", "mass_kg", 5.5, "kg"),
        ("5,5", "mass_kg", 5.5, "kg"),
        (" 5,5 kg ", "mass_kg", 5.5, "kg"),
        (".5kg", "mass_kg", 0.5, "kg"),
        ("0,234 kg", "mass_kg", 0.234, "kg"),
        ("1.234 kg", "mass_kg", 1.234, "kg"),
        ("1234,567 g", "mass_g", 1234.567, "g"),
        ("5 mg", "mass_g", 0.005, "mg"),
        ("2 t", "mass_kg", 2000.0, "t"),
        ("1 1/2 lb", "mass_kg", 0.680388555, "lb"),
        ("1-1/2 lb", "mass_kg", 0.680388555, "lb"),
        ("1 and 1/2 lb", "mass_kg", 0.680388555, "lb"),
        ("1½ lb", "mass_kg", 0.680388555, "lb"),
        ("1 ½lb", "mass_kg", 0.680388555, "lb"),
        ("1 1⁄2 LBS", "mass_kg", 0.680388555, "lb"),
        ("3/2 pounds", "mass_kg", 0.680388555, "lb"),
        ("⅟8 kg", "mass_kg", 0.125, "kg"),
        ("2 lb 3 oz", "mass_kg", 0.992233309375, "lb and oz"),
        ("2lb3oz", "mass_kg", 0.992233309375, "lb and oz"),
        ("2 lb.3 oz.", "mass_kg", 0.992233309375, "lb and oz"),
        ("2 lb, 3 oz", "mass_kg", 0.992233309375, "lb and oz"),
        ("2 lb and 3 oz", "mass_kg", 0.992233309375, "lb and oz"),
        ("５㎏", "mass_kg", 5.0, "kg"),
        ("500ml", "volume_l", 0.5, "mL"),
        ("500 ML", "volume_l", 0.5, "mL"),
        ("2 l", "volume_ml", 2000.0, "L"),
        ("2 Litres", "volume_ml", 2000.0, "L"),
        ("5 cm3", "volume_ml", 5.0, "mL"),
        ("0.2 m³", "volume_l", 200.0, "m³"),
        ("8 fl. oz.", "volume_l", 0.2365882365, "US fl oz"),
        ("2 US gallons", "volume_l", 7.570823568, "US gal"),
        ("2 gal (U.S.)", "volume_l", 7.570823568, "US gal"),
        ("1 gal 2 qt", "volume_l", 5.678117676, "US gal and US qt"),
        ("1 UK pint", "volume_l", 0.56826125, "UK pint"),
        ("1 pint (imperial)", "volume_l", 0.56826125, "UK pint"),
        ("1 UK quart", "volume_l", 1.1365225, "UK qt"),
        ("1 imp. gal", "volume_l", 4.54609, "UK gal"),
        ("2 metric cups", "volume_ml", 500.0, "metric cup"),
        ("18C", "temp_c", 18.0, "°C"),
        ("18 ℃", "temp_c", 18.0, "°C"),
        ("-5 deg C", "temp_c", -5.0, "°C"),
        ("−5º", "temp_c", -5.0, "°C"),
        ("– 5", "temp_c", -5.0, "°C"),
        ("+5", "temp_c", 5.0, "°C"),
        ("50 F", "temp_c", 10.0, "°F"),
        ("50°F", "temp_c", 10.0, "°F"),
        ("50 degrees fahrenheit", "temp_c", 10.0, "°F"),
        ("291.15 K", "temp_c", 18.0, "K"),
        ("1 ft 3 in", "length_m", 0.381, "ft and in"),
        ("1' 3\"", "length_m", 0.381, "ft and in"),
        ("1′3″", "length_m", 0.381, "ft and in"),
        ("1’ 3''", "length_mm", 381.0, "ft and in"),
        ("1 m 5 cm", "length_m", 1.05, "m and cm"),
        ("6 ft2", "area_m2", 0.55741824, "sq ft"),
        ("6 sq. ft.", "area_m2", 0.55741824, "sq ft"),
        ("0.5 m^2", "area_m2", 0.5, "m²"),
        ("50 cm²", "area_m2", 0.005, "cm²"),
        ("1 h 30 min", "time_h", 1.5, "h and min"),
        ("36 s", "time_h", 0.01, "s"),
        ("3 days", "time_h", 72.0, "d"),
        ("110", "hardness_mg_caco3_l", 110.0, "mg/L"),
        ("110 mg/l as CaCO3", "hardness_mg_caco3_l", 110.0, "mg/L"),
        ("110 ppm (CaCO3)", "hardness_mg_caco3_l", 110.0, "mg/L"),
        ("10 °dH", "hardness_mg_caco3_l", 178.48, "°dH"),
        ("10 German degrees", "hardness_mg_caco3_l", 178.48, "°dH"),
        ("11,5 °fH", "hardness_mg_caco3_l", 115.0, "°fH"),
        ("pH 9,5", "ph", 9.5, ""),
        ("9.5", "ph", 9.5, ""),
        ("45 %", "fraction", 0.45, "%"),
        ("45%", "fraction", 0.45, "%"),
        ("100 percent", "fraction", 1.0, "%"),
        ("0.45", "fraction", 0.45, ""),
        ("¼", "fraction", 0.25, ""),
        ("12", "count", 12.0, ""),
    ],
)
def test_what_people_type_is_understood(text: str, kind: MeasureKind, expected: float, unit: str) -> None:
    """Own hand: the number times its factor (35 oz * 0.028349523125; (50 - 32) / 1.8; 15 in * 0.0254)."""
    assert read_measure(text, kind=kind, prefer="metric") == Measure(typed=text.strip(), value=expected, unit=unit)


@pytest.mark.parametrize(
    ("kind", "metric", "us"),
    [
        ("mass_kg", "1 kg", "1 lb"),
        ("mass_g", "1 g", "1 oz"),
        ("volume_l", "1 L", "1 US gal"),
        ("volume_ml", "1 mL", "1 US fl oz"),
        ("temp_c", "1 °C", "1 °F"),
        ("length_m", "1 m", "1 ft"),
        ("length_mm", "1 mm", "1 in"),
        ("area_m2", "1 m²", "1 sq ft"),
        ("time_h", "1 h", "1 h"),
        ("hardness_mg_caco3_l", "1 mg/L", "1 mg/L"),
    ],
)
def test_a_bare_number_is_in_the_unit_that_is_preferred(kind: MeasureKind, metric: str, us: str) -> None:
    for system, meant in (("metric", metric), ("us", us)):
        bare = read_measure("1", kind=kind, prefer=system)  # type: ignore[arg-type]
        assert bare.value == value(meant, kind)
        assert f"1 {bare.unit}" == meant


@pytest.mark.parametrize("text", ["18°", "18 deg"])
def test_a_degree_without_its_letter_is_a_bare_number(text: str) -> None:
    for system in SYSTEMS:
        assert value(text, "temp_c", system) == value("18", "temp_c", system)


@pytest.mark.parametrize(
    ("amount", "kind", "metric", "us"),
    [
        (5.0, "mass_kg", "5 kg", "11 lb"),
        (0.45, "mass_kg", "450 g", "15.9 oz"),
        (0.9996, "mass_kg", "1 kg", "2.2 lb"),
        (1234.0, "mass_g", "1.23 kg", "2.72 lb"),
        (0.5, "mass_g", "0.5 g", "0.5 g"),
        (0.05, "mass_g", "50 mg", "50 mg"),
        (0.0, "mass_g", "0 g", "0 oz"),
        (12345.0, "volume_l", "12300 L", "3260 gal"),
        (1.0, "volume_l", "1 L", "1.06 qt"),
        (250.0, "volume_ml", "250 mL", "8.45 fl oz"),
        (5.0, "volume_ml", "5 mL", "1.01 tsp"),
        (17.77, "temp_c", "17.8 °C", "64 °F"),
        (-5.0, "temp_c", "−5 °C", "23 °F"),
        (-0.01, "temp_c", "0 °C", "32 °F"),
        (100.4, "temp_c", "100 °C", "213 °F"),
        (0.45, "length_m", "45 cm", "1.48 ft"),
        (250.0, "length_mm", "250 mm", "9.84 in"),
        (0.5, "area_m2", "0.5 m²", "5.38 sq ft"),
        (0.005, "area_m2", "50 cm²", "7.75 sq in"),
        (0.25, "time_h", "15 min", "15 min"),
        (36.0, "time_h", "36 h", "36 h"),
        (106.8, "hardness_mg_caco3_l", "107 mg/L", "107 mg/L"),
        (0.005, "time_h", "18 s", "18 s"),
        (9.46, "ph", "pH 9.5", "pH 9.5"),
        (0.0, "ph", "pH 0", "pH 0"),
        (0.4567, "fraction", "45.7%", "45.7%"),
        (0.0, "fraction", "0%", "0%"),
        (0.000001, "fraction", "under 0.001%", "under 0.001%"),
        (1234.0, "count", "1234", "1234"),
        (1e-300, "mass_kg", "under 0.001 mg", "under 0.001 mg"),
    ],
)
def test_a_value_is_said_in_a_unit_that_fits_it(amount: float, kind: MeasureKind, metric: str, us: str) -> None:
    """Own hand: 5 kg / 0.45359237 = 11.02 lb; 250 mL = 8.454 fl oz; 17.77 * 1.8 + 32 = 63.99; 12345 L = 3261 gal."""
    assert say_measure(amount, kind=kind, system="metric") == metric
    assert say_measure(amount, kind=kind, system="us") == us


# --- against the outside ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("row", rows("nist-sp-811"), ids=lambda row: row.what)
def test_factors_are_those_of_the_published_table(row: Row) -> None:
    """Published: NIST SP 811 (2008), Appendix B; rounded factors agree to half of the last printed digit."""
    assert row.agrees(value(*PUBLISHED[row.what]))


def test_every_published_factor_is_checked() -> None:
    assert {row.what for row in rows("nist-sp-811")} == set(PUBLISHED)


@pytest.mark.parametrize(
    ("text", "kind", "reference"),
    [
        ("1 lb", "mass_kg", constants.lb),
        ("1 oz", "mass_kg", constants.oz),
        ("1 in", "length_m", constants.inch),
        ("1 ft", "length_m", constants.foot),
        ("1 yd", "length_m", constants.yard),
        ("1 gal", "volume_l", constants.gallon_US * 1000),
        ("1 fl oz", "volume_l", constants.fluid_ounce_US * 1000),
        ("1 UK gal", "volume_l", constants.gallon_imp * 1000),
        ("1 UK fl oz", "volume_l", constants.fluid_ounce_imp * 1000),
        ("1 d", "time_h", constants.day / constants.hour),
        ("1 gpg", "hardness_mg_caco3_l", constants.grain * 1e6 / (constants.gallon_US * 1000)),
        ("1 Clark", "hardness_mg_caco3_l", constants.grain * 1e6 / (constants.gallon_imp * 1000)),
        ("72.5 F", "temp_c", constants.convert_temperature(72.5, "F", "C")),
        ("72.5 K", "temp_c", constants.convert_temperature(72.5, "K", "C")),
    ],
)
def test_factors_agree_with_a_reference_library(text: str, kind: MeasureKind, reference: float) -> None:
    """Reference library: scipy.constants."""
    assert value(text, kind) == pytest.approx(float(reference), rel=1e-12)


def test_parts_of_a_gallon_make_up_the_gallon() -> None:
    """Own hand: 231 cubic inches; 4 qt, 8 pints, 16 cups, 128 fl oz, 768 tsp; UK: 4 qt, 8 pints, 160 fl oz."""

    def exact(constant: units.Sourced) -> Fraction:
        return Fraction(str(constant.value))

    assert exact(units.US_GALLON_L) == 231 * (10 * exact(units.INCH_M)) ** 3
    for part, times in (
        (units.US_QUART_L, 4),
        (units.US_PINT_L, 8),
        (units.US_CUP_L, 16),
        (units.US_FLUID_OUNCE_L, 128),
        (units.US_TABLESPOON_L, 256),
        (units.US_TEASPOON_L, 768),
    ):
        assert exact(part) * times == exact(units.US_GALLON_L)
    for part, times in ((units.UK_QUART_L, 4), (units.UK_PINT_L, 8), (units.UK_FLUID_OUNCE_L, 160)):
        assert exact(part) * times == exact(units.UK_GALLON_L)
    assert exact(units.OUNCE_KG) * 16 == exact(units.POUND_KG)
    assert exact(units.SQUARE_FOOT_M2) == exact(units.FOOT_M) ** 2 == (12 * exact(units.INCH_M)) ** 2
    assert exact(units.SQUARE_YARD_M2) == exact(units.YARD_M) ** 2
    assert exact(units.SQUARE_INCH_M2) == exact(units.INCH_M) ** 2


def test_a_german_degree_is_ten_milligrams_of_quicklime() -> None:
    """Own hand, IUPAC 2021: CaO 40.078 + 15.999 = 56.077, CaCO3 40.078 + 12.011 + 3 * 15.999 = 100.086 g/mol."""
    assert value("1 °dH", "hardness_mg_caco3_l") == pytest.approx(10 * 100.086 / 56.077, abs=0.0005)


@pytest.mark.parametrize("text", ["2.5 mmol/L", "3 kg", "18 °F"])
def test_what_is_no_hardness_is_refused_with_the_units_that_are(text: str) -> None:
    """A millimole is 50 mg of CaCO3 in an alkalinity and 100 in a hardness: it could mean two things."""
    assert "°dH" in refusal(text, "hardness_mg_caco3_l").right


# --- laws -------------------------------------------------------------------------------------------------------


@given(data=st.data(), kind=st.sampled_from(list(RANGES)), system=st.sampled_from(SYSTEMS))
def test_what_is_said_is_read_back_within_the_figures_printed(
    data: st.DataObject, kind: MeasureKind, system: System
) -> None:
    """Three figures: half of the last one is at most 0.5 % of the number."""
    low, high = RANGES[kind]
    amount = math.exp(data.draw(st.floats(math.log(low), math.log(high))))
    said = say_measure(min(amount, high), kind=kind, system=system)
    assert value(said, kind, system) == pytest.approx(min(amount, high), rel=0.00501)
    assert len(said.split()[0].strip("%").replace(".", "").strip("0")) <= 3


@given(temp_c=st.floats(-90, 500), system=st.sampled_from(SYSTEMS))
def test_a_temperature_is_read_back_to_a_tenth_of_a_degree(temp_c: float, system: System) -> None:
    shown = temp_c if system == "metric" else temp_c * 1.8 + 32
    half = (0.05 if abs(shown) < 99.95 else 0.5) / (1 if system == "metric" else 1.8)
    assert value(say_measure(temp_c, kind="temp_c", system=system), "temp_c", system) == pytest.approx(
        temp_c, abs=half + 1e-9
    )


@given(ph=st.floats(0, 14), count=st.integers(0, 10**9), system=st.sampled_from(SYSTEMS))
def test_a_ph_is_read_back_to_a_tenth_and_a_count_whole(ph: float, count: int, system: System) -> None:
    assert value(say_measure(ph, kind="ph", system=system), "ph", system) == pytest.approx(ph, abs=0.05 + 1e-9)
    assert value(say_measure(count, kind="count", system=system), "count", system) == count


@given(thousandths=st.integers(0, 10**9), kind=st.sampled_from(["mass_kg", "mass_g", "volume_l", "volume_ml"]))
def test_what_is_typed_in_the_canonical_unit_comes_back_to_the_last_digit(thousandths: int, kind: MeasureKind) -> None:
    text = f"{thousandths // 1000}.{thousandths % 1000:03d}"
    assert value(text, kind) == float(text)


@given(thousandths=st.integers(0, 10**6), digits=st.sampled_from([1, 2, 4]), system=st.sampled_from(SYSTEMS))
def test_a_decimal_comma_means_a_decimal_point(thousandths: int, digits: int, system: System) -> None:
    text = f"{thousandths / 10**digits:.{digits}f}"
    assert value(text.replace(".", ","), "volume_l", system) == value(text, "volume_l", system)


@given(label=st.sampled_from(sorted(UNITS)), amount=st.integers(1, 999), more=st.integers(1, 999))
def test_more_of_a_unit_is_more(label: str, amount: int, more: int) -> None:
    kinds = {
        "mass": "mass_kg", "volume": "volume_l", "temperature": "temp_c", "length": "length_m", "area": "area_m2",
        "hardness": "hardness_mg_caco3_l",
    }  # fmt: skip
    kind: MeasureKind = kinds.get(UNITS[label].dimension, "time_h")  # type: ignore[assignment]
    if label != "%":
        assert value(f"{amount + more} {label}", kind) > value(f"{amount} {label}", kind)


@given(
    text=st.text(st.sampled_from([*"0123456789.,-−/ ½²°'\"%ABCFKLTUabcdefghiklmnopqrstuyz"]), max_size=12) | st.text(),
    kind=st.sampled_from(KINDS),
    system=st.sampled_from(SYSTEMS),
)
def test_any_text_gives_a_possible_measure_or_a_refusal(text: str, kind: MeasureKind, system: System) -> None:
    try:
        found = read_measure(text, kind=kind, prefer=system)
    except InputError as error:
        assert error.where == ""
        assert error.what
        assert error.right
    else:
        assert math.isfinite(found.value)
        assert found.value >= (-273.15 if kind == "temp_c" else 0)
        assert found.typed == text.strip()


def test_no_name_means_two_units() -> None:
    names = [name for _, names in _TABLE for name in names]
    assert len(names) == len(set(names))


def test_every_label_is_a_name_of_its_unit() -> None:
    for label, unit in UNITS.items():
        assert find_unit(label.replace("sq in", "in²")) == unit


# --- bad input --------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "kind", "what"),
    [
        ("", "mass_kg", "nothing is typed"),
        ("  ", "mass_kg", "nothing is typed"),
        ("x" * (MAX_TYPED + 1), "mass_kg", "longer than 60"),
        ("nan", "mass_kg", "does not begin with a number"),
        ("inf kg", "mass_kg", "does not begin with a number"),
        ("-∞", "temp_c", "does not begin with a number"),
        ("kg 5", "mass_kg", "does not begin with a number"),
        ("1,234", "mass_kg", "could mean two numbers"),
        ("12,345 g", "mass_g", "could mean two numbers"),
        ("1.234,5", "mass_kg", "is no clear number"),
        ("1,234.5", "mass_kg", "is no clear number"),
        ("1.234.567", "mass_kg", "is no clear number"),
        ("1 234 g", "mass_g", "is two numbers"),
        ("5-7 kg", "mass_kg", "is a range"),
        ("5–7 kg", "mass_kg", "is a range"),
        ("7 kg - 5 g", "mass_kg", "is a range"),
        ("5 to 7 kg", "mass_kg", "no unit known"),
        ("1 3/2 lb", "mass_kg", "is no clear number"),
        ("1/0 lb", "mass_kg", "divides by nothing"),
        ("1.5/2 lb", "mass_kg", "is no clear number"),
        ("10² kg", "mass_kg", "cannot be read"),
        ("1e3 kg", "mass_kg", "no unit known"),
        ("5 stone", "mass_kg", "no unit known"),
        ("5 Mg", "mass_kg", "no unit known"),
        ("1 T", "volume_ml", "no unit known"),
        ("1 UK cup", "volume_ml", "no unit known"),
        ("3 kg", "volume_l", "is a mass, not a volume"),
        ("8 oz", "volume_ml", "is a mass, not a volume"),
        ("3 L", "mass_kg", "is a volume, not a mass"),
        ("5 m", "time_h", "is a length, not a length of time"),
        ("2 m", "area_m2", "is a length, not an area"),
        ("20 °C", "ph", "is a temperature, not a pH"),
        ("3 h", "count", "is a length of time, not a count"),
        ("45 %", "mass_kg", "is a share, not a mass"),
        ("2 lb 20 oz", "mass_kg", "is not one measure"),
        ("3 oz 2 lb", "mass_kg", "is not one measure"),
        ("5 ft 3", "length_m", "is not one measure"),
        ("5 C 3 C", "temp_c", "is not one measure"),
        ("-3 kg", "mass_kg", "is not possible for a mass"),
        ("-300 C", "temp_c", "is not possible for a temperature"),
        ("15", "ph", "is not possible for a pH"),
        ("150 %", "fraction", "is not possible for a share"),
        ("45", "fraction", "could mean percent or the whole"),
        ("1", "fraction", "could mean percent or the whole"),
        ("2.5", "count", "is not a whole number"),
    ],
)
def test_what_cannot_be_or_could_mean_two_things_is_refused(text: str, kind: MeasureKind, what: str) -> None:
    assert what in refusal(text, kind).what


@pytest.mark.parametrize(
    ("text", "kind", "right"),
    [
        ("5 stone", "mass_kg", "use kg, g, mg, t, lb or oz, like 2.5 kg or 2 lb 3 oz"),
        ("1,234", "mass_kg", "write 1234, or 1.234 for the small one"),
        ("-300 C", "temp_c", "it must be at least -273.15 °C; use °C, °F or K, like 18 °C or 64 F"),
        ("150 %", "fraction", "it lies from 0 to 100 %; use percent or a part of one, like 45 % or 0.45"),
    ],
)
def test_a_refusal_says_what_would_be_right(text: str, kind: MeasureKind, right: str) -> None:
    assert refusal(text, kind).right == right


@pytest.mark.parametrize("amount", [math.nan, math.inf, -math.inf])
@pytest.mark.parametrize("kind", KINDS)
def test_what_is_no_number_is_not_said(amount: float, kind: MeasureKind) -> None:
    with pytest.raises(InputError, match="is no finite number"):
        say_measure(amount, kind=kind, system="metric")


@pytest.mark.parametrize(
    ("amount", "kind"), [(-1.0, "mass_kg"), (-300.0, "temp_c"), (14.5, "ph"), (1.01, "fraction"), (1.5, "count")]
)
def test_what_cannot_be_is_not_said(amount: float, kind: MeasureKind) -> None:
    with pytest.raises(InputError, match=r"not possible|not a whole number"):
        say_measure(amount, kind=kind, system="us")


def test_numbers_alone_are_exact() -> None:
    """Own hand: the decimals as fractions."""
    assert number("0,1") == Fraction(1, 10)
    assert number("1 1/3") == Fraction(4, 3)
    assert plain(" 1½ LB ") == "1 1/2 LB"
