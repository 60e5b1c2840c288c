"""Sentences of the science in the reader's units. 1 US gal = 3.785411784 L, 1 lb = 0.45359237 kg, 1 ft = 304.8 mm;
a kilogram in a litre is 8.3454 lb in a gallon; Fahrenheit is 9/5 of Celsius and 32."""

import pytest

from bluewright.words.own_text import own_text
from bluewright.words.reader import read_by


@pytest.mark.parametrize(("metric", "us"), [
    ("The tub may be at 55 C, which scalds.", "The tub may be at 131 °F, which scalds."),
    ("at 60 C in five seconds, at 70 C in one", "at 140 °F in five seconds, at 158 °F in one"),
    ("these figures are for 0 to 40 C.", "these figures are for 32 to 104 °F."),
    ("1,300 L of hot liquor scald.", "343 gal of hot liquor scald."),
    ("Wet leaf is heavy: about 12 kg here.", "Wet leaf is heavy: about 26 lb here."),
    ("0.3 to 0.5 kg of leaf to a litre", "2.5 to 4.2 lb of leaf to a gallon"),
    ("More than 0.25 kg of leaf in a litre of water is", "More than 2.1 lb of leaf in a gallon is"),
    ("20 g from a kilogram of leaf is", "9.1 g from a pound of leaf is"),
    ("woad 3.3 g/kg, widely", "woad 1.5 g/lb, widely"),
    ("210 mm is above the surface", "8.3 in is above the surface"),
    ("buckets up to 1.5 m deep at 3 to 50 C", "buckets up to 4.9 ft deep at 37 to 122 °F"),
    ("12.5 g, 40 mL, 3 mg/L, 2 kg/L, 1.3 L/kg, 4 m³ and pH 9", None),
    ("Vitamin C, Tub 3, hour 5", None),
])  # fmt: skip
def test_each_figure_with_a_metric_unit_is_turned_and_nothing_else(metric: str, us: str | None) -> None:
    assert own_text(metric) == metric
    with read_by(system="us"):
        assert own_text(metric) == (us or metric)
