"""What a mass of steeped leaf keeps back, by how it is strained. All are judgements: weigh your own leaves."""

from __future__ import annotations

from typing import Final, Literal

from bluewright.science.base.sourced import Prior

Squeeze = Literal["drained", "hand", "press"]

KEPT_L_PER_KG: Final[dict[Squeeze, Prior]] = {
    "drained": Prior(
        kind="lognormal", centre=1.30, spread=0.20, unit="L/kg", source="common-practice", grade="guess",
        note="left in a sieve for a quarter of an hour; sap of the leaf included",
    ),
    "hand": Prior(
        kind="lognormal", centre=0.80, spread=0.20, unit="L/kg", source="common-practice", grade="guess",
        note="wrung in a cloth by hand",
    ),
    "press": Prior(
        kind="lognormal", centre=0.55, spread=0.20, unit="L/kg", source="common-practice", grade="guess",
        note="a fruit press or a long weighting",
    ),
}  # fmt: skip
"""Liquid kept by the leaf after straining, litres for each kilogram of fresh leaf put in."""

SAP_L_PER_KG: Final = Prior(
    kind="normal", centre=0.85, spread=0.03, unit="L/kg", source="bluewright-kinetics", grade="memory",
    note="1 minus the dry matter of fresh leaf: woad 10-16 %, Japanese indigo 14-20 %, Indigofera 20-30 %",
)  # fmt: skip
"""Water of the fresh leaf that joins the liquor once the leaf is dead."""

RINSE_MIXING: Final = Prior(
    kind="logitnormal", centre=0.75, spread=0.5, unit="1", source="common-practice", grade="guess",
    note="a rinse poured through and stirred; 1 would be perfect mixing",
)  # fmt: skip
"""How completely a rinse mixes with the liquor that the leaves kept."""
