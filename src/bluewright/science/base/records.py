"""Records in, answers out: how plain JSON becomes a checked record, and an answer becomes plain JSON.

A *record* is what a person typed or an instrument logged; it is checked field by field when it is built and
refuses what it does not know. An *answer* is what a computation found. Both are frozen, slotted, keyword-only
dataclasses whose attribute docstrings become the descriptions of the published JSON Schemas.
"""

from __future__ import annotations

import dataclasses
import json
from collections.abc import Callable, Hashable, Mapping
from functools import cache, wraps
from typing import Any, TypeVar, cast, dataclass_transform

from pydantic import ConfigDict, TypeAdapter, ValidationError
from pydantic.dataclasses import dataclass as checked_dataclass
from pydantic_core import ErrorDetails

from bluewright.science.base.errors import InputError
from bluewright.science.base.meanings import WithMeanings, docstrings

T = TypeVar("T")

MAX_RECORD_BYTES = 1_000_000
"""A record longer than this is refused unread: the largest real ones (a season of logger rows) stay below."""
LEAST = 1e-9
"""What must be more than 0 is at least this, in whichever unit: nobody reads less, and 1e-300 is a slip."""

_CONFIG = ConfigDict(extra="forbid", allow_inf_nan=False, strict=True)


@dataclass_transform(frozen_default=True, kw_only_default=True)
def record(cls: type[T]) -> type[T]:
    """Class decorator: a frozen record whose values are checked whenever one is built."""
    made: Any = checked_dataclass(frozen=True, slots=True, kw_only=True, config=_CONFIG)(cls)
    built_by_pydantic = made.__init__

    @wraps(built_by_pydantic)
    def build(self: object, *args: Any, **values: Any) -> None:
        try:
            built_by_pydantic(self, *args, **values)
        except ValidationError as error:
            raise _input_error(error.errors(include_url=False)[0]) from None

    made.__init__ = build
    return cast("type[T]", made)


@dataclass_transform(frozen_default=True, kw_only_default=True)
def answer(cls: type[T]) -> type[T]:
    """Class decorator: a frozen answer, built by our own code and therefore not checked again."""
    made = dataclasses.dataclass(frozen=True, slots=True, kw_only=True)(cls)
    made.__pydantic_config__ = _CONFIG  # type: ignore[attr-defined]
    return made


def read(kind: type[T], data: str | bytes | Mapping[str, Any]) -> T:
    """The record of class `kind` in `data`: JSON text, or a mapping of plain JSON values.

    Raises InputError naming the first field that is wrong, what it is and what would be right; a field that stands
    twice in one object is refused, since only one of the two could be meant.
    """
    text = _as_text(data)
    try:
        made: T = _adapter(cast(Hashable, kind)).validate_json(text)
    except ValidationError as error:
        raise _input_error(error.errors(include_url=False)[0]) from None
    json.loads(text, object_pairs_hook=_refuse_doubled)
    return made


def dump(thing: object) -> dict[str, Any]:
    """A record or answer as a dict of plain JSON values; times as ISO 8601 with offset, absent values left out."""
    plain: dict[str, Any] = _adapter(cast(Hashable, type(thing))).dump_python(
        thing, mode="json", exclude_none=True, by_alias=True
    )
    return plain


