"""The tub as a record: how much it holds, how open it is, how it is walled, covered and lit."""

from __future__ import annotations

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
