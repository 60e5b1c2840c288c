"""What soils hold, how deep roots go, and how much a stand drinks beside short grass. Your own spade knows better."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, Literal

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.media.basket import Plant

Soil = Literal["sand", "loamy_sand", "sandy_loam", "loam", "silt_loam", "clay_loam", "clay", "unknown"]
Stage = Literal["bare", "small", "half_cover", "full_cover", "cut"]
"""How much of the ground leaves shade: none; under a quarter; about half; all; just cut."""
Way = Literal["can", "hose", "drip"]
Start = Literal["full", "damp", "unknown"]
Feel = Literal["wet", "moist", "dry", "dusty"]
"""A handful from a hand's depth: water shines; a ball holds; crumbles; runs through the fingers."""


def _holds(low: float, high: float, note: str) -> Prior:
    """A range of a table taken as 19 times in 20 of the soils of that name."""
    middle = (low * high) ** 0.5
    return Prior(
        kind="lognormal", centre=middle, spread=round((high / low) ** 0.25 - 1, 3), unit="1", source="fao-56",
        grade="memory", note=note,
    )  # fmt: skip


AVAILABLE_FRAC: Final[Mapping[Soil, Prior]] = {
    "sand": _holds(0.05, 0.11, "table 19: 5 to 11 % of the volume"),
    "loamy_sand": _holds(0.06, 0.12, "table 19: 6 to 12 %"),
    "sandy_loam": _holds(0.11, 0.15, "table 19: 11 to 15 %"),
    "loam": _holds(0.13, 0.18, "table 19: 13 to 18 %"),
    "silt_loam": _holds(0.13, 0.19, "table 19: 13 to 19 %"),
    "clay_loam": _holds(0.13, 0.18, "table 19, silty clay loam: 13 to 18 %"),
    "clay": _holds(0.12, 0.20, "table 19: 12 to 20 %"),
    "unknown": _holds(0.06, 0.20, "any of them"),
}
"""Water between a drained soil and one from which plants wilt for good, as a share of the soil's volume."""

USE_FACTOR: Final[Mapping[Stage, Prior]] = {
    "bare": Prior(
        kind="lognormal", centre=0.45, spread=0.3, unit="1", source="common-practice", grade="guess",
        note="bare ground, seeds or roots only; more just after rain, less once the top is dry",
    ),
    "small": Prior(
        kind="lognormal", centre=0.7, spread=0.15, unit="1", source="fao-56", grade="memory",
        note="table 12, small vegetables, first weeks",
    ),
    "half_cover": Prior(
        kind="lognormal", centre=0.88, spread=0.12, unit="1", source="fao-56", grade="guess",
        note="half way between table 12's first weeks and full cover",
    ),
    "full_cover": Prior(
        kind="lognormal", centre=1.05, spread=0.1, unit="1", source="fao-56", grade="memory",
        note="table 12, leafy brassicas and small vegetables at full cover",
    ),
    "cut": Prior(
        kind="lognormal", centre=0.75, spread=0.15, unit="1", source="common-practice", grade="guess",
        note="the week after a cut",
    ),
}  # fmt: skip
"""Crop coefficient: what the bed gives to the air over what short grass gives."""
MORE_FACTOR: Final[Mapping[Plant, Sourced]] = {
    "woad": Sourced(value=1.0, unit="1", source="common-practice", low=0.9, high=1.1, grade="guess"),
    "japanese_indigo": Sourced(
        value=1.05, unit="1", source="common-practice", low=0.95, high=1.15, grade="guess",
        note="taller and leafier: 1.05 to 1.15 at full cover",
    ),
    "indigofera": Sourced(value=1.0, unit="1", source="common-practice", low=0.9, high=1.1, grade="guess"),
}  # fmt: skip
"""A plant's use over that of a leafy vegetable at the same cover."""
CUT_D: Final = Sourced(value=7.0, unit="d", source="common-practice", low=4.0, high=10.0, grade="guess")
"""A cut bed stays at the use of `cut` for so long."""
REGROWN_D: Final = Sourced(
    value=28.0, unit="d", source="common-practice", low=20.0, high=40.0, grade="guess",
    note="days after a cut from which it covers the ground again",
)  # fmt: skip

