"""Measures in the reader's units. NIST SP 811: a US gallon is 3.785411784 L, an inch 25.4 mm, a pound 0.45359237 kg, a
US fluid ounce 29.5735 mL; 20 C are 68 °F. A foot is 0.3048 m."""

import pytest

from bluewright.science.base.bands import Band
from bluewright.words.measures import amount, degree, dosed, dosed_band, fitting, litres, measured, of_leaf
from bluewright.words.reader import Reader, read_by, reader


def test_who_reads_is_metric_until_said_otherwise_and_again_afterwards() -> None:
    assert reader() == Reader(system="metric", dates="day_first")
    with read_by(system="us"), read_by(dates="month_first"):
        assert reader() == Reader(system="us", dates="month_first")
    with pytest.raises(KeyError), read_by(system="us"):
        raise KeyError
    assert reader() == Reader()


def test_measures_are_metric_for_a_metric_reader() -> None:
    assert litres(Band(p5=15.0, p50=18.93, p95=22.71)) == "19 L (15 to 23)"
    assert measured(Band(p5=15.0, p50=20.0, p95=25.0), "temp_c") == "20 C (15 to 25)"
    assert (amount(2.4, "volume_l"), fitting(0.45, "mass_kg")) == ("2.4 L", "450 g")
    assert (degree(), of_leaf()) == (("C", 1.0), ("kg", "kilogram", 1.0))


def test_both_ends_of_a_range_are_in_the_us_unit_that_fits_the_middle() -> None:
    with read_by(system="us"):
        assert measured(Band(p5=15.14, p50=18.93, p95=22.71), "volume_l") == "5 gal (4 to 6)"
        assert measured(Band(p5=15.0, p50=20.0, p95=25.0), "temp_c") == "68 °F (59 to 77)"
        assert measured(Band(p5=25.4, p50=50.8, p95=127.0), "length_mm") == "2 in (1 to 5)"
        assert amount(0.90718474, "mass_kg") == "2 lb"
        assert amount(2.4, "volume_l") == "2.5 qt"


def test_a_difference_of_a_celsius_is_nine_fifths_of_a_fahrenheit() -> None:
    with read_by(system="us"):
        assert degree() == ("°F", pytest.approx(1.8))


def test_doses_are_said_in_kitchen_measures_with_ml_or_g_beside() -> None:
    """82 mL / 29.5735 = 2.77; a teaspoon is 4.92892 mL: 12 mL are 2.43; 25 g / 28.3495 = 0.882."""
    assert dosed_band(Band(p5=60, p50=82, p95=110), "ml") == "82 mL (60 to 110)"
    with read_by(system="us"):
        assert dosed(82.0, "ml") == "2.77 fl oz (82 mL)"
        assert dosed(12.0, "ml") == "2.4 tsp (12 mL)"
        assert dosed(25.0, "g") == "0.882 oz (25 g)"
        assert dosed(0.5, "g") == "0.5 g"
        assert dosed_band(Band(p5=60, p50=82, p95=110), "ml") == "2.77 fl oz (82 mL; likely 60 to 110)"
