"""What a record holds, field by field, for `--help`: read from the schema, so that it cannot fall behind."""

from __future__ import annotations

import json
import re
import textwrap
from collections.abc import Iterator
from typing import Any, Final

from bluewright.science.base.records import schema

WIDTH: Final = 100
NAME_WIDTH: Final = 28
UNTOLD: Final = frozenset({"version", "garden", "learned"})
"""Fields that no one types by hand."""


def fields_text(record: type) -> str:
    """One line or more a field: its name, `*` if it must be given, and what it means; parts of a field indented."""
    whole = schema(record)
    return "\n".join(_lines(whole, whole.get("$defs", {}), depth=1))


def _lines(part: dict[str, Any], parts: dict[str, Any], *, depth: int) -> Iterator[str]:
    wanted = part.get("required", [])
    for name, field in part.get("properties", {}).items():
        if name in UNTOLD:
            continue
        inner, many = _inner(field, parts)
        head = f"{'  ' * depth}{name}{'[]' if many else ''}{' *' if name in wanted else ''}"
        yield _line(head, " ".join([field.get("description", ""), *_limits(field)]))
        if inner is not None:
            yield from _lines(inner, parts, depth=depth + 1)


def _limits(field: dict[str, Any]) -> list[str]:
    """The words that the field takes and what it is if left out, unless its description says them."""
    meaning = field.get("description", "")
    words = [word for part in (field, *field.get("anyOf", ())) for word in part.get("enum", ()) if word is not None]
    unsaid = any(f"`{word}`" not in meaning for word in words)
    said = [", ".join(f"`{word}`" for word in words)] if unsaid else []
    default = field.get("default")
    if isinstance(default, str | int | float) and default != "" and not re.search("left out|default", meaning):
        said.append(f"default {json.dumps(default) if not words else f'`{default}`'}")
    return [f"({'; '.join(said)})"] if said else []


def _line(head: str, meaning: str) -> str:
    said = " ".join(meaning.split())
    if not said:
        return head
    indent = " " * NAME_WIDTH
    return textwrap.fill(f"{head:<{NAME_WIDTH - 1}} {said}", WIDTH, subsequent_indent=indent, break_long_words=False)


def _inner(field: dict[str, Any], parts: dict[str, Any]) -> tuple[dict[str, Any] | None, bool]:
    """The object that a field holds, or that each entry of its list holds; and whether it is such a list."""
    for found in (field, *field.get("anyOf", ())):
        if "$ref" in found:
            held = parts[found["$ref"].rsplit("/", 1)[1]]
            return (held if held.get("properties") else None), False
        items = found.get("items", {})
        if found.get("type") == "array" and "$ref" in items:
            return parts[items["$ref"].rsplit("/", 1)[1]], True
    return None, False
