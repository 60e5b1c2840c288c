"""What a computation can reach: its functions followed from name to name through the sources of the science.

So no list of them can fall behind, and what a module holds for another computation does not count.
"""

from __future__ import annotations

import ast
import inspect
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib import import_module
from types import ModuleType
from typing import Any, Final, NamedTuple

SCIENCE: Final = "bluewright.science."
BASE: Final = f"{SCIENCE}base."


class Named(NamedTuple):
    """Something that a module defines: a function, a class, a constant, a table."""

    module: str
    name: str

    @property
    def value(self) -> Any:
        """What the name stands for."""
        return getattr(import_module(self.module), self.name)


@dataclass(frozen=True, slots=True)
class Source:
    """What a module defines and what it brings in."""

    mentions: dict[str, tuple[str, ...]]
    """Of each name that it defines, the names in its definition; one that is taken from another as `media.water`."""
    brought: dict[str, Named]
    """Of each name that it imports, where from."""


@cache
def reached(entry: str) -> tuple[Named, ...]:
    """All that a module below `science` (`bed.growth`), or one function of it (`thread:strain_call`), can come to."""
    module, _, function = f"{SCIENCE}{entry}".partition(":")
    found = dict.fromkeys(Named(module, name) for name in ([function] if function else _source(module).mentions))
    waiting = list(found)
    for one in waiting:
        for other in _leads_to(one):
            if other not in found:
                found[other] = None
                waiting.append(other)
    return tuple(found)


def _leads_to(one: Named) -> Iterator[Named]:
    """What a definition of the science names; records and answers compute nothing, and `base` holds no fact."""
    if hasattr(one.value, "__pydantic_config__"):
        return
    for mention in _source(one.module).mentions[one.name]:
        found = _resolved(one.module, mention)
        if found is not None and found.module.startswith(SCIENCE) and not found.module.startswith(BASE):
            yield found


def _resolved(module: str, mention: str) -> Named | None:
    """Where a name, as a module says it, is defined; None where it is no definition of the science."""
    name, _, attribute = mention.partition(".")
    source = _source(module)
    if name in source.mentions:
        return None if attribute else Named(module, name)
    if name not in source.brought:
        return None
    way = source.brought[name]
    if not way.module.startswith(SCIENCE.removesuffix(".")):
        return None
    brought = getattr(import_module(way.module), way.name, None)
    if brought is None:  # the sources are newer than what runs
        return None
    if isinstance(brought, ModuleType):
        return _resolved(brought.__name__, attribute) if attribute else None
    return None if attribute else _resolved(way.module, way.name)


@cache
def _source(module: str) -> Source:
    """Read once from the text of the module."""
    found, there = Source({}, {}), vars(import_module(module))
    for statement in ast.parse(inspect.getsource(import_module(module))).body:
        if isinstance(statement, ast.ImportFrom):
            for alias in statement.names:
                found.brought[alias.asname or alias.name] = Named(statement.module or "", alias.name)
        else:
            for name in filter(there.__contains__, _defined(statement)):
                found.mentions[name] = (*found.mentions.get(name, ()), *_mentions(statement))
    return found


def _defined(statement: ast.stmt) -> list[str]:
    """The names that a statement gives to a module: its own, or those that it stores."""
    if isinstance(statement, ast.FunctionDef | ast.ClassDef):
        return [statement.name]
    return [one.id for one in ast.walk(statement) if isinstance(one, ast.Name) and isinstance(one.ctx, ast.Store)]


def _mentions(statement: ast.stmt) -> tuple[str, ...]:
    """The names that a definition reads, and those that it takes from a name; in their order, each once."""
    found: dict[str, None] = {}
    for one in ast.walk(statement):
        if isinstance(one, ast.Name) and isinstance(one.ctx, ast.Load):
            found[one.id] = None
        elif isinstance(one, ast.Attribute) and isinstance(one.value, ast.Name):
            found[f"{one.value.id}.{one.attr}"] = None
    return tuple(found)
