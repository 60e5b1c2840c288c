"""Fields of records and answers as people read them: the name without its unit, the value with it."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping, Sequence
from datetime import date, datetime
from decimal import Decimal
from typing import Any, Final

from bluewright.science.base.bands import Band
from bluewright.science.base.measures import MeasureKind
from bluewright.science.base.units import FAHRENHEIT_PER_CELSIUS, POUND_KG, SQUARE_FOOT_M2, US_GALLON_L
from bluewright.science.steep.signs import SIGNS
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import degree, in_own_units, in_us
from bluewright.words.numbers import figure, moment, percent, ranged, weekday

UNITS: Final[Mapping[str, str]] = {
    "kg": "kg", "g": "g", "mg": "mg", "ug": "µg", "l": "L", "ml": "mL", "m": "m", "m2": "m²", "m3": "m³", "mm": "mm",
    "um": "µm", "nm": "nm", "cm": "cm", "h": "h", "min": "min", "s": "s", "d": marked("days"), "c": "°C", "c2": "°C²",
    "k": "K", "kpa": "kPa", "pa": "Pa", "pa_s": "Pa s", "mv": "mV", "mol": "mol", "mmol": "mmol", "meq": "meq",
    "mol_per_l": "mol/L", "mmol_per_l": "mmol/L", "mol_per_kg": "mol/kg", "mmol_per_kg": "mmol/kg", "g_per_l": "g/L",
    "mg_per_l": "mg/L", "mg_l": "mg/L", "mg_caco3_l": marked("mg/L as calcium carbonate"), "g_per_kg": "g/kg",
    "bits": marked("bits"), "mol_per_mol": "mol/mol", "g_per_g": "g/g", "m_per_h": "m/h",
    "l_per_kg": "L/kg", "kg_per_l": "kg/L", "g_per_mol": "g/mol", "kg_per_m3": "kg/m³", "g_per_cm3": "g/cm³",
    "percent_w_w": marked("% by mass"), "percent_w_v": marked("g in 100 mL"), "pct": "%", "ppm": "ppm",
    "us_per_cm": "µS/cm", "h_per_l": "h/L", "h_per_l2": "h/L²", "per_h": marked("in an hour"),
    "per_s": marked("in a second"), "per_min": marked("in a minute"), "l_per_min": "L/min", "l_per_h": "L/h",
    "mm_per_h": "mm/h", "m_per_s": "m/s", "j_per_mol": "J/mol", "j_per_mol_k": "J/(mol K)", "w_per_m2": "W/m²",
    "w_per_m2_k": "W/(m² K)", "w_per_k": "W/K", "pours": marked("pours"), "kg_per_m2_h": marked("kg/m² in an hour"),
    "px": marked("points"), "bytes": marked("bytes"), "lab": "", "de": "", "de00": "", "mj_per_m2": "MJ/m²",
    "k_over_s": "", "code": "", "ev": "", "light": "",
    "deg": "°", "degree_d": "°C d", "per_cm": marked("for each cm"),
    "l_per_g_cm": "L/(g cm)", "mg_per_ml": "mg/mL", "absorbance": "",
    "kg_per_m2": "kg/m²", "g_per_m2": "g/m²",
    "per_m2": marked("plants/m²"), "plants": marked("plants"), "cuts": marked("cuts"), "frames": marked("frames"),
    "fills": marked("fillings"), "log": "",
    "money": marked("in your money"), "money_per_h": marked("in your money, an hour"), "amount": "", "amount_per_g": "",
    "money_per_g": marked("in your money, a gram"), "money_per_m3": marked("in your money, a cubic metre"),
    "l_per_g": "L/g", "h_per_g": "h/g", "g_per_h": "g/h", "batches": marked("batches"), "months": marked("months"),
    "per_month": marked("in a month"),
    "frac": "%", "chance": "%", "factor": marked("times"), "exposure": "", "sd": "", "z": "",
}  # fmt: skip
"""What the ending of a name is in print."""
_BY_LENGTH: Final = sorted(UNITS, key=len, reverse=True)
_KEPT_IN_NAME: Final = (
    "batches",
    "cuts",
    "fills",
    "plants",
    "frames",
    "pours",
    "factor",
    "exposure",
    "sd",
    "z",
    "chance",
    "light",
    "absorbance",
)
"""Endings that are words of the name too."""

_MEASURES: Final[Mapping[str, tuple[MeasureKind, str]]] = {
    "kg": ("mass_kg", ""), "l": ("volume_l", ""), "c": ("temp_c", ""), "m": ("length_m", ""), "mm": ("length_mm", ""),
    "m2": ("area_m2", ""), "l_per_h": ("volume_l", "/h"), "l_per_min": ("volume_l", "/min"),
    "mm_per_h": ("length_mm", "/h"),
}  # fmt: skip
"""Endings whose unit each reader has their own of, and what follows it."""
_RATIOS: Final[Mapping[str, tuple[str, float]]] = {
    "degree_d": ("°F d", FAHRENHEIT_PER_CELSIUS.value),
    "l_per_g": ("gal/g", 1 / US_GALLON_L.value),
    "g_per_kg": ("g/lb", POUND_KG.value), "l_per_kg": ("gal/lb", POUND_KG.value / US_GALLON_L.value),
    "kg_per_l": ("lb/gal", US_GALLON_L.value / POUND_KG.value),
    "per_m2": (marked("plants/sq ft"), SQUARE_FOOT_M2.value), "g_per_m2": ("g/sq ft", SQUARE_FOOT_M2.value),
    "kg_per_m2": ("lb/sq ft", SQUARE_FOOT_M2.value / POUND_KG.value),
}  # fmt: skip
"""What a US reader reads instead, and the factor to it."""
_DIFFERENCES: Final = frozenset({"error", "sd", "width"})
"""Words of a name that make its degrees a difference."""

NAMES: Final[Mapping[str, str]] = {
    "advice": marked("advice"),
    "a_star": "a*",
    "b_star": "b*",
    "half_range_l_star": marked("L* known to plus or minus"),
    "before_half_range_l_star": marked("L* known to plus or minus, before"),
    "helps": marked("what raises the chance"),
    "k_over_s_by_dips": marked("depth (K/S) against dips"),
    "l_star": marked("lightness L*"),
    "l_star_by_dips": marked("lightness L* against dips"),
    "nearest_de00": marked("the nearest it comes (CIEDE2000)"),
    "chance_of_losing_a_fifth": marked("chance of losing a fifth"),
    "chance_past_peak": marked("chance that the best is past"),
    "against": marked("compared"),
    "ratio_factor": marked("so many times as much"),
    "cmc_2_1": "CMC(2:1)",
    "at_work_chance": marked("chance that it is at work"),
    "chance_range_frac": marked("range of that chance"),
    "curve": marked("course over time"),
    "degree_d": marked("degree-days"),
    "darkest_nm": marked("darkest at"),
    "de00": marked("how different (CIEDE2000)"),
    "de76": "CIE76",
    "degree_h": marked("degree-hours"),
    "eto_mm": marked("reference evapotranspiration"),
    "ess": marked("effective sample size"),
    "expected_frac_of_best": marked("share of the best"),
    "frac_of_best_now": marked("share of the best, now"),
    "from_": marked("from"),
    "g_per_l": marked("in each litre"),
    "id": marked("name"),
    "fit_de": marked("how far known patches came out"),
    "dip_min": marked("a dip lasts"),
    "do": marked("step"),
    "doubt_bits": marked("doubt that is left"),
    "dye_k_over_s": marked("depth of the dye alone (K/S)"),
    "k_over_s": marked("depth (K/S)"),
    "k_over_s_red": marked("depth (K/S in red)"),
    "red_k_over_s": marked("depth in red light (K/S)"),
    "lab": marked("colour (CIELAB)"),
    "lab_sd": marked("spread of the colour"),
    "next_reading": marked("next reading"),
    "now_in_liquor_frac": marked("share of what the leaf held, now"),
    "options": marked("moments to strain"),
    "percent_w_v": marked("strength"),
    "percent_w_w": marked("strength"),
    "recoverable_g": marked("pure blue"),
    "repeat_lab_sd": marked("spread between photos"),
    "reduce_c": marked("warmth at which it is set"),
    "set_c": marked("warmth while dyeing"),
    "set_ph": marked("pH while dyeing"),
    "share_curve_frac": marked("share of the best, against time"),
    "she_mv": marked("potential against hydrogen"),
    "strain_at": marked("moment to strain"),
    "temp_curve_c": marked("temperature of the tub"),
    "temps": marked("temperatures"),
    "window": marked("the best hours"),
}
"""Names that their field does not say well enough by itself."""


_WORDS: Final[Mapping[str, str]] = {"ph": "pH", "sd": "spread", "temp": "temperature", "co2": "CO2"}


def name_said(field: str) -> str:
    """`leaf_kg` is `leaf`, `ph_after` is `pH after`, `edge_mm_by_h` is `edge against time`."""
    if field in NAMES:
        return _(NAMES[field])
    of, against = course(field)
    said = _(plain_name(of))
    return _("%(name)s against time") % {"name": said} if against else said


def plain_name(field: str) -> str:
    """The English name of a field, which translators find in the catalogue."""
    if field in NAMES:
        return NAMES[field]
    return " ".join(_WORDS.get(word, word) for word in _without_unit(field).split("_") if word)


def course(field: str) -> tuple[str, str]:
    """A curve's name parted into what and against what: `edge_mm_by_h`; the second is empty for what is no curve."""
    of, _, against = field.rpartition("_by_")
    return (of, against) if of and against in {"h", "min", "day"} else (field, "")


