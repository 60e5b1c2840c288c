"""How fast does a tub follow the air, and how much do sun and night sky move it away from it?

The walls, lid, floor and open surface each pass `U A` watts a kelvin; the liquor holds `rho c V`. Their ratio is the
tub's time constant. Sun and sky enter as an offset of the air that the tub feels. All heat-transfer figures are
recalled engineering values, good to a factor: two readings of the tub teach more than all of them.
"""

from __future__ import annotations

import math
from typing import Final, Literal

import numpy as np

from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.media.tub import Tub

WATER_J_PER_L_K: Final = Sourced(
    value=4184.0, unit="J/(L K)", source="common-practice", low=4100.0, high=4200.0, grade="memory",
    note="heat capacity of a litre of water, 4.184 kJ/(kg K) at 1 kg/L; leaf counts as water",
)  # fmt: skip
DEFAULT_VOLUME_L: Final = 60.0
HEIGHT_TO_WIDTH: Final = Sourced(
    value=1.2, unit="1", source="common-practice", low=0.8, high=1.6, grade="guess", note="an ordinary upright tub"
)
WALL_W_PER_M2_K: Final = Sourced(
    value=9.0, unit="W/(m2 K)", source="bluewright-tub", low=7.0, high=20.0, grade="memory",
    note="bare plastic wall; the outer air film decides: 7-9 sheltered, 15-20 in wind",
)  # fmt: skip
LID_W_PER_M2_K: Final = Sourced(
    value=5.0,
    unit="W/(m2 K)",
    source="bluewright-tub",
    low=3.0,
    high=8.0,
    grade="guess",
    note="air gap under a bare lid",
)
OPEN_W_PER_M2_K: Final = Sourced(
    value=25.0, unit="W/(m2 K)", source="bluewright-tub", low=20.0, high=40.0, grade="memory",
    note="open water, linearised with its evaporation",
)  # fmt: skip
WRAPPED_W_PER_M2_K: Final = Sourced(
    value=1.5, unit="W/(m2 K)", source="bluewright-tub", low=0.65, high=3.0, grade="guess",
    note="about 20 mm of foam (1 / (0.02/0.035 + 0.11)); blankets and straw are worse, 50 mm of foam better",
)  # fmt: skip
GROUND_FRAC: Final = Sourced(
    value=0.5, unit="1", source="bluewright-tub", low=0.2, high=1.0, grade="guess",
    note="the floor passes half of min(U, 2) to the ground",
)  # fmt: skip
LOG_TAU_SD: Final[dict[bool, Sourced]] = {
    False: Sourced(value=0.3, unit="1", source="bluewright-tub", low=0.2, high=0.5, grade="guess"),
    True: Sourced(
        value=0.4, unit="1", source="bluewright-tub", low=0.2, high=0.7, grade="guess",
        note="wrappings differ more than bare walls",
    ),
}  # fmt: skip
"""Standard deviation of the natural log of the time constant, by `insulated`."""

# The sun's offset: mean over 24 h of a clear to mixed summer day, by how much sun falls on a lidded bare tub.
# A black bare barrel in full sun (20 MJ/m2 a day, 0.9 of it absorbed on 0.35 of its skin, 9 W/(m2 K)) comes to +8 C,
# a white one to +2 C.
SUN_OFFSET: Final[dict[Literal["shade", "part", "full"], Prior]] = {
    "shade": Prior(
        kind="normal", centre=0.3, spread=0.5, unit="C", source="bluewright-tub", grade="guess", note="sky light only"
    ),
    "part": Prior(
        kind="normal", centre=1.5, spread=1.2, unit="C", source="bluewright-tub", grade="guess", note="some hours"
    ),
    "full": Prior(
        kind="normal", centre=3.5, spread=2.0, unit="C", source="bluewright-tub", grade="guess",
        note="between a white (+2) and a black (+8) barrel",
    ),
}  # fmt: skip
SUN_BY_WALL: Final[dict[tuple[bool, bool], float]] = {
    (True, False): 1.0, (True, True): 0.5, (False, False): 0.5, (False, True): 0.7,
}  # fmt: skip
"""Share of the sun's offset by (covered, insulated): wrapping passes little of it, open water cools itself (guess)."""
SUN_OWN_DAY_FRAC: Final = Sourced(
    value=0.5, unit="1", source="bluewright-tub", low=0.2, high=0.8, grade="guess",
    note="share of the offset's variance that is today's cloud; the rest is the place, the same every day",
)  # fmt: skip
SUN_DAY_H: Final = Sourced(
    value=24.0, unit="h", source="bluewright-tub", low=12.0, high=48.0, grade="guess", note="memory of cloud"
)
DAYLIGHT_SWING_H: Final = Sourced(
    value=4.0, unit="h", source="common-practice", low=2.5, high=5.5, grade="guess",
    note="16 hours of daylight at midsummer, 8 at midwinter, northern middle latitudes",
)  # fmt: skip
SUN_MIDWINTER_FRAC: Final = Sourced(
    value=0.2, unit="1", source="common-practice", low=0.1, high=0.4, grade="guess",
    note="strength of the sun at midwinter against midsummer, northern middle latitudes",
)  # fmt: skip
MIDSUMMER_DAY: Final = 172

