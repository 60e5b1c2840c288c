"""What a computation takes as known: every constant and prior that it can reach, with source and grade."""

from __future__ import annotations

import dataclasses
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from importlib import import_module
from types import ModuleType
from typing import Any, Final, Literal, get_args, get_origin, get_type_hints

from bluewright.science.base.bands import NINETY_Z, Band
from bluewright.science.base.sourced import Prior, Sourced
from bluewright.web.ui.why_reach import SCIENCE, reached
from bluewright.words.fields import exactly, name_said, with_unit
from bluewright.words.numbers import ranged, sentence

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
    chosen, seen = choices(record), set[int]()
    by_module: dict[str, list[Constant]] = {}
    for one in sorted(reached(entry), key=lambda one: (_rank(one.module), not isinstance(one.value, Sourced | Prior))):
        for code, found in _within(one.name.strip("_"), one.value, chosen):
            if id(found) not in seen:
                seen.add(id(found))
                by_module.setdefault(one.module, []).append(_constant(code, found))
    return tuple(Group(about=_about(import_module(name)), rows=tuple(rows)) for name, rows in by_module.items())


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


def _rank(module: str) -> int:
    """A stage before what composes the stages, that before what they share."""
    name = module.removeprefix(SCIENCE)
    return 2 if name.startswith("media.") else 1 if name == "thread" else 0


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
