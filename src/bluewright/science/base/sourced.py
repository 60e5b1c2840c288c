"""Constants and priors that cannot be built without saying where they come from and how far to trust them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Grade = Literal["exact", "measured", "fitted", "practice", "guess", "memory"]
"""How far to trust a value.

exact: arithmetic or definition. measured: read in the named source. fitted: adjusted so that a model reproduces
the named source. practice: common practice, no source. guess: a judgement, to be replaced by the grower's own
records. memory: recalled from a source that was not re-read.
"""

Floats = NDArray[np.float64]
"""An array of double precision numbers; shapes are said where it is used."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sourced:
    """A constant with its unit, source, range and grade.

    `low` and `high` bound what the source (or the disagreement between sources) allows; `source` is a key of
    `sources.bib`, or `common-practice`.
    """

    value: float
    unit: str
    source: str
    low: float
    high: float
    grade: Grade
    note: str = ""

    def __post_init__(self) -> None:
        if not self.source or not self.unit:
            raise ValueError("a constant needs a unit and a source")
        if not self.low <= self.value <= self.high:
            raise ValueError(f"{self.value} {self.unit} is outside its own range {self.low} to {self.high}")


@dataclass(frozen=True, slots=True, kw_only=True)
class Prior:
    """What is believed of a quantity before anything is read: a distribution with its source and grade.

    `lognormal`: `centre` is the median, `spread` the standard deviation of the natural logarithm.
    `normal`: mean and standard deviation. `logitnormal` (fractions): median, and standard deviation of the logit.
    """

    kind: Literal["lognormal", "normal", "logitnormal"]
    centre: float
    spread: float
    unit: str
    source: str
    grade: Grade
    note: str = ""

    def __post_init__(self) -> None:
        if not self.source or not self.unit:
            raise ValueError("a prior needs a unit and a source")
        if self.spread < 0 or (self.kind == "lognormal" and self.centre < 0):
            raise ValueError("a prior needs a spread >= 0 and, if lognormal, a median >= 0")
        if self.kind == "logitnormal" and not 0 < self.centre < 1:
            raise ValueError("a logit-normal prior needs a median between 0 and 1")

    def from_z(self, z: Floats) -> Floats:
        """The quantity at standard-normal score `z` (any shape): 0 gives the centre, 1 one spread above."""
        if self.kind == "normal":
            return self.centre + self.spread * z
        if self.kind == "lognormal":
            return self.centre * np.exp(self.spread * z)
        return 1.0 / (1.0 + np.exp(-(math.log(self.centre / (1.0 - self.centre)) + self.spread * z)))

    def moved(self, *, centre_z: float, spread_z: float) -> Prior:
        """The prior after learning: its scores now have mean `centre_z` and standard deviation `spread_z`."""
        centre = float(self.from_z(np.float64(centre_z)))  # type: ignore[arg-type]
        return replace(self, centre=centre, spread=self.spread * spread_z)

    def draw(self, rng: np.random.Generator, n: int) -> Floats:
        """`n` independent draws, shape (n,)."""
        return self.from_z(rng.standard_normal(n))
