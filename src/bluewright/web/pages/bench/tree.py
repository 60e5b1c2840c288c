"""What can be typed for a record, read from its class, so that a new field of a record is on its page at once."""

from __future__ import annotations

import types
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Annotated, Any, Final, Literal, Union, get_args, get_origin

from pydantic import AwareDatetime
from pydantic.fields import FieldInfo
from pydantic_core import PydanticUndefined

from bluewright.science.base.meanings import docstrings
from bluewright.science.base.measures import MeasureKind
from bluewright.words.language import marked

Sort = Literal[
    MeasureKind, "number", "choice", "level", "yes_no", "tick", "moment", "day", "text", "words", "numbers", "series"
]
"""How a value is typed: a measure of a kind, or one of the rest."""

MEASURES: Final[dict[str, MeasureKind]] = {
    "kg": "mass_kg", "g": "mass_g", "l": "volume_l", "ml": "volume_ml", "c": "temp_c", "m": "length_m",
    "mm": "length_mm", "m2": "area_m2", "h": "time_h", "min": "time_min", "ph": "ph", "frac": "fraction",
}  # fmt: skip
"""The measure that a field's last word stands for."""
UNITS: Final = {
    "dissolved_oxygen_mg_l": "mg/L", "mg_caco3_l": "mg CaCO₃/L", "percent_w_w": "%", "percent_w_v": "%",
    "mol_per_l": "mol/L", "us_per_cm": "µS/cm", "m_per_s": "m/s", "l_per_min": "L/min", "l_per_s": "L/s",
    "g_per_kg": "g/kg", "g_per_h": "g/h", "g_per_l": "g/L", "per_min": marked("a minute"),
    "changes_per_h": marked("an hour"),
    "mol": "mol", "m3": "m³", "s": "s", "error_c": "°C", "mg": "mg", "nm": "nm", "cm": "cm", "mg_per_l": "mg/L",
    "l_per_g_cm": "L/(g cm)", "pct": "%", "factor": marked("times"), "latitude_deg": "°",
    "mj_per_m2": "MJ/m²", "degree_d": "°C d", "wet_d": marked("days"), "ahead_d": marked("days"),
    "k_over_s": "", "money": "", "money_per_h": marked("an hour"), "money_per_g": marked("a gram"),
    "money_per_m3": marked("a cubic metre"), "amount": "",
}  # fmt: skip
"""Units of bare numbers by the ending of the field's name; the longest that fits holds."""
NUMBERS: Final = frozenset({"error_c", "hold_error_c", "ph_sd", "kla_sd_frac", "demand_sd_frac", "least_gain_frac"})
"""Fields that only look like a measure: differences, and shares that may be above one."""
UNTYPED: Final = frozenset({"version", "garden", "learned", "seed"})
"""What programs write and people do not."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """One value: where it stands in the record, how it is typed, and what is known of it."""

    field: str
    name: str
    """In the address: without the unit where the unit is typed along."""
    sort: Sort
    unit: str
    needed: bool
    default: Any
    """None where leaving it out means that it is not known."""
    values: tuple[Any, ...]
    least: float | None
    most: float | None
    about: str
    """The docstring of the field."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """A record within the record; one that `may_miss` counts as given once something in it is typed."""

    field: str
    name: str
    may_miss: bool
    about: str
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Rows:
    """Any number of alike records, each a row."""

    field: str
    name: str
    needed: bool
    about: str
    items: tuple[Item, ...]


Item = Entry | Part | Rows


@cache
def tree(record: type) -> tuple[Item, ...]:
    """What can be typed for `record`, in its own order."""
    fields: dict[str, FieldInfo] = record.__pydantic_fields__  # type: ignore[attr-defined]
    typed = {field: info for field, info in fields.items() if field not in UNTYPED}
    stems = [_stem(field) for field in typed]
    said = docstrings(record)
    return tuple(
        _item(
            field, info, name=stem if stems.count(stem) == 1 and stem not in typed else field, about=said.get(field, "")
        )
        for (field, info), stem in zip(typed.items(), stems, strict=True)
    )


def _stem(field: str) -> str:
    """The name without the unit of a measure: `leaf` of `leaf_kg`."""
    stem, _, ending = field.rpartition("_")
    return stem if stem and ending in MEASURES and ending != "ph" and _measure(field) else field


def _measure(field: str) -> MeasureKind | None:
    if field in NUMBERS or any(field.endswith(unit) for unit in UNITS if "_" in unit):
        return None
    return MEASURES.get(field.rpartition("_")[2])


def _item(field: str, info: FieldInfo, *, name: str, about: str) -> Item:
    kind, limits, default = *_bare(info.annotation, info.metadata), _default(info)
    inner = get_args(kind)
    if get_origin(kind) is tuple and hasattr(inner[0], "__pydantic_fields__"):
        return Rows(field=field, name=field, needed=info.is_required(), about=about, items=tree(inner[0]))
    if hasattr(kind, "__pydantic_fields__"):
        return Part(field=field, name=field, may_miss=_may_be_none(info.annotation), about=about, items=tree(kind))
    sort = _sort(field, kind, limits, default)
    values = get_args(kind) if get_origin(kind) is Literal else tuple(range(4)) if sort == "level" else ()
    typed_with_unit = sort in MEASURES.values()
    return Entry(
        field=field, name=name if typed_with_unit else field, sort=sort, unit=_unit(field) if sort == "number" else "",
        needed=info.is_required(), default=default, values=values, least=limits.get("least"), most=limits.get("most"),
        about=about,
    )  # fmt: skip


def _default(info: FieldInfo) -> Any:
    return None if info.default in (PydanticUndefined, "", ()) else info.default


def _may_be_none(annotation: Any) -> bool:
    return type(None) in get_args(annotation)


def _bare(annotation: Any, metadata: list[Any]) -> tuple[Any, dict[str, float]]:
    """The type without `None`, and its limits, wherever they stand."""
    found = list(metadata)
    while True:
        if get_origin(annotation) in {Union, types.UnionType}:
            (annotation,) = (part for part in get_args(annotation) if part is not type(None))
        elif get_origin(annotation) is Annotated:
            annotation, *more = get_args(annotation)
            found += [limit for one in more for limit in (one.metadata if isinstance(one, FieldInfo) else [one])]
        else:
            return annotation, dict(_limits(found))


def _limits(metadata: list[Any]) -> Iterator[tuple[str, float]]:
    for limit in metadata:
        for name, side in (("ge", "least"), ("gt", "least"), ("le", "most"), ("lt", "most")):
            if hasattr(limit, name):
                yield side, getattr(limit, name)


def _sort(field: str, kind: Any, limits: dict[str, float], default: Any) -> Sort:
    if get_origin(kind) is Literal:
        return "choice"
    if get_origin(kind) is tuple:
        return "words" if str in get_args(kind) else "series" if Ellipsis in get_args(kind) else "numbers"
    plain: dict[Any, Sort] = {
        bool: "tick" if default is False else "yes_no",
        int: "level" if (limits.get("least"), limits.get("most")) == (0, 3) else "count",
        float: _measure(field) or "number",
        date: "day",
        AwareDatetime: "moment",
        str: "text",
    }
    return plain[kind]


def _unit(field: str) -> str:
    fits = [unit for unit in UNITS if field == unit or field.endswith(f"_{unit}")]
    return UNITS[max(fits, key=len)] if fits else ""
