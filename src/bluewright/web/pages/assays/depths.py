"""The depths of swatches that are kept already, to be chosen where a test dyeing asks for K/S."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bluewright.journal.bridge.swatches import told
from bluewright.journal.models import Swatch
from bluewright.web.pages.bench.form import BenchForm
from bluewright.words.numbers import figure

LIST: Final = "swatch-depths"
"""The id of the list that the fields offer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Depth:
    """A swatch and its K/S in red light, as a field takes it."""

    name: str
    k_over_s: str


def depths(rows: Sequence[Swatch], form: BenchForm) -> tuple[Depth, ...]:
    """The depth of each swatch, as its own page tells it; the fields of the form that ask for one offer them."""
    if rows:
        for name, field in form.fields.items():
            if name.endswith(".k_over_s"):
                field.widget.attrs["list"] = LIST
    return tuple(Depth(name=row.name, k_over_s=figure(told(row).k_over_s.p50)) for row in rows)
