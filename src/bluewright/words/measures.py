"""Measures in the reader's units: kg, L, C, mm; or lb, gallons, °F, inches.

Grams of pigment, of blue and of what is weighed with it stay grams for every reader, and so do concentrations in a
litre: a growers' kitchen scale and a water report give them so everywhere. Doses are said in US kitchen measures with
mL or g beside, because small ones are measured with a syringe and a scale.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from bluewright.science.base.bands import Band, significant
from bluewright.science.base.measures import MeasureKind, in_us_units, say_measure
from bluewright.science.base.unit_names import UNITS
from bluewright.science.base.units import FAHRENHEIT_PER_CELSIUS, POUND_KG, SQUARE_FOOT_M2, US_GALLON_L
from bluewright.words.language import gettext as _
from bluewright.words.numbers import figure, ranged
from bluewright.words.reader import reader

METRIC: Final[dict[MeasureKind, str]] = {
    "volume_l": "L", "mass_kg": "kg", "temp_c": "C", "length_mm": "mm", "length_m": "m", "area_m2": "m²",
}  # fmt: skip
"""The metric units that answers are said in."""


def in_us() -> bool:
    """Whether the reader is used to US units."""
    return reader().system == "us"


def in_own_units(values: Sequence[float], kind: MeasureKind) -> tuple[tuple[float, ...], str]:
    """Values (canonical unit of `kind`) in the reader's unit that fits the middle one, and that unit."""
    return in_us_units(values, kind=kind) if in_us() else (tuple(values), METRIC[kind])


def measured(band: Band, kind: MeasureKind) -> str:
    """A band of a measure in words."""
    (p5, p50, p95), unit = in_own_units((band.p5, band.p50, band.p95), kind)
    return ranged(Band(p5=p5, p50=p50, p95=p95), unit)


def amount(value: float, kind: MeasureKind) -> str:
    """A measure without a range in words, in the same units."""
    (found,), unit = in_own_units((value,), kind)
    return f"{figure(found)} {unit}"


def fitting(value: float, kind: MeasureKind) -> str:
    """A measure in the unit that fits its size, as a person would type it: `450 g`, `1.5 lb`."""
    return say_measure(value, kind=kind, system=reader().system)


def litres(band: Band) -> str:
    """A band of litres in words."""
    return measured(band, "volume_l")


def on_ground(band: Band) -> str:
    """Millimetres of water as litres on each square metre; for a US reader gallons on each square foot."""
    if in_us():
        per = SQUARE_FOOT_M2.value / US_GALLON_L.value
        return _("%(water)s on each square foot") % {"water": ranged(band, "gal", scale=per)}
    return _("%(water)s on each square metre") % {"water": ranged(band, "L")}


def degree() -> tuple[str, float]:
    """The reader's degree, and how many of it make one Celsius: for differences of temperature."""
    return ("°F", FAHRENHEIT_PER_CELSIUS.value) if in_us() else ("C", 1.0)


def of_leaf() -> tuple[str, str, float]:
    """The mass of leaf that yields are told for, short and in words, in kilograms: `kg`, `kilogram`, 1."""
    return ("lb", _("pound"), POUND_KG.value) if in_us() else ("kg", _("kilogram"), 1.0)


def dosed(value: float, unit: str) -> str:
    """`82 mL`; for a US reader `2.8 fl oz (82 mL)`, `5.5 tsp (27 mL)` or `0.88 oz (25 g)`; `unit` is `ml` or `g`."""
    plain = f"{figure(significant(value, 2))} {unit_of_dose(unit)}"
    if not in_us() or value <= 0:
        return plain
    own = say_measure(significant(value, 2), kind="volume_ml" if unit == "ml" else "mass_g", system="us")
    if own.endswith(" tsp"):
        own = f"{figure(significant(value / _tsp_ml(), 2))} tsp"
    return plain if own.endswith((" g", " mg")) else f"{own} ({plain})"


def dosed_band(band: Band, unit: str) -> str:
    """`82 mL (60 to 110)`; for a US reader `2.8 fl oz (82 mL; likely 60 to 110)`."""
    plain = ranged(Band(p5=band.p5, p50=band.p50, p95=band.p95), unit_of_dose(unit))
    own, beside, _mid = dosed(band.p50, unit).partition(" (")
    return f"{own} ({plain.replace(' (', '; likely ')}" if beside else plain


def unit_of_dose(unit: str) -> str:
    """`mL` or `g`."""
    return "mL" if unit == "ml" else unit


def _tsp_ml() -> float:
    return float(1000 * UNITS["US tsp"].scale)
