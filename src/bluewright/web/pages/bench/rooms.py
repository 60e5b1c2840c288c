"""The calculators under headings, so that one is found in a list of many."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from bluewright.web.pages.bench.calculator import Calculator

_HEADINGS: Final = (
    (_("Beds, season and weather"), ("bed", "plan", "weather")),
    (_("Leaf and tub"), ("leaf", "tub", "steep", "strain")),
    (_("From liquor to dry pigment"), ("alkali", "air", "settle", "wash", "filter", "dry")),
    (_("Jars, cost and stock"), ("jar", "cost", "stock")),
    (_("Vat, cloth and colour"), ("vat", "dye", "colour")),
    (_("How pure the pigment is"), ("assay",)),
    (_("Was it worth it"), ("compare",)),
)
"""Each heading, and the first words of the addresses that stand under it."""


@dataclass(frozen=True, slots=True)
class Room:
    """A heading and its calculators, in the order of the table."""

    heading: str | Promise
    calculators: tuple[Calculator, ...]


def rooms(table: Sequence[Calculator]) -> tuple[Room, ...]:
    """All calculators, each under its heading; raises KeyError for one that has none."""
    heading_of = {word: place for place, (_heading, words) in enumerate(_HEADINGS) for word in words}
    under: list[list[Calculator]] = [[] for _heading in _HEADINGS]
    for calculator in table:
        under[heading_of[calculator.slug.partition("-")[0]]].append(calculator)
    return tuple(Room(heading, tuple(found)) for (heading, _words), found in zip(_HEADINGS, under, strict=True))