NIGHT_OFFSET: Final = Prior(
    kind="normal", centre=-1.0, spread=0.7, unit="C", source="bluewright-tub", grade="guess",
    note="heat lost to a clear night sky; weaker under trees or a roof",
)  # fmt: skip
OPEN_OFFSET: Final = Prior(
    kind="normal", centre=-1.0, spread=0.8, unit="C", source="bluewright-tub", grade="guess",
    note="evaporation draws an open tub towards the wet-bulb temperature, day and night",
)  # fmt: skip


def surface_m2(tub: Tub) -> float:
    """Area of the liquor's surface: the record's own, or that of an upright cylinder of the tub's volume.

    A cylinder of height 1.2 D holding V has D = (4 V / (1.2 pi))^(1/3).
    """
    if tub.surface_m2 is not None:
        return tub.surface_m2
    volume_m3 = (tub.volume_l or DEFAULT_VOLUME_L) / 1000
    width_m = float((4 * volume_m3 / (HEIGHT_TO_WIDTH.value * math.pi)) ** (1 / 3))
    return math.pi * width_m**2 / 4


def conductance_w_per_k(tub: Tub, *, liquid_l: float) -> float:
    """Watts that leave the liquor for each kelvin above the air: wetted wall, lid or open surface, and floor."""
    top_m2 = surface_m2(tub)
    wall_m2 = 2 * math.sqrt(math.pi * top_m2) * (liquid_l / 1000 / top_m2)
    wall = WRAPPED_W_PER_M2_K.value if tub.insulated else WALL_W_PER_M2_K.value
    lid = min(wall, LID_W_PER_M2_K.value)
    top = lid if tub.covered else OPEN_W_PER_M2_K.value
    ground = GROUND_FRAC.value * min(wall, 2.0)
    return float(wall * wall_m2 + top * top_m2 + ground * top_m2)


def time_constant_h(liquid_l: float, *, conductance_w_per_k: float) -> float:
    """`tau = rho c V / (U A)` in hours: the time in which the tub makes up 63 % of a step of the air.

    Source: lumped heat balance; that one temperature serves for the whole tub: Paaijmans 2008 (small water
    bodies; the top layer stayed within about 2 C).
    """
    return WATER_J_PER_L_K.value * liquid_l / conductance_w_per_k / 3600


def tau_prior(tub: Tub, *, liquid_l: float) -> Prior:
    """What is believed of the tub's time constant before it is read: log-normal about the wall figures."""
    centre = time_constant_h(liquid_l, conductance_w_per_k=conductance_w_per_k(tub, liquid_l=liquid_l))
    return Prior(
        kind="lognormal",
        centre=centre,
        spread=LOG_TAU_SD[tub.insulated].value,
        unit="h",
        source="bluewright-tub",
        grade="guess",
    )


def day_length_h(day_of_year: int) -> float:
    """Hours of daylight in northern middle latitudes: 12 and a swing of `DAYLIGHT_SWING_H`."""
    return 12.0 + DAYLIGHT_SWING_H.value * math.cos(2 * math.pi * (day_of_year - MIDSUMMER_DAY) / 365.25)


def sun_curve(clock_h: Floats, *, day_of_year: int) -> Floats:
    """Shape of the sun's offset over the day: a half-sine by day, 0 by night, mean over 24 h equal to `sun_season`."""
    daylight_h = day_length_h(day_of_year)
    since_rise = np.mod(np.asarray(clock_h) - (12.0 - daylight_h / 2), 24.0)
    lit = since_rise < daylight_h
    peak = 24.0 / daylight_h * math.pi / 2 * sun_season(day_of_year)
    return np.where(lit, peak * np.sin(np.pi * since_rise / daylight_h), 0.0)


def sun_season(day_of_year: int) -> float:
    """Strength of the sun against midsummer: 1 in June, `SUN_MIDWINTER_FRAC` in December, a cosine between."""
    winter = SUN_MIDWINTER_FRAC.value
    share = math.cos(2 * math.pi * (day_of_year - MIDSUMMER_DAY) / 365.25)
    return (1 + winter) / 2 + (1 - winter) / 2 * share
