"""What is believed of how indigo plants grow by warmth, before any cut of one's own."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.bed.growth_record import Start
from bluewright.science.media.basket import Plant

BASE_C: Final[dict[Plant, Sourced]] = {
    "woad": Sourced(
        value=5.0, unit="C", source="bluewright-bed", low=4.0, high=6.0, grade="guess", note="as oilseed rape, 4 to 5"
    ),
    "japanese_indigo": Sourced(
        value=10.0, unit="C", source="angelini-2004", low=9.0, high=11.0, grade="fitted",
        note="at this base the normals of Pisa give the published sum from sowing to the last cut",
    ),
    "indigofera": Sourced(
        value=10.3, unit="C", source="shahrood-indigofera", low=9.0, high=12.0, grade="measured",
        note="of germination, 10.27",
    ),
}  # fmt: skip
"""Degree-days count above this: own cuts cannot tell it from the sums, and it is kept."""

RIPE_FIRST_D: Final[dict[Plant, Prior]] = {
    "woad": Prior(
        kind="lognormal", centre=790.0, spread=0.18, unit="C d", source="fwi-woad", grade="fitted",
        note="sown at the beginning of April, first cut in early to mid July in Britain",
    ),
    "japanese_indigo": Prior(
        kind="lognormal", centre=900.0, spread=0.20, unit="C d", source="angelini-2004", grade="guess",
        note="three cuts, 2,017 and 2,018 C d from sowing to the last",
    ),
    "indigofera": Prior(
        kind="lognormal", centre=1250.0, spread=0.25, unit="C d", source="common-practice", grade="guess",
        note="two to three months from sowing, at 27 C",
    ),
}  # fmt: skip
"""Degree-days from sowing to the first cut."""
RIPE_AGAIN_D: Final[dict[Plant, Prior]] = {
    "woad": Prior(
        kind="lognormal", centre=550.0, spread=0.18, unit="C d", source="fwi-woad", grade="fitted",
        note="two regrowths from July to late autumn in Britain; every 5 to 7 weeks in Germany",
    ),
    "japanese_indigo": Prior(
        kind="lognormal", centre=500.0, spread=0.20, unit="C d", source="common-practice", grade="guess",
        note="every four to five weeks",
    ),
    "indigofera": Prior(
        kind="lognormal", centre=870.0, spread=0.25, unit="C d", source="common-practice", grade="guess",
        note="every six to eight weeks, at 27 C",
    ),
}  # fmt: skip
"""Degree-days from one cut to the next."""
START_FACTOR: Final[dict[Start, Sourced]] = {
    "sown": Sourced(value=1.0, unit="1", source="bluewright-bed", low=1.0, high=1.0, grade="exact"),
    "planted": Sourced(
        value=0.7, unit="1", source="bluewright-bed", low=0.55, high=0.85, grade="guess",
        note="five to six weeks of the nursery are behind it, and a check from planting",
    ),
    "overwintered": Sourced(
        value=0.65, unit="1", source="bluewright-bed", low=0.5, high=0.8, grade="guess",
        note="about as after a cut: the root is full",
    ),
}  # fmt: skip
"""By which the degree-days to the first cut are multiplied."""

FULL_KG_PER_M2: Final[dict[Plant, Prior]] = {
    "woad": Prior(
        kind="lognormal", centre=0.88, spread=0.5, unit="kg/m2", source="fwi-woad", grade="fitted",
        note="20 t/ha, up to 40, in three cuts taken at four fifths of it",
    ),
    "japanese_indigo": Prior(
        kind="lognormal", centre=1.9, spread=0.5, unit="kg/m2", source="angelini-2004", grade="fitted",
        note="82 and 120 t/ha of plant in three cuts, leaf 40 to 45 %; 5 kg/m2 of plant at a first cut in Austria",
    ),
    "indigofera": Prior(
        kind="lognormal", centre=0.5, spread=0.5, unit="kg/m2", source="rcfc-indigofera", grade="guess",
        note="10 to 13 t/ha in a year, three cuts",
    ),
}  # fmt: skip
"""Fresh leaf on a square metre, were it left to stand: what a usual cut at four fifths of it gives, over 0.8."""
RISE_D: Final = Prior(
    kind="lognormal", centre=70.0, spread=0.3, unit="C d", source="bluewright-bed", grade="guess",
    note="width of the logistic course of leaf against degree-days",
)  # fmt: skip

READY_FRAC: Final = Sourced(
    value=0.8, unit="1", source="bluewright-bed", low=0.7, high=0.9, grade="guess", note="share of full leaf at a cut"
)
PAST_FACTOR: Final = Sourced(
    value=1.5, unit="1", source="bluewright-bed", low=1.3, high=1.8, grade="guess",
    note="so many times the degree-days to ready, and leaf yellows or the plant flowers",
)  # fmt: skip
CUT_SD: Final = Prior(
    kind="lognormal", centre=0.25, spread=0.4, unit="1", source="bluewright-bed", grade="guess",
    note="log-sd of the mass from cut to cut of one bed and season: rain, picking, weighing",
)  # fmt: skip
SEASON_SD: Final = Sourced(
    value=0.25, unit="1", source="angelini-2004", low=0.15, high=0.4, grade="fitted",
    note="log-sd of leaf from season to season: 82 and 120 t/ha in a dry and a wet year",
)  # fmt: skip
RIPE_SD: Final = Sourced(
    value=0.08, unit="1", source="bluewright-bed", low=0.05, high=0.15, grade="guess",
    note="log-sd of the degree-days to ready from cut to cut: water, light, nitrogen",
)  # fmt: skip
JUDGED_SD: Final = Sourced(
    value=0.10, unit="1", source="bluewright-bed", low=0.05, high=0.2, grade="guess",
    note="log-sd of a grower's judgement of ready, in degree-days",
)  # fmt: skip
RIGHT_WIDTH: Final = Sourced(
    value=0.10, unit="1", source="bluewright-bed", low=0.05, high=0.2, grade="guess",
    note="log of how far off ready, in degree-days, a cut is still called right",
)  # fmt: skip
BLUE_CUT_SD: Final = Sourced(
    value=0.35, unit="1", source="bluewright-bed", low=0.2, high=0.5, grade="guess",
    note="log-sd of grams of blue for a kilogram of leaf from cut to cut of one bed",
)  # fmt: skip
FULL_LENGTH_MM: Final[dict[Plant, Prior]] = {
    "woad": Prior(
        kind="lognormal", centre=330.0, spread=0.25, unit="mm", source="fwi-woad", grade="fitted",
        note="longest leaf at full growth: leaves stand about 300 mm long at a cut, taken at four fifths",
    ),
    "japanese_indigo": Prior(
        kind="lognormal", centre=600.0, spread=0.3, unit="mm", source="common-practice", grade="guess",
        note="longest shoot since the cut or planting, at full growth",
    ),
    "indigofera": Prior(
        kind="lognormal", centre=900.0, spread=0.35, unit="mm", source="common-practice", grade="guess",
        note="longest shoot since the cut or sowing, at full growth",
    ),
}  # fmt: skip
LENGTH_POWER: Final = Prior(
    kind="lognormal", centre=0.4, spread=0.2, unit="1", source="bluewright-bed", grade="guess",
    note="length goes with this power of the leaf's mass: its mass with about the 2.5th power of its length",
)  # fmt: skip
LENGTH_LEAF_SD: Final = Sourced(
    value=0.08, unit="1", source="bluewright-bed", low=0.04, high=0.15, grade="guess",
    note="log-sd of one plant's length from look to look: which leaf is longest, the ruler, slugs",
)  # fmt: skip
LENGTH_LOOK_SD: Final = Sourced(
    value=0.05, unit="1", source="bluewright-bed", low=0.02, high=0.1, grade="guess",
    note="log-sd that all plants of a look share: weather of the days before, and the curve is no law",
)  # fmt: skip
LENGTH_LEVEL_SD: Final = Sourced(
    value=0.12, unit="1", source="bluewright-bed", low=0.05, high=0.2, grade="guess",
    note="log-sd of full length from regrowth to regrowth, and of other plants being marked",
)  # fmt: skip
SEASON_ENDS: Final[dict[Plant, Prior]] = {
    "woad": Prior(
        kind="normal", centre=305.0, spread=12.0, unit="d", source="common-practice", grade="practice",
        note="picked to the first of November in the old trade",
    ),
    "japanese_indigo": Prior(
        kind="normal", centre=268.0, spread=12.0, unit="d", source="common-practice", grade="practice",
        note="flowers in September as days shorten, and its blue falls steeply then",
    ),
    "indigofera": Prior(
        kind="normal", centre=288.0, spread=20.0, unit="d", source="bluewright-bed", grade="guess",
        note="outside the tropics the first cold nights end it",
    ),
}  # fmt: skip
"""Day of the year, northern hemisphere, on which leaf is no longer worth cutting."""
