"""From a valid form to the record, from a record to what a person would have typed, and from an error to its field."""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import cache
from importlib import resources
from typing import Any

from bluewright.science.base.measures import System
from bluewright.web.pages.bench.calculator import Calculator
from bluewright.web.pages.bench.form import WAY, BenchForm
from bluewright.web.pages.bench.inputs import as_typed, plain_value
from bluewright.web.pages.bench.tree import Entry, Item, Part, tree


class Typed:
    """The record in plain JSON values, and where in the form each path of it was typed."""

    def __init__(self, form: BenchForm) -> None:
        self.form = form
        self.names: dict[str, str] = {}
        self.record = self._plain(tree(form.calculator.record), name="", path="")

    def _plain(self, items: Sequence[Item], *, name: str, path: str) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for item in items:
            at, stands = f"{name}{item.name}", f"{path}{item.field}"
            if isinstance(item, Entry):
                self.names[stands] = at
                value = plain_value(item, self.form.cleaned_data.get(at))
                if value is not None:
                    found[item.field] = value
            elif isinstance(item, Part):
                inner = self._plain(item.items, name=f"{at}.", path=f"{stands}.")
                if inner or self.form.cleaned_data.get(WAY) == stands:
                    found[item.field] = inner
            elif rows := self._rows(item.items, at, stands):
                found[item.field] = rows
        return found

    def _rows(self, items: Sequence[Item], name: str, path: str) -> list[dict[str, Any]]:
        """The rows that hold something; a blank one between them is passed over."""
        found: list[dict[str, Any]] = []
        for number in range(self.form.count(name)):
            row = self._plain(items, name=f"{name}.{number}.", path=f"{path}[{len(found)}].")
            found += [row] if row else []
        return found

    def field_of(self, where: str) -> str | None:
        """The name of the field that an error at `where` belongs to, or the nearest; None if it belongs to all."""
        if where in self.form.calculator.one_of:
            return WAY
        while where:
            near = [n for path, n in self.names.items() if path == where or path.startswith((f"{where}.", f"{where}["))]
            if near:
                return near[0]
            where = where[: max(where.rfind("."), where.rfind("["), 0)]
        return None


@cache
def example(slug: str) -> dict[str, Any]:
    """The packaged example record of a calculator: invented."""
    text = resources.files("bluewright").joinpath("examples", f"{slug}.json").read_text(encoding="utf-8")
    found: dict[str, Any] = json.loads(text)
    return found


def typed_as(calculator: Calculator, record: dict[str, Any], *, system: System) -> dict[str, str]:
    """A record as a person would have typed it into the form."""
    found = _typed(tree(calculator.record), record, name="", system=system)
    chosen = [way for way in calculator.one_of if way in record]
    return {**found, WAY: chosen[0]} if chosen else found


def _typed(items: Sequence[Item], record: dict[str, Any], *, name: str, system: System) -> dict[str, str]:
    found: dict[str, str] = {}
    for item in items:
        value, at = record.get(item.field), f"{name}{item.name}"
        if value is None:
            continue
        if isinstance(item, Entry):
            found[at] = as_typed(item, value, system)
        elif isinstance(item, Part):
            found |= _typed(item.items, value, name=f"{at}.", system=system)
        else:
            for number, row in enumerate(value):
                found |= _typed(item.items, row, name=f"{at}.{number}.", system=system)
    return found