def unit_said(field: str) -> str:
    """The unit in which a field is printed; empty for a bare number."""
    of, _against = course(field)
    if {"frac", "chance"} & set(of.split("_")):
        return "%"
    return next((_(UNITS[end]) for end in _BY_LENGTH if f"_{of}".endswith(f"_{end}")), "")


def value_said(value: Any, field: str, *, exact: bool = False) -> str:
    """A value of any kind in words, its numbers as they are printed; with `exact`, as they were given.

    Of a record the fields that say something, each after its name.
    """
    if is_band(value):
        return _band_said(value, field)
    if dataclasses.is_dataclass(value):
        return "; ".join(f"{name} {said}" for name, said in parts_said(value, exact=exact))
    if isinstance(value, tuple):
        return ", ".join(value_said(one, field, exact=exact) for one in value) or _("none")
    if isinstance(value, Mapping):
        return ", ".join(f"{name_said(str(k))} {value_said(one, str(k), exact=exact)}" for k, one in value.items())
    return _plain_said(value, field, exact=exact)


def parts_said(value: Any, *, exact: bool = False) -> list[tuple[str, str]]:
    """The fields of a record or answer that say something, each with its name and value; of one within it, its own."""
    found = []
    for one in dataclasses.fields(value):
        held = getattr(value, one.name)
        if dataclasses.is_dataclass(held) and not is_band(held):
            found += parts_said(held, exact=exact)
        elif one.name != "version" and held is not None and held != ():
            found.append((name_said(one.name), value_said(held, one.name, exact=exact)))
    return [(name, said) for name, said in found if said]