EASY_FRAC: Final[Mapping[Plant, Prior]] = {
    "woad": Prior(
        kind="logitnormal", centre=0.45, spread=0.25, unit="1", source="common-practice", grade="guess",
        note="brassicas 0.45; a taproot, and known to bear drought",
    ),
    "japanese_indigo": Prior(
        kind="logitnormal", centre=0.30, spread=0.25, unit="1", source="common-practice", grade="guess",
        note="a waterside plant: leafy vegetables 0.30",
    ),
    "indigofera": Prior(
        kind="logitnormal", centre=0.50, spread=0.25, unit="1", source="common-practice", grade="guess",
        note="a deep legume: about 0.5",
    ),
}  # fmt: skip
"""Share of the store that a plant takes without effort; beyond it, it grows slower."""


def _roots(centre: float, note: str = "") -> Prior:
    return Prior(
        kind="lognormal", centre=centre, spread=0.2, unit="m", source="common-practice", grade="guess", note=note
    )  # fmt: skip


SMALL_ROOTS: Final = _roots(0.3, "seedlings and transplants of any of them")
FULL_ROOTS: Final[Mapping[Plant, Prior]] = {
    "woad": _roots(0.8, "a taproot in deep soil"), "japanese_indigo": _roots(0.5), "indigofera": _roots(0.8),
}  # fmt: skip
"""Depth from which a plant drinks, once it covers the ground."""
ROOTED_D: Final = Sourced(
    value=40.0, unit="d", source="common-practice", low=25.0, high=60.0, grade="guess",
    note="days that roots take from the small depth to the full one, from the first day that is not bare",
)  # fmt: skip

LIGHT_RAIN_MM: Final = Sourced(
    value=2.0, unit="mm", source="common-practice", low=1.0, high=5.0, grade="practice",
    note="a day's rain below this wets leaves and dust, and is gone by evening",
)  # fmt: skip
ARRIVES_FRAC: Final[Mapping[Way, Prior]] = {
    "can": Prior(
        kind="logitnormal", centre=0.85, spread=0.4, unit="1", source="common-practice", grade="practice",
        note="a can or a hose held low, in the evening",
    ),
    "hose": Prior(
        kind="logitnormal", centre=0.75, spread=0.4, unit="1", source="common-practice", grade="practice",
        note="a sprinkler: wind and wet leaves take a quarter",
    ),
    "drip": Prior(
        kind="logitnormal", centre=0.9, spread=0.4, unit="1", source="common-practice", grade="practice",
        note="drip hose under the leaves",
    ),
}  # fmt: skip
"""Share of the water that reaches the roots."""
START_FRAC: Final[Mapping[Start, Prior]] = {
    "full": Prior(
        kind="logitnormal", centre=0.05, spread=0.5, unit="1", source="common-practice", grade="practice",
        note="after winter or a soaking rain, drained for a day or two",
    ),
    "damp": Prior(
        kind="logitnormal", centre=0.35, spread=0.5, unit="1", source="common-practice", grade="guess"
    ),
    "unknown": Prior(
        kind="logitnormal", centre=0.35, spread=1.2, unit="1", source="common-practice", grade="guess",
        note="5 to 85 % of the store is gone",
    ),
}  # fmt: skip
"""Share of the store that is gone on the first day."""
FELT_FRAC: Final[Mapping[Feel, Prior]] = {
    "wet": Prior(kind="normal", centre=0.0, spread=0.12, unit="1", source="common-practice", grade="practice"),
    "moist": Prior(kind="normal", centre=0.3, spread=0.15, unit="1", source="common-practice", grade="practice"),
    "dry": Prior(kind="normal", centre=0.6, spread=0.15, unit="1", source="common-practice", grade="practice"),
    "dusty": Prior(kind="normal", centre=0.9, spread=0.15, unit="1", source="common-practice", grade="practice"),
}
"""Share of the store that is gone where a handful from a hand's depth feels so; one handful may mislead so far."""
AT_ONCE_MM: Final = Sourced(
    value=25.0, unit="mm", source="common-practice", low=15.0, high=35.0, grade="practice",
    note="more at once runs off or below the roots",
)  # fmt: skip
CARRIED_L: Final = Sourced(
    value=60.0, unit="L", source="common-practice", low=40.0, high=100.0, grade="practice",
    note="from so much on, carrying it in cans is worth a word",
)  # fmt: skip
