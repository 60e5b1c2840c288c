"""What a mass of steeped leaf keeps back, by how it is strained. All are judgements: weigh your own leaves."""

from __future__ import annotations

from typing import Final, Literal

from bluewright.science.base.sourced import Prior, Sourced

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

RINSE_MIXING: Final = Prior(
    kind="logitnormal", centre=0.75, spread=0.5, unit="1", source="common-practice", grade="guess",
    note="a rinse poured through and stirred; 1 would be perfect mixing",
)  # fmt: skip
"""How completely a rinse mixes with the liquor that the leaves kept."""

JUG_SD: Final = Sourced(
    value=0.04, unit="1", source="common-practice", low=0.03, high=0.05, grade="practice",
    note="standard deviation (of the logarithm) of a measured volume: marks on jugs and buckets",
)  # fmt: skip
LEAST_KEPT_L_PER_KG: Final = Sourced(
    value=0.05, unit="L/kg", source="common-practice", low=0.0, high=0.2, grade="guess",
    note="no press at home wrings leaf drier, so that no measured liquor is believed beyond it",
)  # fmt: skip
MOST_KEPT_FRAC: Final = Sourced(
    value=0.9, unit="1", source="common-practice", low=0.7, high=1.0, grade="guess",
    note="of all the liquid, in a tub packed with leaf and hardly any water",
)  # fmt: skip
PACKED_KG_PER_L: Final = Sourced(
    value=0.5, unit="kg/L", source="common-practice", low=0.3, high=0.7, grade="practice",
    note="leaf to water beyond which the tub is packed",
)  # fmt: skip
WET_LEAF_FACTOR: Final = Sourced(
    value=1.4, unit="1", source="common-practice", low=1.1, high=1.8, grade="practice",
    note="mass of steeped, drained leaf over that of the fresh leaf",
)  # fmt: skip
LIFTED_KG: Final = Sourced(
    value=12.0, unit="kg", source="common-practice", low=10.0, high=15.0, grade="practice",
    note="fresh leaf from which lifting it wet is worth a word",
)  # fmt: skip
