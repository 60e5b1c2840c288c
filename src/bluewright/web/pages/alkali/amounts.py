"""Amounts of alkali in the grower's own measures: mL and g, or those of a US kitchen with mL or g beside."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext as _

from bluewright.science.base.bands import Band, significant
from bluewright.science.base.measures import say_measure
from bluewright.science.base.unit_names import UNITS
from bluewright.words.numbers import figure, ranged


def in_measures(amount: float, *, unit: str, system: str) -> str:
    """`82 mL`; `2.8 fl oz (82 mL)`, `5.5 tsp (27 mL)` or `0.88 oz (25 g)` where US measures are used."""
    plain = f"{figure(significant(amount, 2))} {said_unit(unit)}"
    if system != "us" or amount <= 0:
        return plain
    kind: Any = "volume_ml" if unit == "ml" else "mass_g"
    own = say_measure(significant(amount, 2), kind=kind, system="us")
    if own.endswith(" tsp"):
        own = f"{figure(significant(amount / _tsp_ml(), 2))} tsp"
    return plain if own.endswith((" g", " mg")) else f"{own} ({plain})"


def in_range(band: Band, *, unit: str, system: str) -> str:
    """The middle in the grower's measures, and the likely range in mL or g."""
    if system != "us":
        return ranged(band, said_unit(unit))
    return _("%(middle)s; likely %(range)s") % {
        "middle": in_measures(band.p50, unit=unit, system=system), "range": ranged(band, said_unit(unit)),
    }  # fmt: skip


def said_unit(unit: str) -> str:
    """`mL` or `g`."""
    return "mL" if unit == "ml" else unit


def _tsp_ml() -> float:
    return float(1000 * UNITS["US tsp"].scale)
