"""What a calculator of the bench is."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Any

from bluewright.web.pages.bench.labels import Words
from bluewright.words.said import Said


@dataclass(frozen=True, slots=True, kw_only=True)
class Calculator:
    """One calculator; `slug` is its place in the address and the name of its example."""

    slug: str
    title: Words
    question: Words
    record: type
    compute: Callable[..., Any]
    said: Callable[..., Said]
    chart: Callable[..., str] | None = None
    chart_on_paper: bool = True
    """Whether it is printed too; not where it would push what a table tells already onto a second sheet."""
    front: tuple[str, ...] = ()
    """What stands up front beside what must be given, by the path in the record, in this order."""
    one_of: tuple[str, ...] = ()
    """Parts of which exactly one is chosen, by name."""
    left_out: tuple[str, ...] = ()
    """What is not typed here but comes another way, by the path in the record."""
    labels: dict[str, Words] = field(default_factory=dict)
    """Labels that are other than usual, by path in the record."""
