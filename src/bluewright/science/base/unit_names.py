"""The units that people may type, under all their names, and how much each is.

A name is looked up without spaces, dots, hyphens and brackets, and in any case. Case matters only where two units of
this table would be mixed up: `mg` (a megagram is a tonne), `t` (kitchens write T and t for spoons).
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Final, Literal

from bluewright.science.base import units
from bluewright.science.base.sourced import Sourced

Dimension = Literal["mass", "volume", "temperature", "length", "area", "time", "share", "pH", "count", "hardness"]
"""What is measured. The base units are kg, L, degree Celsius, m, m2, h, 1, and mg of CaCO3 in a litre."""


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: the label it is shown by, and `base = zero + scale * amount` in the base unit of its dimension."""

    label: str
    dimension: Dimension
    scale: Fraction
    zero: Fraction = Fraction(0)


_SPACERS = re.compile(r"[ .()\-]")
_CASE_MATTERS: Final = {"mg", "t"}
_US: Final = ("us",)
_UK: Final = ("uk", "imp", "imperial", "british")

_PINT: Final = "pint pints pt pts"
_QUART: Final = "quart quarts qt qts"
_GALLON: Final = "gal gals gallon gallons"
_FLUID_OUNCE: Final = "floz fluidounce fluidounces fluidoz flounce flounces"
_DEGREE: Final = ("", "°", "deg", "degree", "degrees")


def _scale(amount: Sourced | str | int) -> Fraction:
    """The decimal as it is written, not its nearest binary number."""
    return Fraction(str(amount.value) if isinstance(amount, Sourced) else amount)


def _of(dimension: Dimension, *rows: tuple[str, Sourced | str | int, str]) -> list[tuple[Unit, list[str]]]:
    return [(Unit(label, dimension, _scale(amount)), names.split()) for label, amount, names in rows]


def _of_system(marks: tuple[str, ...], *rows: tuple[str, Sourced, str]) -> list[tuple[Unit, list[str]]]:
    """Units of volume whose country is said before or after: `UK pint`, `pint (imperial)`."""
    found = []
    for label, amount, names in rows:
        marked = [f"{a}{b}" for name in names.split() for mark in marks for a, b in ((mark, name), (name, mark))]
        found.append((Unit(label, "volume", _scale(amount)), marked))
    return found


def _temperatures() -> list[tuple[Unit, list[str]]]:
    per = 1 / _scale(units.FAHRENHEIT_PER_CELSIUS)
    zero = -_scale(units.FAHRENHEIT_AT_0_C) * per
    kelvin = Unit("K", "temperature", Fraction(1), -Fraction(str(units.KELVIN_OFFSET)))
    return [
        (Unit("°C", "temperature", Fraction(1)), [f"{d}{n}" for d in _DEGREE for n in ("c", "celsius", "centigrade")]),
        (Unit("°F", "temperature", per, zero), [f"{d}{n}" for d in _DEGREE for n in ("f", "fahrenheit")]),
        (kelvin, ["k", "kelvin", "kelvins"]),
    ]


def _hardness() -> list[tuple[Unit, list[str]]]:
    """Hardness and alkalinity of water; a grain of CaCO3 in a UK gallon is an English degree."""
    grain = _scale(units.GRAIN_MG)
    german = _scale(units.GERMAN_DEGREE_MG_CACO3_L)
    rows = (
        ("mg/L", Fraction(1), "mg/l mgl mgperlitre mgperliter ppm"),
        ("°dH", german, "°dh dh °dgh dgh °dkh dkh german germandegree germandegrees"),
        ("°fH", Fraction(10), "°fh fh french frenchdegree frenchdegrees"),
        ("°e", grain / _scale(units.UK_GALLON_L), "°e °eh eh clark °clark english englishdegree englishdegrees"),
        ("gpg", grain / _scale(units.US_GALLON_L), "gpg grainpergallon grainspergallon grain/gal grains/gal"),
    )
    return [(Unit(label, "hardness", scale), names.split()) for label, scale, names in rows]


