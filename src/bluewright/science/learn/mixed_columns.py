"""Batches as columns: ways and kinds as noughts and ones, numbers in steps, groups that share luck."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.learn.mixed_record import BatchesRecord, Luck, NotedBatch


def _step(value: float, unit: str, low: float, high: float) -> Sourced:
    return Sourced(
        value=value, unit=unit, source="common-practice", low=low, high=high, grade="practice",
        note="a difference that people speak of",
    )  # fmt: skip


STEPS: Final = {
    "temp_c": _step(5.0, "C", 1.0, 10.0), "steep_h": _step(12.0, "h", 6.0, 24.0), "held_h": _step(2.0, "h", 1.0, 6.0),
    "damaged_frac": _step(0.1, "1", 0.05, 0.25),
}  # fmt: skip
"""Numbers, and for which difference of them an effect is told."""
KINDS: Final = ("plant", "leaf_age", "alkali", "water")
GROUPS: Final[tuple[Luck, ...]] = ("season", "bed", "day")
LEAST_NOTED_FRAC: Final = 0.5
"""What was noted of fewer batches is not used; of the others it is taken as usual."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One cause: its values (n,), and for how much of it the effect is told."""

    cause: str
    is_: str
    beside: str
    values: Floats
    step_factor: float
    batches: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """All that the fit needs of the batches."""

    y: Floats
    """Logarithms, (n,)."""
    causes: tuple[Column, ...]
    groups: tuple[tuple[Luck, Floats], ...]
    """Name and noughts and ones, (n, levels)."""
    assays_log: Floats
    """Errors of assays, (n, assays): a column times a standard normal."""
    not_used: tuple[str, ...]
    usual: str


def columns(record: BatchesRecord) -> Columns:
    """The columns of the batches that count."""
    batches = [batch for batch in record.batches if batch.value is not None and not batch.spoilt]
    counts = Counter(batch.way for batch in batches)
    usual = record.usual if record.usual in counts else counts.most_common(1)[0][0]
    causes = [*_kinds("way", [batch.way for batch in batches], usual)]
    not_used = []
    for field in STEPS:
        found = _number(field, batches)
        causes += found
        if not found and any(getattr(batch, field) is not None for batch in batches):
            not_used.append(field)
    for field in KINDS:
        values = [getattr(batch, field) or "" for batch in batches]
        noted = Counter(value for value in values if value)
        enough = sum(noted.values()) >= LEAST_NOTED_FRAC * len(batches) and len(noted) > 1
        if enough:
            causes += _kinds(field, values, noted.most_common(1)[0][0])
        elif noted:
            not_used.append(field)
    return Columns(
        y=np.array([math.log(batch.value or 1.0) for batch in batches]), causes=tuple(causes),
        groups=tuple(_groups(batches)), assays_log=_assays(batches), not_used=tuple(not_used), usual=usual,
    )  # fmt: skip


def _kinds(cause: str, values: Sequence[str], usual: str) -> Iterator[Column]:
    for kind in sorted(set(values) - {usual, ""}):
        ones = np.array([float(value == kind) for value in values])
        yield Column(cause=cause, is_=kind, beside=usual, values=ones, step_factor=1.0, batches=int(ones.sum()))


def _number(field: str, batches: Sequence[NotedBatch]) -> list[Column]:
    """The number in units of its spread over the batches, unknown ones at the mean; none if rare or all the same."""
    known = np.array([value for batch in batches if (value := getattr(batch, field)) is not None], dtype=float)
    if len(known) < LEAST_NOTED_FRAC * len(batches) or float(np.ptp(known)) <= 1e-9:
        return []
    mean, sd = float(known.mean()), float(known.std())
    values = np.array(
        [0.0 if (value := getattr(batch, field)) is None else (value - mean) / sd for batch in batches]
    )  # fmt: skip
    step = STEPS[field].value
    return [Column(cause=field, is_=f"{step:g}", beside="", values=values, step_factor=step / sd, batches=len(known))]


def _groups(batches: Sequence[NotedBatch]) -> Iterator[tuple[Luck, Floats]]:
    for field in GROUPS:
        values = [_group_of(batch, field) for batch in batches]
        levels = sorted({value for value in values if value})
        if len(levels) > 1 and any(count > 1 for value, count in Counter(values).items() if value):
            yield field, np.array([[float(value == level) for level in levels] for value in values])


def _group_of(batch: NotedBatch, field: str) -> str:
    if field == "season" and not batch.season:
        return str(batch.day.year) if batch.day else ""
    return str(getattr(batch, field) or "")


def _assays(batches: Sequence[NotedBatch]) -> Floats:
    errors = {batch.assay: batch.assay_sd_frac for batch in batches if batch.assay and batch.assay_sd_frac}
    return np.array([[errors[name] * (batch.assay == name) for name in errors] for batch in batches], dtype=float)


TOGETHER: Final = 0.95
"""From such a correlation on two causes went together."""
_NAMES: Final = {
    "temp_c": "warmth", "steep_h": "hours in the water", "held_h": "hours held", "damaged_frac": "damage", "plant": "",
    "leaf_age": "leaf that is", "alkali": "", "water": "", "way": "",
}  # fmt: skip


def always_together(causes: Sequence[Column]) -> list[tuple[str, str]]:
    """Causes that went together in nearly all batches: what one does cannot be told from what the other does."""
    varying = [one for one in causes if float(np.std(one.values)) > 0]
    return [
        (_called(one), _called(other))
        for place, one in enumerate(varying)
        for other in varying[place + 1 :]
        if one.cause != other.cause and abs(float(np.corrcoef(one.values, other.values)[0, 1])) >= TOGETHER
    ]


def _called(one: Column) -> str:
    return f"{_NAMES[one.cause]} {one.is_ if one.beside else ''}".strip().replace("_", " ")


def ways_apart(record: BatchesRecord, usual: str) -> list[tuple[str, str]]:
    """Ways that were never made where the usual one was, each with the field in which they are apart."""
    found = []
    for way in sorted({batch.way for batch in record.batches} - {usual}):
        for field in (*GROUPS[:2], *KINDS):
            seen = [
                {_group_of(batch, field) for batch in record.batches if batch.way == one and not batch.spoilt} - {""}
                for one in (way, usual)
            ]
            if seen[0] and seen[1] and not seen[0] & seen[1]:
                found.append((way, field))
    return found
