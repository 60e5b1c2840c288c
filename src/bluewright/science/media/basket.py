"""The basket: which plant, and in what state the leaf went into the water."""

from __future__ import annotations

from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.records import record
from bluewright.science.base.sourced import Prior

Plant = Literal["woad", "japanese_indigo", "indigofera"]
"""woad: Isatis tinctoria. japanese_indigo: Persicaria tinctoria. indigofera: Indigofera, leaf without stems."""

Age = Literal["young", "mixed", "old"]
Cut = Literal["whole", "torn", "cut", "shredded"]


@record
class LeafState:
    """In what state the leaf went into the water."""

    age: Age = "mixed"
    """`young` and half-grown leaf, `mixed` as picked, or `old`."""
    cut: Cut = "whole"
    """`whole`, `torn` by hand, `cut` to 1-2 cm, or `shredded`."""
    damaged_frac: Annotated[float, Field(ge=0, le=1)] = 0.0
    """Share of the leaf area that is spotted, mildewed or eaten, 0 to 1."""
    held_h: Annotated[float, Field(ge=0, le=1000)] = 0.0
    """Hours from picking to water."""


SAP_L_PER_KG: Final = Prior(
    kind="normal", centre=0.85, spread=0.03, unit="L/kg", source="bluewright-kinetics", grade="memory",
    note="1 minus the dry matter of fresh leaf: woad 10-16 %, Japanese indigo 14-20 %, Indigofera 20-30 %",
)  # fmt: skip
"""Water of the fresh leaf that joins the liquor once the leaf is dead."""
