"""Within what a formula was studied, as data: so that a caller can say when an answer is an extrapolation."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from bluewright.science.base.sourced import Floats, Grade


@dataclass(frozen=True, slots=True, kw_only=True)
class Studied:
    """The range of one input over which a formula was fitted or measured; `source` is a key of `sources.bib`.

    `grade` says how the range is known: most are recalled, not re-read.
    """

    low: float
    high: float
    unit: str
    source: str
    grade: Grade = "memory"

    def __post_init__(self) -> None:
        if not self.source or not self.unit:
            raise ValueError("a range needs a unit and a source")
        if not self.low < self.high:
            raise ValueError(f"a range from {self.low} to {self.high} {self.unit} holds nothing")

    def holds(self, value: float | Floats) -> bool:
        """Whether every `value` lies inside, ends included."""
        return bool(np.all((np.asarray(value) >= self.low) & (np.asarray(value) <= self.high)))
