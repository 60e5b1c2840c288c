"""Sentences of the science in the reader's units.

The science writes its cautions and mistakes with metric figures, each with its unit, so that they mean the same in
every file. Here the figures of such a sentence are turned into the reader's; grams, mL and concentrations stay.
"""

from __future__ import annotations

import re
from typing import Final

from bluewright.science.base.measures import MeasureKind
from bluewright.science.base.units import POUND_KG, US_GALLON_L
from bluewright.words.measures import in_own_units, in_us
from bluewright.words.numbers import figure

_NUMBER: Final = r"(?<![\w.,-])-?\d[\d,]*(?:\.\d+)?"
_SPAN: Final = rf"(?P<low>{_NUMBER})(?:(?P<joint> to | and )(?P<high>{_NUMBER}))?"
_LEAF: Final = re.compile(rf"{_SPAN} kg (?P<of>of leaf )?(?P<to>to|in) a litre(?: of water)?")
_YIELD: Final = re.compile(rf"{_SPAN} g(?P<per>/kg| from a kilogram)")
_FIGURE: Final = re.compile(rf"{_SPAN} (?P<unit>C|L|kg|mm|cm|m)\b(?![/²³])")
_KINDS: Final[dict[str, tuple[MeasureKind, float]]] = {
    "C": ("temp_c", 1.0), "L": ("volume_l", 1.0), "kg": ("mass_kg", 1.0), "mm": ("length_mm", 1.0),
    "cm": ("length_mm", 10.0), "m": ("length_m", 1.0),
}  # fmt: skip
"""What a unit of such a sentence measures, and how many of the canonical unit it is."""


def own_text(sentence: str) -> str:
    """The sentence with its figures in the reader's units: `At 20 C 40 L` is `At 68 °F 11 gal` for a US reader."""
    if not in_us():
        return sentence
    said = _LEAF.sub(lambda f: f"{_times(f, _lb_per_gal())} lb {f['of'] or ''}{f['to']} a gallon", sentence)
    said = _YIELD.sub(lambda f: f"{_times(f, POUND_KG.value)} g{'/lb' if f['per'] == '/kg' else ' from a pound'}", said)
    return _FIGURE.sub(_in_own_unit, said)


def _in_own_unit(found: re.Match[str]) -> str:
    kind, scale = _KINDS[found["unit"]]
    values, unit = in_own_units([scale * one for one in _values(found)], kind)
    return f"{_joined(found, values)} {unit}"


def _times(found: re.Match[str], factor: float) -> str:
    return _joined(found, tuple(factor * one for one in _values(found)))


def _values(found: re.Match[str]) -> list[float]:
    return [float(text.replace(",", "")) for text in (found["low"], found["high"]) if text is not None]


def _joined(found: re.Match[str], values: tuple[float, ...]) -> str:
    return (found["joint"] or "").join(figure(value) for value in values)


def _lb_per_gal() -> float:
    """Pounds in a US gallon that one kilogram in a litre makes."""
    return US_GALLON_L.value / POUND_KG.value
