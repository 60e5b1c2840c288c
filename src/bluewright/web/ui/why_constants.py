"""What a computation takes as known: every constant and prior that it can reach, with source and grade.

Found by following the functions that a stage imports, so that no list of them can fall behind.
"""

from __future__ import annotations

import dataclasses
import inspect
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from types import ModuleType
from typing import Any, Final, Literal, get_args, get_origin, get_type_hints

from bluewright.science.base.bands import Band
from bluewright.science.base.sourced import Prior, Sourced
from bluewright.words.fields import exactly, name_said, with_unit
from bluewright.words.numbers import ranged, sentence

SCIENCE: Final = "bluewright.science."
NINETY_Z: Final = 1.6449
"""Scores between which nine tenths of a normal lie."""
GRADES: Final = ("exact", "measured", "fitted", "practice", "guess", "memory")
Choices = list[tuple[frozenset[str], str]]
"""Of each field with a fixed set of words: the set, and the word chosen."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Constant:
    """A constant or prior."""

    what: str
    """What it is, in words."""
    code: str
    """Its name in the program."""
    said: str
    """Value, unit and range; of a prior the middle and what holds the truth nine times in ten."""
    grade: str
    source: str
    """A key of the bibliography, or `common-practice`."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """The constants of one part of the computation."""

    about: str
    """What that part does, in a sentence."""
    rows: tuple[Constant, ...]


def groups(entry: str, record: Any) -> tuple[Group, ...]:
    """The constants that the module `entry` reaches, part by part; of a table by a choice of the record, the chosen."""
    chosen, seen, found = choices(record), set[int](), []
    for module in _reached(import_module(SCIENCE + entry)):
        rows = tuple(_rows(module, chosen, seen))
        if rows:
            found.append(Group(about=_about(module), rows=rows))
    return tuple(found)


def grades(found: tuple[Group, ...]) -> tuple[tuple[str, int], ...]:
    """How many of each grade, from the surest on."""
    many = Counter(row.grade for group in found for row in group.rows)
    return tuple((grade, many[grade]) for grade in GRADES if many[grade])


def choices(record: Any) -> Choices:
    """The words chosen in a record and in the records it holds."""
    found: Choices = []
    hints = get_type_hints(type(record))
    for one in dataclasses.fields(record):
        value = getattr(record, one.name)
        if isinstance(value, str) and (words := _literals(hints[one.name])):
            found.append((words, value))
        for held in value if isinstance(value, tuple) else (value,):
            if dataclasses.is_dataclass(held):
                found += choices(held)
    return found


def _literals(hint: Any) -> frozenset[str]:
    if get_origin(hint) is Literal:
        return frozenset(get_args(hint))
    return frozenset().union(*(_literals(part) for part in get_args(hint)))


@cache
def _reached(entry: ModuleType) -> tuple[ModuleType, ...]:
    """The modules of the science whose functions the entry uses; what stages share comes last."""
    found: list[ModuleType] = [entry]
    for module in found:
        for thing in vars(module).values():
            other = _home(thing)
            if other is not None and other not in found:
                found.append(other)
    return tuple(sorted(found, key=_rank))


def _rank(module: ModuleType) -> int:
    """A stage before what composes the stages, that before what they share."""
    name = module.__name__.removeprefix(SCIENCE)
    return 2 if name.startswith("media.") else 1 if name == "thread" else 0


def _home(thing: Any) -> ModuleType | None:
    """The module that a function or a class of the science comes from; records and answers compute nothing."""
    name = thing.__name__ if isinstance(thing, ModuleType) else thing.__module__ if _computes(thing) else ""
    return import_module(name) if name.startswith(SCIENCE) and not name.startswith(f"{SCIENCE}base.") else None


def _computes(thing: Any) -> bool:
    if isinstance(thing, type):
        return not hasattr(thing, "__pydantic_config__")
    return callable(thing) and inspect.isfunction(inspect.unwrap(thing))


def _rows(module: ModuleType, chosen: Choices, seen: set[int]) -> Iterator[Constant]:
    """The constants of a module that were not met before; those with a name of their own before those in tables."""
    for name, value in sorted(vars(module).items(), key=lambda item: not isinstance(item[1], Sourced | Prior)):
        for code, found in _within(name.strip("_"), value, chosen):
            if id(found) not in seen:
                seen.add(id(found))
                yield _constant(code, found)


def _within(code: str, value: Any, chosen: Choices) -> Iterator[tuple[str, Sourced | Prior]]:
    if isinstance(value, Sourced | Prior):
        yield code, value
    elif isinstance(value, Mapping):
        for key in _kept(value, chosen):
            yield from _within(f"{code}[{key}]", value[key], chosen)
    elif isinstance(value, tuple | list):
        for number, one in enumerate(value, start=1):
            yield from _within(f"{code} {number}", one, chosen)
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        for field in dataclasses.fields(value):
            yield from _within(f"{code}.{field.name}", getattr(value, field.name), chosen)


def _kept(table: Mapping[Any, Any], chosen: Choices) -> list[Any]:
    """The keys of a table; where the record chooses among them, those that it chose."""
    keys = list(table)
    if not keys or not all(isinstance(key, str) for key in keys):
        return keys
    picked = {word for words, word in chosen if set(keys) <= words}
    decided = any(set(keys) <= words for words, _ in chosen)
    return [key for key in keys if key in picked] if decided else keys


def _constant(code: str, found: Sourced | Prior) -> Constant:
    return Constant(
        what=sentence(found.note or _code_said(code)),
        code=code,
        said=_sourced_said(found) if isinstance(found, Sourced) else _prior_said(found),
        grade=found.grade,
        source=found.source,
    )


def _code_said(code: str) -> str:
    """`FRESH 2` is `fresh 2`, `LOG_TAU_SD[False]` is `log tau spread: no`."""
    name, _, key = code.replace("]", "").partition("[")
    said = name_said(name.lower())
    return f"{said}: { {'True': 'yes', 'False': 'no'}.get(key, name_said(key)) }" if key else said


def _sourced_said(found: Sourced) -> str:
    said = with_unit(exactly(found.value), _unit(found.unit))
    return said if found.low == found.high else f"{said} ({exactly(found.low)} to {exactly(found.high)})"


def _prior_said(found: Prior) -> str:
    low, mid, high = (float(found.from_z(z)) for z in (-NINETY_Z, 0.0, NINETY_Z))  # type: ignore[arg-type]
    return ranged(Band(p5=low, p50=mid, p95=high), _unit(found.unit))


def _unit(unit: str) -> str:
    return {"1": "", "C": "°C", "pH": ""}.get(unit, unit)


def _about(module: ModuleType) -> str:
    """The first sentence of what a module says of itself."""
    return (module.__doc__ or module.__name__).strip().split("\n")[0].split(". ")[0].rstrip(".").replace("`", "")
