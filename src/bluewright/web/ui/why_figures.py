"""The figures of an answer, each by its path: what it means, and its value in words."""

from __future__ import annotations

import dataclasses
import re
from dataclasses import dataclass
from typing import Any, Final

from bluewright.science.base.records import meanings
from bluewright.words.fields import is_band, name_said, parts_said, place_said, unit_said, value_said
from bluewright.words.numbers import sentence

NO_FIGURES: Final = frozenset({"version", "id", "inputs", "cautions", "limits", "sources", "basis"})
"""Fields of answers that are told by themselves."""
MOST_POINTS: Final = 13
"""Of a curve, told in a table."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One value of a figure that has several."""

    name: str
    said: str
    meaning: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """A figure of an answer."""

    path: str
    name: str
    meaning: str
    """What it is: the words that its field carries."""
    said: str
    """Value, unit and range; empty where the parts say it."""
    ranged: bool
    """Whether it has a range that holds the truth nine times in ten."""
    parts: tuple[Part, ...]


def figures(answer: Any) -> list[str]:
    """The paths of the figures of an answer, the first of each kind: those that it has."""
    return [
        one.name
        for one in dataclasses.fields(answer)
        if one.name not in NO_FIGURES and getattr(answer, one.name) not in (None, ())
    ]


def named(path: str) -> str:
    """A path as a name for people: `Pure blue: now`."""
    return titled(": ".join(name_said(step) for step in path.split(".") if not step.isdecimal()))


def figure_of(answer: Any, path: str) -> Figure:
    """A figure by its path: fields of an answer, and numbers of a list from 0 on; KeyError where there is none."""
    value, field = answer, ""
    names, told = list[str](), list[str]()
    for depth, step in enumerate(path.split(".")):
        value, meaning = _step(value, step, top=depth == 0)
        names.append(entry_said(value).name if step.isdecimal() and _names(value) else name_said(step))
        told.append(meaning)
        field = _with_unit(step, field)
    parts = _parts(value, field)
    return Figure(
        path=path,
        name=titled(": ".join(names)),
        meaning=plainly(" ".join(filter(None, told))),
        said="" if parts else value_said(value, field),
        ranged=_has_range(value),
        parts=parts,
    )


def plainly(meaning: str) -> str:
    """A docstring without the marks around names and words of records."""
    return re.sub(r"`([^`]*)`", lambda marked: marked[1].replace("_", " "), meaning)


def titled(name: str) -> str:
    """A name at the head of a line: with a capital, but for pH."""
    return name if name.startswith("pH") else sentence(name)


def _step(value: Any, step: str, *, top: bool) -> tuple[Any, str]:
    """One step down from a value, and what the field stepped to means."""
    if isinstance(value, tuple) and step.isdecimal() and int(step) < len(value):
        return value[int(step)], ""
    names = {one.name for one in dataclasses.fields(value)} if dataclasses.is_dataclass(value) else set()
    if step not in names - (NO_FIGURES if top else set()) or getattr(value, step) is None:
        raise KeyError(step)
    return getattr(value, step), meanings(type(value))[step]


def _with_unit(step: str, before: str) -> str:
    """The field that says the unit: this one, or the one that holds it (`recoverable_g.now` is in grams)."""
    return step if unit_said(step) or not unit_said(before) else before


def _has_range(value: Any) -> bool:
    held = value if isinstance(value, tuple) else (getattr(value, name) for name in _names(value))
    return is_band(value) or any(is_band(one) for one in held)


def _names(value: Any) -> list[str]:
    return [one.name for one in dataclasses.fields(value)] if dataclasses.is_dataclass(value) else []


def _parts(value: Any, field: str) -> tuple[Part, ...]:
    """The values that a figure has beside one number: a curve's points, a list's entries, an answer's own fields."""
    if is_band(value):
        return ()
    if isinstance(value, tuple):
        if value and is_band(value[0]):
            return tuple(_point(one, field) for one in _evenly(value))
        return tuple(entry_said(one) for one in value if dataclasses.is_dataclass(one))
    said = meanings(type(value)) if _names(value) else {}
    return tuple(
        Part(name=titled(name_said(name)), said=value_said(held, _with_unit(name, field)), meaning=plainly(said[name]))
        for name in _names(value)
        if (held := getattr(value, name)) is not None
    )


def _point(point: Any, field: str) -> Part:
    """A point of a curve: when, on which day or where, and its range."""
    own = next((value_said(getattr(point, name), name) for name in ("time", "day") if hasattr(point, name)), None)
    return Part(name=own or place_said(point.at, field), said=value_said(point, field), meaning="")


def entry_said(one: Any, *, exact: bool = False) -> Part:
    """An entry of a list: its first field names it, the others are its values; numbers as given if `exact`."""
    (_, name), *rest = parts_said(one, exact=exact)
    return Part(name=titled(name), said="; ".join(f"{key} {said}" for key, said in rest), meaning="")


def _evenly(points: tuple[Any, ...]) -> list[Any]:
    """As many of the points as a table holds, first and last among them."""
    last, steps = len(points) - 1, min(len(points), MOST_POINTS) - 1
    return [points[round(k * last / steps)] for k in range(steps + 1)] if steps else list(points)
