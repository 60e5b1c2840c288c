"""What is believed of settling, washing and drying before anything is measured."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.media.alkali_kind import Family

FALL_MM_PER_H: Final[dict[Family, Prior]] = {
    "lime": Prior(
        kind="lognormal", centre=70.0, spread=0.7, unit="mm/h", source="okinawa-craft", grade="fitted",
        note="a craft page: limed liquor in deep vats settles in about 10 h; lime pulls the blue into flocs",
    ),
    "carbonate": Prior(
        kind="lognormal", centre=30.0, spread=0.8, unit="mm/h", source="common-practice", grade="guess",
        note="overnight is the norm for a tub",
    ),
    "lye": Prior(
        kind="lognormal", centre=30.0, spread=0.8, unit="mm/h", source="common-practice", grade="guess",
        note="overnight is the norm for a tub",
    ),
    "ammonia": Prior(
        kind="lognormal", centre=20.0, spread=0.9, unit="mm/h", source="common-practice", grade="guess",
        note="ammonia liquors settle slower; a report without lime needed more than two weeks",
    ),
    "none": Prior(
        kind="lognormal", centre=15.0, spread=1.0, unit="mm/h", source="common-practice", grade="guess",
        note="nothing to pull the grains together",
    ),
    "unknown": Prior(
        kind="lognormal", centre=30.0, spread=1.0, unit="mm/h", source="common-practice", grade="guess",
        note="any of the others",
    ),
}  # fmt: skip
"""Speed at which the edge of the sinking blue falls at 20 C, before it slows."""

HARD_WATER_FACTOR: Final = Sourced(
    value=1.5, unit="1", source="common-practice", low=1.0, high=2.5, grade="guess",
    note="the calcium of hard water flocculates as lime does, less strongly; not applied on top of lime",
)  # fmt: skip

SEDIMENT_FRAC: Final[dict[bool, Prior]] = {
    True: Prior(
        kind="logitnormal", centre=0.10, spread=0.8, unit="1", source="common-practice", grade="guess",
        note="limed: flocs with calcite pack loosely",
    ),
    False: Prior(
        kind="logitnormal", centre=0.05, spread=1.0, unit="1", source="common-practice", grade="guess",
        note="without lime",
    ),
}  # fmt: skip
"""Height of the packed sediment over the depth of the liquor, with lime (True) or without."""

PACKING_FRAC: Final = Prior(
    kind="lognormal", centre=0.06, spread=0.7, unit="1", source="coe-clevenger", grade="guess",
    note="height above the sediment at which the fall has slowed to half, over the depth",
)  # fmt: skip

PACKED_SOLIDS_FRAC: Final = Sourced(
    value=0.6, unit="1", source="common-practice", low=0.5, high=0.64, grade="guess",
    note="volume share of touching flocs; 0.64 is random close packing of equal balls",
)  # fmt: skip

VISIBLE_MM: Final = Sourced(
    value=3.0, unit="mm", source="common-practice", low=2.0, high=5.0, grade="practice",
    note="the smallest change of the edge that an eye and a ruler agree on",
)  # fmt: skip

WATCH_H: Final = Sourced(
    value=2.0, unit="h", source="common-practice", low=1.0, high=4.0, grade="practice",
    note="clear top third and no change in two hours: decant",
)  # fmt: skip

SPARED_MM: Final = Sourced(
    value=15.0, unit="mm", source="common-practice", low=5.0, high=30.0, grade="practice",
    note="clear liquor left over the sediment so that the siphon does not lift blue",
)  # fmt: skip

MIXING: Final = Prior(
    kind="logitnormal", centre=0.95, spread=0.6, unit="1", source="common-practice", grade="guess",
    note="how completely the refill mixes with the liquor held in the sludge, well stirred; 1 would be perfect",
)  # fmt: skip

SOLIDS_FRAC: Final = Prior(
    kind="logitnormal", centre=0.15, spread=0.6, unit="1", source="common-practice", grade="guess",
    note="dry share of a drained paste",
)  # fmt: skip

PAGE_EXPONENT: Final = Prior(
    kind="lognormal", centre=1.25, spread=0.2, unit="1", source="page-thin-layer", grade="guess",
    note="Lewis' law is exponent 1; a wet layer that first dries at a constant rate has more",
)  # fmt: skip

PASTE_FACTOR: Final = Prior(
    kind="lognormal", centre=0.6, spread=0.15, unit="1", source="common-practice", grade="guess",
    note="a wet paste cools itself and dries at 0.5 to 0.7 of open water",
)  # fmt: skip

DRYING_SLACK: Final = Prior(
    kind="lognormal", centre=0.75, spread=0.4, unit="1", source="common-practice", grade="guess",
    note="time constant over the hours that the constant rate would need for all the water",
)  # fmt: skip

LAYER_MM: Final = Prior(
    kind="lognormal", centre=5.0, spread=0.6, unit="mm", source="common-practice", grade="guess",
    note="a paste spread on a plate",
)  # fmt: skip
