"""How the doubt in each prior is believed to be shared out: what is common to all gardens, what is this batch's alone.

A prior of the steep says how far a parameter may lie from its centre; it does not say whether a garden keeps to its
own value or every batch draws anew. That decides what can be learned: the share of the batch alone never can. All
shares are judgements (grade guess, no study was found), but for the speed of dying, whose batch scatter stands in the
steep's priors, and the leaf, whose scatter from cut to cut stands in those of the bed.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, Literal

from bluewright.science.base.sourced import Sourced
from bluewright.science.steep.record import CONTENT_NAME, INSTRUMENTS
from bluewright.science.steep.signs import SIGNS

Part = Literal["everywhere", "garden", "plant", "bed", "age", "season", "tub", "reader", "year", "batch"]
PARTS: Final[tuple[Part, ...]] = (
    "everywhere", "garden", "plant", "bed", "age", "season", "tub", "reader", "year", "batch",
)  # fmt: skip
"""everywhere: of the plant in all gardens (sources and centres may be off together). plant: of the plant here."""

KEPT_NAME: Final = "kept_frac"
"""What washing and drying leave of the pigment: in the chain to the jar, though the steep does not know it."""

_USUAL: Final[Mapping[Part, float]] = {"everywhere": 0.30, "plant": 0.40, "year": 0.05, "batch": 0.25}
_WATER: Final[Mapping[Part, float]] = {"garden": 0.70, "year": 0.05, "batch": 0.25}
_SIGN: Final[Mapping[Part, float]] = {"everywhere": 0.15, "reader": 0.50, "year": 0.05, "batch": 0.30}
_INSTRUMENT: Final[Mapping[Part, float]] = {"reader": 0.60, "year": 0.10, "batch": 0.30}
_HANDS: Final[Mapping[Part, float]] = {"everywhere": 0.20, "garden": 0.50, "year": 0.05, "batch": 0.25}
_OWN: Final[dict[str, Mapping[Part, float]]] = {
    CONTENT_NAME: {
        "everywhere": 0.25, "plant": 0.38, "bed": 0.10, "age": 0.03, "season": 0.06, "year": 0.06, "batch": 0.12,
    },
    "kill_25c_per_h": {"everywhere": 0.17, "plant": 0.25, "tub": 0.10, "year": 0.05, "batch": 0.43},
    "cut_scatter": {"garden": 0.50, "batch": 0.50},
    "flora_start": {"everywhere": 0.10, "tub": 0.40, "year": 0.05, "batch": 0.45},
    "water_ph": _WATER,
    "surface_cm_per_h": {"everywhere": 0.20, "tub": 0.50, "batch": 0.30},
    "finish_frac": _HANDS,
    KEPT_NAME: _HANDS,
}  # fmt: skip

YIELD_NAMES: Final = (CONTENT_NAME, "finish_frac", KEPT_NAME)
"""The chain to the jar: their batch scatter is learned together, apart from that of speed and signs."""

YEARS_ALIKE: Final = Sourced(
    value=4.0, unit="a", source="common-practice", low=1.0, high=15.0, grade="guess",
    note="after so many years what a year did to a garden is forgotten to 37 %",
)  # fmt: skip
SCATTER_LOG_SD: Final = Sourced(
    value=0.35, unit="1", source="common-practice", low=0.2, high=0.6, grade="guess",
    note="log-sd of how much more or less than usual the batches of one garden scatter",
)  # fmt: skip
TRUSTED_FRAC: Final = Sourced(
    value=0.8, unit="1", source="common-practice", low=0.5, high=1.0, grade="guess",
    note="how far the strain call trusts what was taught of speed and signs, since the model may be wrong alike each "
    "time in ways that no simulated garden shows; those foretell the looks at their next tub the better the more it is",
)  # fmt: skip
SCATTERS: Final = (0.5, 0.71, 1.0, 1.41, 2.0)
"""Factors on the batches' scatter that are weighed against each other: never nought."""


def shares_of(name: str) -> Mapping[Part, float]:
    """The parts of one score with their shares of its prior variance, which add up to 1."""
    if name in _OWN:
        return _OWN[name]
    if name in SIGNS:
        return _SIGN
    return _INSTRUMENT if name in INSTRUMENTS else _USUAL
