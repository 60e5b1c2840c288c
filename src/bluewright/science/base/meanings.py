"""What the fields of a record or answer mean: the docstrings below them, read from the source when first asked for.

Python forgets them, and whoever asks pydantic to find them waits for it at each start, a second for all classes.
"""

from __future__ import annotations

import ast
import inspect
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module
from itertools import pairwise
from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue


@cache
def docstrings(kind: type) -> Mapping[str, str]:
    """By its name the docstring of each field of a class that has one."""
    found: dict[str, str] = {}
    body = _classes(kind.__module__).get(kind.__qualname__, [])
    for field, below in pairwise(body):
        match field, below:
            case ast.AnnAssign(target=ast.Name(id=name)), ast.Expr(value=ast.Constant(value=str(text))):
                found[name] = inspect.cleandoc(text)
    return found


@cache
def _classes(module: str) -> Mapping[str, list[ast.stmt]]:
    """What stands in each class of a module, by the class's name."""
    return dict(_found(ast.parse(inspect.getsource(import_module(module))).body, within=""))


def _found(body: list[ast.stmt], *, within: str) -> Iterator[tuple[str, list[ast.stmt]]]:
    for one in body:
        if isinstance(one, ast.ClassDef):
            yield f"{within}{one.name}", one.body
            yield from _found(one.body, within=f"{within}{one.name}.")
        elif isinstance(one, ast.FunctionDef):
            yield from _found(one.body, within=f"{within}{one.name}.<locals>.")


class WithMeanings(GenerateJsonSchema):
    """Writes JSON Schemas in which each field is described by its docstring."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self._within: list[type] = []

    def dataclass_schema(self, schema: Any) -> JsonSchemaValue:
        """The schema of a class, its fields described."""
        self._within.append(schema["cls"])
        try:
            return super().dataclass_schema(schema)
        finally:
            self._within.pop()

    def dataclass_field_schema(self, schema: Any) -> JsonSchemaValue:
        """The schema of a field, described."""
        made, meaning = super().dataclass_field_schema(schema), docstrings(self._within[-1]).get(schema["name"])
        return made if meaning is None else {**made, "description": meaning}