def schema(kind: type) -> dict[str, Any]:
    """The JSON Schema (2020-12) of a record or answer class."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **_adapter(kind).json_schema(schema_generator=WithMeanings),
    }


def meanings(kind: type) -> Mapping[str, str]:
    """What each field of a record or answer class means: its docstring, by its name in Python; empty if it has none."""
    return _meanings(cast(Hashable, kind))


@cache
def _meanings(kind: Hashable) -> Mapping[str, str]:
    said = docstrings(cast(type, kind))
    return {field.name: " ".join(said.get(field.name, "").split()) for field in dataclasses.fields(cast(Any, kind))}


@cache
def _adapter(kind: Hashable) -> TypeAdapter[Any]:
    return TypeAdapter(cast(Any, kind))


def _as_text(data: str | bytes | Mapping[str, Any]) -> str | bytes:
    if not isinstance(data, str | bytes):
        try:
            data = json.dumps(data)
        except TypeError as error:
            raise InputError(
                where="record",
                what=f"it holds something that is not JSON ({error})",
                right="use plain values",
            ) from None
    if len(data) > MAX_RECORD_BYTES:
        raise InputError(
            where="record",
            what=f"it is {len(data):,} bytes long",
            right=f"a record has at most {MAX_RECORD_BYTES:,} bytes; check that this is one record",
        )
    return data


def _refuse_doubled(pairs: list[tuple[str, Any]]) -> None:
    seen: set[str] = set()
    for name, _ in pairs:
        if name in seen:
            raise InputError(where=name, what="this field stands twice in one object", right="keep one of them")
        seen.add(name)


# --- pydantic's findings, said for a grower: message templates by kind of finding -------------------------------

_RIGHT: dict[str, Callable[[dict[str, Any]], str]] = {
    "greater_than": lambda c: f"it must be more than {_number(c['gt'])}",
    "greater_than_equal": lambda c: f"it must be {_floor(c['ge'])}",
    "less_than": lambda c: f"it must be less than {_number(c['lt'])}",
    "less_than_equal": lambda c: f"it must be at most {_number(c['le'])}",
    "literal_error": lambda c: f"use {'one of ' if ' or ' in c['expected'] else ''}{c['expected']}",
    "finite_number": lambda _: "give a finite number, or leave the field out",
    "float_type": lambda _: "give a bare number (the unit stands in the field's name), not text",
    "int_type": lambda _: "give a whole number",
    "int_from_float": lambda _: "give a whole number",
    "string_type": lambda _: "give text in quotes",
    "string_too_long": lambda c: f"use at most {c['max_length']} characters",
    "bool_type": lambda _: "give true or false",
    "too_long": lambda c: f"give at most {c['max_length']} entries",
    "too_short": lambda c: f"give at least {c['min_length']} entries",
    "tuple_type": lambda _: "give a list in square brackets",
    "dataclass_type": lambda _: "give an object in curly brackets",
    "timezone_aware": lambda _: "add the offset from UTC, like 2026-07-03T11:00+01:00",
}


def _number(value: float) -> str:
    return f"{value:g}"


def _floor(least: float) -> str:
    return "more than 0" if least == LEAST else f"at least {_number(least)}"


def _input_error(found: ErrorDetails) -> InputError:
    where = _path(found["loc"])
    kind, context = found["type"], found.get("ctx", {})
    given = _shown(found["input"])
    own = context.get("error")
    if isinstance(own, InputError):
        return own.inside(where)
    if kind == "json_invalid":
        return InputError(where=where or "record", what=f"not JSON ({context['error']})", right="check the file")
    if kind in {"missing", "missing_keyword_only_argument"}:
        return InputError(where=where, what="this field is missing", right="it is required")
    if kind in {"unexpected_keyword_argument", "extra_forbidden"}:
        return InputError(where=where, what="there is no such field", right="check its spelling, or leave it out")
    if kind.startswith(("datetime", "time_")):
        return InputError(
            where=where,
            what=f"{given} is not a time",
            right="write it like 2026-07-03T11:00+01:00 (ISO 8601)",
        )
    right = _RIGHT[kind](context) if kind in _RIGHT else f"{found['msg'][:1].lower()}{found['msg'][1:]}"
    return InputError(where=where or "record", what=f"{given} is not possible here", right=right)


def _path(steps: tuple[int | str, ...]) -> str:
    path = ""
    for step in steps:
        path += f"[{step}]" if isinstance(step, int) else f".{step}" if path else step
    return path


def _shown(value: object) -> str:
    text = value if isinstance(value, str) else json.dumps(value, default=str)
    text = text if len(text) <= 60 else text[:57] + "..."
    return f"'{text}'" if isinstance(value, str) else text