_US_VOLUMES: Final = (
    ("US gal", units.US_GALLON_L, _GALLON),
    ("US qt", units.US_QUART_L, _QUART),
    ("US pint", units.US_PINT_L, _PINT),
    ("US cup", units.US_CUP_L, "cup cups"),
    ("US fl oz", units.US_FLUID_OUNCE_L, _FLUID_OUNCE),
    ("US tbsp", units.US_TABLESPOON_L, "tbsp tbsps tbs tablespoon tablespoons"),
    ("US tsp", units.US_TEASPOON_L, "tsp tsps teaspoon teaspoons"),
)
_TABLE: Final = [
    *_of(
        "mass",
        ("kg", 1, "kg kgs kilo kilos kilogram kilograms kilogramme kilogrammes"),
        ("g", "0.001", "g gs gm gms gram grams gramme grammes"),
        ("mg", "0.000001", "mg milligram milligrams milligramme milligrammes"),
        ("t", 1000, "t tonne tonnes"),
        ("lb", units.POUND_KG, "lb lbs pound pounds"),
        ("oz", units.OUNCE_KG, "oz ozs ounce ounces"),
    ),
    *_of(
        "volume",
        ("L", 1, "l ls litre litres liter liters"),
        ("dL", "0.1", "dl decilitre decilitres deciliter deciliters"),
        ("cL", "0.01", "cl centilitre centilitres centiliter centiliters"),
        ("mL", "0.001", "ml mls millilitre millilitres milliliter milliliters cc cm³"),
        ("m³", 1000, "m³"),
        ("metric cup", units.METRIC_CUP_L, "metriccup metriccups cupmetric cupsmetric"),
        *_US_VOLUMES,
    ),
    *_of_system(_US, *_US_VOLUMES),
    *_of_system(
        _UK,
        ("UK gal", units.UK_GALLON_L, _GALLON),
        ("UK qt", units.UK_QUART_L, _QUART),
        ("UK pint", units.UK_PINT_L, _PINT),
        ("UK fl oz", units.UK_FLUID_OUNCE_L, _FLUID_OUNCE),
    ),
    *_temperatures(),
    *_of(
        "length",
        ("m", 1, "m metre metres meter meters"),
        ("cm", "0.01", "cm cms centimetre centimetres centimeter centimeters"),
        ("mm", "0.001", "mm mms millimetre millimetres millimeter millimeters"),
        ("in", units.INCH_M, 'in ins inch inches "'),
        ("ft", units.FOOT_M, "ft foot feet '"),
        ("yd", units.YARD_M, "yd yds yard yards"),
    ),
    *_of(
        "area",
        ("m²", 1, "m² sqm squaremetre squaremetres squaremeter squaremeters"),
        ("cm²", "0.0001", "cm² sqcm squarecentimetre squarecentimetres squarecentimeter squarecentimeters"),
        ("sq in", units.SQUARE_INCH_M2, "in² sqin squareinch squareinches"),
        ("sq ft", units.SQUARE_FOOT_M2, "ft² sqft squarefoot squarefeet"),
        ("sq yd", units.SQUARE_YARD_M2, "yd² sqyd squareyard squareyards"),
    ),
    *_of("time", ("d", 24, "d day days"), ("h", 1, "h hr hrs hour hours")),
    (Unit("min", "time", Fraction(1, 60)), ["min", "mins", "minute", "minutes"]),
    (Unit("s", "time", Fraction(1, 3600)), ["s", "sec", "secs", "second", "seconds"]),
    (Unit("%", "share", Fraction(1, 100)), ["%", "percent", "pct"]),
    *_hardness(),
]

NAMES: Final = {name: unit for unit, names in _TABLE for name in names}
"""Each name, without spacers and in lower case, and the unit that it means."""

UNITS: Final = {unit.label: unit for unit, _ in _TABLE}
"""The units by their labels."""


def find_unit(name: str) -> Unit | None:
    """The unit that `name` means (`fl. oz.`, `Imp Gal`, `°F`), or None where it means none of the table."""
    bare = _SPACERS.sub("", name)
    folded = bare.casefold()
    return None if folded in _CASE_MATTERS and bare != folded else NAMES.get(folded)
