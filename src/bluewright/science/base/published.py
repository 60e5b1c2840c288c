"""A published figure as an answer shows it, to hold one's own against."""

from __future__ import annotations

from bluewright.science.base.records import answer
from bluewright.science.base.sourced import Sourced


@answer
class Figure:
    """A published figure, with its range, source and grade."""

    value: float
    low: float
    high: float
    grade: str
    source: str
    note: str


def figure_of(found: Sourced) -> Figure:
    """The constant as an answer shows it."""
    return Figure(
        value=found.value, low=found.low, high=found.high, grade=found.grade, source=found.source, note=found.note
    )
