"""The tub as a record: how much it holds, how open it is, how it is walled, covered and lit."""

from __future__ import annotations

import math
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.base.records import LEAST, record


@record
class Tub:
    """A tub; whatever is left out is taken as an ordinary 60-litre lidded plastic tub."""

    volume_l: Annotated[float, Field(ge=LEAST, le=1_000_000)] | None = None
    """What the tub holds when full."""
    surface_m2: Annotated[float, Field(ge=LEAST, le=10_000)] | None = None
    """Open surface of the liquor."""
    covered: bool = True
    """A lid, a cloth or weights that keep air off the surface."""
    insulated: bool = False
    """Wrapped in foam, straw or blankets."""
    sun: Literal["shade", "part", "full"] = "part"
    """How much sun falls on the tub."""


def surface_m2(liquor_l: float, *, diameter_m: float | None = None) -> float:
    """Open surface of a round vessel `diameter_m` wide, or of one filled as deep as it is wide (arithmetic)."""
    width_m = diameter_m or math.cbrt(4.0 * liquor_l / 1000.0 / math.pi)
    return math.pi * width_m**2 / 4.0
