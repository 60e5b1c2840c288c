"""What is believed of hours, kit and amounts that nobody measured; all of it gives way to a grower's own notes."""

from __future__ import annotations

from typing import Final, Literal

from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.media.alkali_kind import Kind

WorkKind = Literal[
    "bed", "picking", "filling", "looking", "straining", "airing", "washing", "drying", "grinding", "other"
]  # fmt: skip
"""bed: sowing, weeding, watering. straining: taking the leaf out. airing: alkali and air. other: all else."""
WORK_KINDS: Final[tuple[WorkKind, ...]] = (
    "bed", "picking", "filling", "looking", "straining", "airing", "washing", "drying", "grinding", "other",
)  # fmt: skip


def _minutes(centre: float, spread: float, note: str) -> Prior:
    return Prior(
        kind="lognormal", centre=centre, spread=spread, unit="min", source="bluewright-cost", grade="guess", note=note
    )


PICKING_MIN_PER_KG: Final = Prior(
    kind="lognormal", centre=6.0, spread=0.5, unit="min/kg", source="bluewright-cost", grade="guess",
    note="ten kilograms an hour of leaf by hand, half or twice that by bed and picker",
)  # fmt: skip
WORK_MIN: Final[dict[WorkKind, Prior]] = {
    "filling": _minutes(20.0, 0.5, "rinse the leaf, fill the tub, weigh it down"),
    "looking": _minutes(30.0, 0.6, "five minutes a look, twice a day for three days"),
    "straining": _minutes(30.0, 0.5, "lift the leaf out, squeeze it, carry it to the compost"),
    "airing": _minutes(40.0, 0.5, "alkali in parts with its readings, then air"),
    "washing": _minutes(40.0, 0.5, "decant, fill up, filter; not the standing between"),
    "drying": _minutes(10.0, 0.6, "spread, turn, weigh; not the waiting"),
    "grinding": _minutes(15.0, 0.6, "grind, sieve, into the jar, label"),
}
"""Minutes of a person's work for a batch; waiting is no work. Of `bed` and `other` nothing is believed."""
WORK_BATCH_SD: Final = Sourced(
    value=0.3, unit="1", source="bluewright-cost", low=0.15, high=0.5, grade="guess",
    note="log-sd of the minutes of one kind of work from batch to batch of one grower",
)  # fmt: skip
WATER_SD: Final = Sourced(
    value=0.05, unit="1", source="common-practice", low=0.03, high=0.1, grade="practice",
    note="log-sd of litres by bucket and mark",
)  # fmt: skip
ALKALI_SD: Final = Sourced(
    value=0.05, unit="1", source="common-practice", low=0.02, high=0.1, grade="practice",
    note="log-sd of an amount of alkali by kitchen scale or syringe, with what sticks and spills",
)  # fmt: skip
KIT_LIFE_SD: Final = Sourced(
    value=0.25, unit="1", source="bluewright-cost", low=0.1, high=0.4, grade="guess",
    note="log-sd of how long a tub or sieve lasts beside what was expected of it",
)  # fmt: skip
DRAWN_OFF_FRAC: Final = Sourced(
    value=0.3, unit="1", source="bluewright-cost", low=0.15, high=0.6, grade="guess",
    note="by how much the blue that cloth took from a vat is off, by dips and strength",
)  # fmt: skip
PUT_IN_OFF_FRAC: Final = Sourced(
    value=0.15, unit="1", source="bluewright-cost", low=0.05, high=0.3, grade="guess",
    note="the pure blue that went into a vat: mostly its purity",
)  # fmt: skip
BLUE_OFF_FRAC: Final = Sourced(
    value=0.2, unit="1", source="bluewright-cost", low=0.1, high=0.4, grade="guess",
    note="what a gram of pure blue costs, where it was reckoned elsewhere",
)  # fmt: skip
ALLOWANCE_FRAC: Final = Sourced(
    value=0.10, unit="1", source="common-practice", low=0.05, high=0.15, grade="practice",
    note="share of what is made that is never sold: spilt, given as swatches, kept back",
)  # fmt: skip

DRIFT_SD: Final = Sourced(
    value=0.03, unit="1", source="bluewright-cost", low=0.015, high=0.05, grade="guess",
    note="log-sd of a jar's mass by the damp it takes up or gives off: 3 to 10 % at the ends if not dried again",
)  # fmt: skip
DRIED_SD: Final = Sourced(
    value=0.005, unit="1", source="bluewright-cost", low=0.002, high=0.01, grade="guess",
    note="the same where it was dried like the first time",
)  # fmt: skip
MONTH_D: Final = Sourced(
    value=30.4375, unit="d", source="bluewright-cost", low=30.4375, high=30.4375, grade="exact",
    note="a twelfth of 365.25 days",
)  # fmt: skip


def _lost(centre: float, note: str) -> Prior:
    return Prior(
        kind="lognormal", centre=centre, spread=0.7, unit="1/month", source="bluewright-cost", grade="guess", note=note
    )


LOST_PER_MONTH: Final[dict[Kind, Prior]] = {
    "ammonia": _lost(0.03, "goes off at each opening; a loose cap empties a bottle in weeks"),
    "soda_ash": _lost(0.003, "takes up damp and carbon dioxide, slowly"),
    "washing_soda": _lost(0.05, "share of its crystals a month that lose their water: what is left grows stronger"),
    "potash": _lost(0.01, "draws water and cakes"),
    "lye": _lost(0.01, "draws water, then carbonates"),
    "potassium_lye": _lost(0.01, "draws water, then carbonates"),
    "slaked_lime": _lost(0.02, "turns to chalk in air; twice and more in an open bag"),
    "ash_lye": _lost(0.005, "carbonate already: it keeps"),
}
"""Share of its strength that an opened, reclosed pack loses in a month."""
WATER_OF_WASHING_SODA_FRAC: Final = Sourced(
    value=0.5667, unit="1", source="iupac-atomic-weights-2021", low=0.5666, high=0.5668, grade="exact",
    note="nine of ten waters: 9 x 18.015 / 286.14; the monohydrate stays",
)  # fmt: skip
USE_SD: Final = Sourced(
    value=0.3, unit="1", source="bluewright-cost", low=0.15, high=0.5, grade="guess",
    note="log-sd of the alkali that one batch takes beside another",
)  # fmt: skip