def place_said(at: float, field: str) -> str:
    """Where along a curve, in the unit that the curve's name ends in (`edge_mm_by_h`)."""
    return with_unit(figure(at), _(UNITS.get(course(field)[1], "")))


def is_band(value: Any) -> bool:
    """Whether it has a middle and a range."""
    return all(hasattr(value, point) for point in ("p5", "p50", "p95"))


def exactly(value: float, digits: int = 6) -> str:
    """So many figures, never an exponent: a constant or an input as it was given."""
    return format(Decimal(f"{value:.{digits}g}"), "f")


def as_given(value: float) -> str:
    """An input: four figures, from a thousand on six."""
    return exactly(value, 4 if abs(value) < 1000 else 6)


def in_own_unit(values: Sequence[float], field: str) -> tuple[tuple[float, ...], str]:
    """Values of a field in the unit that the reader is used to, and that unit."""
    of, _against = course(field)
    end = next((end for end in _BY_LENGTH if f"_{of}".endswith(f"_{end}")), "")
    if not in_us() or unit_said(field) == "%":
        return tuple(values), unit_said(field)
    if end == "c" and _DIFFERENCES & set(of.split("_")):
        name, step = degree()
        return tuple(step * value for value in values), name
    if end in _RATIOS:
        name, factor = _RATIOS[end]
        return tuple(factor * value for value in values), _(name)
    if end in _MEASURES:
        kind, per = _MEASURES[end]
        own, name = in_own_units(values, kind)
        return own, f"{name}{per}"
    return tuple(values), unit_said(field)


def with_unit(number: str, unit: str) -> str:
    """`4.8 g`, `82%`, `5.5`."""
    return f"{number}{'' if unit in {'', '%'} else ' '}{unit}"


def _plain_said(value: Any, field: str, *, exact: bool) -> str:
    if isinstance(value, bool):
        return _("yes") if value else _("no")
    if isinstance(value, datetime):
        return moment(value)
    if isinstance(value, date):
        return weekday(value)
    if isinstance(value, int | float):
        return _number_said(value, field, exact=exact)
    said = _("not known") if value is None else str(value)
    return name_said(said) if said.isidentifier() else said


def _number_said(value: float, field: str, *, exact: bool) -> str:
    if field in SIGNS:
        return f"{value} ({_(SIGNS[field].levels[int(value)])})"
    words = field.split("_")
    if "chance" in words:
        return percent(value)
    number = as_given if exact else figure
    if "frac" in words:
        return f"{number(100 * value)}%"
    (own,), unit = in_own_unit((value,), field)
    return with_unit(number(own), unit)


def _band_said(value: Any, field: str) -> str:
    if own := getattr(value, "unit", None):
        return ranged(Band(p5=value.p5, p50=value.p50, p95=value.p95), {"ml": "mL"}.get(own, own))
    (p5, p50, p95), unit = in_own_unit((value.p5, value.p50, value.p95), field)
    return ranged(Band(p5=p5, p50=p50, p95=p95), unit, scale=100 if _is_share(field) else 1)


def _is_share(field: str) -> bool:
    """Whether it runs from 0 to 1 and is told in per cent; what ends in `_pct` is in per cent already."""
    return bool({"frac", "chance"} & set(course(field)[0].split("_")))


def _without_unit(field: str) -> str:
    for end in _BY_LENGTH:
        if field.endswith(f"_{end}") and end not in _KEPT_IN_NAME:
            return field.removesuffix(f"_{end}")
    return field
