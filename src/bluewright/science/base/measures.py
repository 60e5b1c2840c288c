"""What a person types becomes a canonical value, and a canonical value becomes what a person reads.

`2 lb 3 oz`, `64 °F`, `5,5 kg` and `1½ cups` are read; what could mean two things is refused with what would be right.
"""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from typing import Final, Literal

from bluewright.science.base.errors import InputError
from bluewright.science.base.records import answer
from bluewright.science.base.typed_numbers import number, plain
from bluewright.science.base.unit_names import UNITS, Dimension, Unit, find_unit

System = Literal["metric", "us"]
"""Whose units: metric, or US customary."""

MeasureKind = Literal[
    "mass_kg",
    "mass_g",
    "volume_l",
    "volume_ml",
    "temp_c",
    "length_m",
    "length_mm",
    "area_m2",
    "time_h",
    "time_min",
    "ph",
    "fraction",
    "count",
    "hardness_mg_caco3_l",
]
"""What is measured, with the canonical unit in its name; a fraction runs from 0 to 1."""

MAX_TYPED: Final = 60
"""A longer text is refused unread: no measure needs it."""


@answer
class Measure:
    """A measure as typed, and as understood."""

    typed: str
    """The text as it was typed, without spaces around it."""
    value: float
    """The value in the canonical unit of its kind."""
    unit: str
    """The unit that was understood (`lb and oz` where two were typed); empty for pH, counts and bare fractions."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Kind:
    """`bare`: what a number without unit means; `said`: the units to say it in, each from how many of it on."""

    noun: str
    dimension: Dimension
    canonical: Fraction = Fraction(1)
    bare: Mapping[System, str]
    said: Mapping[System, tuple[tuple[str, float], ...]]


_G: Final = (("g", 0.1), ("mg", 0.0))
_MASS: Final[Mapping[System, tuple[tuple[str, float], ...]]] = {
    "metric": (("kg", 1.0), *_G),
    "us": (("lb", 1.0), ("oz", 0.1), *_G),
}
_VOLUME: Final[Mapping[System, tuple[tuple[str, float], ...]]] = {
    "metric": (("L", 1.0), ("mL", 0.0)),
    "us": (("US gal", 1.0), ("US qt", 1.0), ("US fl oz", 0.5), ("US tsp", 0.0)),
}
_TIME: Final = (("h", 1.0), ("min", 1.0), ("s", 0.0))
_MILLI: Final = Fraction(1, 1000)

_KINDS: Final[Mapping[MeasureKind, _Kind]] = {
    "mass_kg": _Kind(noun="a mass", dimension="mass", bare={"metric": "kg", "us": "lb"}, said=_MASS),
    "mass_g": _Kind(noun="a mass", dimension="mass", canonical=_MILLI, bare={"metric": "g", "us": "oz"}, said=_MASS),
    "volume_l": _Kind(noun="a volume", dimension="volume", bare={"metric": "L", "us": "US gal"}, said=_VOLUME),
    "volume_ml": _Kind(
        noun="a volume", dimension="volume", canonical=_MILLI, bare={"metric": "mL", "us": "US fl oz"}, said=_VOLUME
    ),
    "temp_c": _Kind(
        noun="a temperature",
        dimension="temperature",
        bare={"metric": "°C", "us": "°F"},
        said={"metric": (("°C", 0.0),), "us": (("°F", 0.0),)},
    ),
    "length_m": _Kind(
        noun="a length",
        dimension="length",
        bare={"metric": "m", "us": "ft"},
        said={"metric": (("m", 1.0), ("cm", 1.0), ("mm", 0.0)), "us": (("ft", 1.0), ("in", 0.0))},
    ),
    "length_mm": _Kind(
        noun="a length",
        dimension="length",
        canonical=_MILLI,
        bare={"metric": "mm", "us": "in"},
        said={"metric": (("m", 1.0), ("mm", 0.0)), "us": (("ft", 8.0), ("in", 0.0))},
    ),
    "area_m2": _Kind(
        noun="an area",
        dimension="area",
        bare={"metric": "m²", "us": "sq ft"},
        said={"metric": (("m²", 0.1), ("cm²", 0.0)), "us": (("sq ft", 1.0), ("sq in", 0.0))},
    ),
    "time_h": _Kind(
        noun="a length of time",
        dimension="time",
        bare={"metric": "h", "us": "h"},
        said={"metric": _TIME, "us": _TIME},
    ),
    "time_min": _Kind(
        noun="a length of time",
        dimension="time",
        canonical=Fraction(1, 60),
        bare={"metric": "min", "us": "min"},
        said={"metric": _TIME, "us": _TIME},
    ),
    "ph": _Kind(noun="a pH", dimension="pH", bare={}, said={}),
    "fraction": _Kind(noun="a share", dimension="share", bare={}, said={"metric": (("%", 0.0),), "us": (("%", 0.0),)}),
    "count": _Kind(noun="a count", dimension="count", bare={}, said={}),
    "hardness_mg_caco3_l": _Kind(
        noun="a hardness",
        dimension="hardness",
        bare={"metric": "mg/L", "us": "mg/L"},
        said={"metric": (("mg/L", 0.0),), "us": (("mg/L", 0.0),)},
    ),
}

_RIGHT: Final[Mapping[Dimension, str]] = {
    "mass": "use kg, g, mg, t, lb or oz, like 2.5 kg or 2 lb 3 oz",
    "volume": "use L, dL, cL, mL, m³ or US gal, qt, pint, cup, fl oz, tbsp, tsp (say UK or metric where it is meant), "
    "like 40 L, 1 1/2 cups or 2 UK pints",
    "temperature": "use °C, °F or K, like 18 °C or 64 F",
    "length": "use m, cm, mm, ft, in or yd, like 45 cm or 1 ft 3 in",
    "area": "use m², cm², sq ft, sq in or sq yd, like 0.5 m2 or 6 sq ft",
    "time": "use h, min, s or d, like 36 h or 1 h 30 min",
    "share": "use percent or a part of one, like 45 % or 0.45",
    "pH": "write a number from 0 to 14 without unit, like 9.5",
    "count": "write a whole number without unit, like 12",
    "hardness": "use mg/L (of CaCO3), ppm, °dH, °fH, °e (Clark) or gpg, like 110 mg/L or 6 °dH",
}
_DIMENSION_NOUN: Final = {kind.dimension: kind.noun for kind in _KINDS.values()}
_LOWEST_AND_HIGHEST: Final[Mapping[Dimension, tuple[Fraction, float]]] = {
    "temperature": (UNITS["K"].zero, math.inf),
    "pH": (Fraction(0), 14.0),
    "share": (Fraction(0), 1.0),
}

# A dot or comma opens a number only after a space: in `2 lb.3 oz` the dot ends a word.
_OPENS: Final = r"(?:(?<!\S)[.,])?\d"
_PART: Final = re.compile(rf"({_OPENS}(?:[\d.,/ -]*\d)?)(\D*?)(?={_OPENS}|$)")


def read_measure(text: str, *, kind: MeasureKind, prefer: System) -> Measure:
    """The measure that `text` means, its value in the canonical unit of `kind`.

    A number without unit is in the unit that `prefer` gives: kg or lb, g or oz, L or US gal, mL or US fl oz, °C or °F,
    m or ft, mm or in, m² or sq ft, h, min, mg/L. A bare fraction lies from 0 to below 1; above that only percent
    are read. Pints, cups, spoons, quarts, gallons and fluid ounces are US ones unless UK (imperial), or metric for a
    cup, is said. Conversions are exact and rounded once, to the nearest double.

    Raises InputError (`where` is empty) for nothing, an unknown unit, a unit of another kind, a range, a number that
    could be read in two ways (`1,234`), and a value that cannot be (below zero, below absolute zero, above 100 %).
    """
    typed, sort = text.strip(), _KINDS[kind]
    if not typed:
        raise InputError(where="", what="nothing is typed", right=_RIGHT[sort.dimension])
    if len(typed) > MAX_TYPED:
        raise InputError(where="", what=f"this is longer than {MAX_TYPED} characters", right=_RIGHT[sort.dimension])
    sign, parts = _split(typed, sort)
    amounts = [(number(amount), _unit(name, typed, sort, prefer)) for amount, name in parts]
    base = _total(sign, amounts, typed, sort)
    _check_possible(base, typed, sort)
    labels = [unit.label for _, unit in amounts if unit is not None]
    return Measure(typed=typed, value=float(base / sort.canonical), unit=" and ".join(labels))


def say_measure(value: float, *, kind: MeasureKind, system: System) -> str:
    """`value` (canonical unit of `kind`) as a person reads it, in a unit that fits its size: `450 g`, `1.5 lb`.

    Up to three figures and never an exponent; a temperature and a pH to one decimal; a count whole. What would print
    as nothing in the smallest unit is `under 0.001` of it. `read_measure` reads the rest back, within the figures
    printed. Raises InputError for a value that cannot be, as `read_measure` does.
    """
    sort = _KINDS[kind]
    if not math.isfinite(value):
        raise InputError(where="", what=f"{value} is no finite number", right=_RIGHT[sort.dimension])
    exact = Fraction(value)
    _check_possible(exact * sort.canonical, f"{value:g}", sort)
    if sort.dimension == "count":
        return str(int(exact))
    if sort.dimension == "pH":
        return f"pH {_trimmed(f'{value:.1f}')}"
    if value == 0 and sort.bare:
        return _with_unit(_amount(exact, UNITS[sort.bare[system]]), sort.bare[system])
    label = _fitting(exact * sort.canonical, sort, system)
    return _with_unit(_amount(exact * sort.canonical, UNITS[label]), label)


def in_us_units(values: Sequence[float], *, kind: MeasureKind) -> tuple[tuple[float, ...], str]:
    """Values (canonical unit of `kind`) in the US unit that fits the one in the middle, and its label: `gal`, `°F`."""
    sort = _KINDS[kind]
    label = _fitting(Fraction(values[len(values) // 2]) * sort.canonical, sort, "us")
    amounts = tuple(_amount(Fraction(value) * sort.canonical, UNITS[label]) for value in values)
    return amounts, label.removeprefix("US ")


def bare_unit(kind: MeasureKind, *, system: System) -> str:
    """The unit that a number without one is in: `kg`, `gal`; empty for a pH, a share and a count."""
    return _KINDS[kind].bare.get(system, "").removeprefix("US ")


# --- reading ----------------------------------------------------------------------------------------------------


def _split(typed: str, sort: _Kind) -> tuple[int, list[tuple[str, str]]]:
    """The sign, and each number with the name of its unit (empty where none is typed)."""
    said = re.sub(r",? (?:and|&) |(?<=[A-Za-z]), ", " ", plain(typed), flags=re.IGNORECASE)
    if sort.dimension == "pH":
        said = re.sub(r"^ph ?[=:]? ?", "", said, flags=re.IGNORECASE)
    if sort.dimension == "area":
        said = re.sub(r"(?<=[A-Za-z])\^?2(?!\d)", "²", said)
    if sort.dimension == "volume":
        said = re.sub(r"(?<=[Mm])\^?3(?!\d)", "³", said)
    if sort.dimension == "hardness":
        said = re.sub(r" ?(?:as )?\(?caco3\)?$", "", said, flags=re.IGNORECASE)
    sign = -1 if said.startswith("-") else 1
    said = said.removeprefix("-" if sign < 0 else "+").lstrip()
    parts: list[tuple[str, str]] = []
    at = 0
    while fits := _PART.match(said, at):
        parts.append((fits[1], fits[2].strip()))
        at = fits.end()
    if not parts:
        what = f"'{typed}' does not begin with a number"
        raise InputError(where="", what=what, right=_RIGHT[sort.dimension])
    if any(re.search(r"-$|- | -", name) for _, name in parts):
        raise InputError(where="", what=f"'{typed}' is a range", right="give one value")
    return sign, parts


def _unit(name: str, typed: str, sort: _Kind, prefer: System) -> Unit | None:
    """The unit that is meant; None where the kind has none and none is typed."""
    if not name or (sort.dimension == "temperature" and name.casefold() in {"°", "deg", "degree", "degrees"}):
        return UNITS[sort.bare[prefer]] if sort.bare else None
    found = find_unit(name)
    if found is None:
        what = f"'{name}' in '{typed}' is no unit known here" if name != typed else f"'{typed}' is no measure"
        raise InputError(where="", what=what, right=_RIGHT[sort.dimension])
    if found.dimension != sort.dimension:
        what = f"'{typed}' is {_DIMENSION_NOUN[found.dimension]}, not {sort.noun}"
        raise InputError(where="", what=what, right=_RIGHT[sort.dimension])
    return found


def _total(sign: int, amounts: list[tuple[Fraction, Unit | None]], typed: str, sort: _Kind) -> Fraction:
    """The sum in the base unit; units must fall, and each part must be less than one of the unit before."""
    units = [unit for _, unit in amounts if unit is not None]
    if len(amounts) == 1:
        amount = sign * amounts[0][0]
        if sort.dimension == "share" and not units and amount >= 1:
            what = f"'{typed}' could mean percent or the whole"
            raise InputError(where="", what=what, right="write it with its sign, like 45 % or 100 %")
        return units[0].zero + units[0].scale * amount if units else amount
    sizes = [amount * unit.scale for amount, unit in amounts if unit is not None]
    falls = all(size < before.scale for size, before in zip(sizes[1:], units, strict=False))
    if len(units) < len(amounts) or sort.dimension in {"temperature", "share"} or not falls:
        what = f"'{typed}' is not one measure"
        raise InputError(where="", what=what, right=_RIGHT[sort.dimension])
    return sign * sum(sizes, Fraction(0))


def _check_possible(base: Fraction, typed: str, sort: _Kind) -> None:
    low, high = _LOWEST_AND_HIGHEST.get(sort.dimension, (Fraction(0), math.inf))
    if not low <= base <= high:
        what = f"'{typed}' is not possible for {sort.noun}"
        bound = f"it must be at least {_trimmed(f'{float(low):.2f}')}{' °C' if low else ''}"
        if high != math.inf:
            bound = "it lies from 0 to 100 %" if sort.dimension == "share" else "it lies from 0 to 14"
        raise InputError(where="", what=what, right=f"{bound}; {_RIGHT[sort.dimension]}")
    if sort.dimension == "count" and base.denominator != 1:
        raise InputError(where="", what=f"'{typed}' is not a whole number", right=_RIGHT["count"])


# --- saying -----------------------------------------------------------------------------------------------------


def _fitting(base: Fraction, sort: _Kind, system: System) -> str:
    """The first unit of those that a kind is said in that is not too large."""
    for label, least in sort.said[system]:
        if least == 0 or float(f"{_amount(base, UNITS[label]):.3g}") >= least:
            break
    return label


def _amount(base: Fraction, unit: Unit) -> float:
    return float((base - unit.zero) / unit.scale)


def _with_unit(amount: float, label: str) -> str:
    shown = label.removeprefix("US ")
    joint = "" if shown == "%" else " "
    if UNITS[label].dimension == "temperature":
        figures = f"{amount:.1f}" if abs(amount) < 99.95 else f"{amount:.0f}"
        return f"{_trimmed(figures).replace('-', '−')} {shown}"
    if 0 < amount < 0.001:
        return f"under 0.001{joint}{shown}"
    return f"{_trimmed(format(Decimal(f'{amount:.2e}'), 'f'))}{joint}{shown}"


def _trimmed(figures: str) -> str:
    """Without the zeros after the last figure that says something; no minus before nothing."""
    short = figures.rstrip("0").rstrip(".") if "." in figures else figures
    return "0" if short in {"-0", ""} else short
