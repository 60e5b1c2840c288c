"""What is believed of work, room and time of a season before own figures are given."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.sourced import Sourced

CUT_H_PER_KG: Final = Sourced(
    value=0.15, unit="h/kg", source="common-practice", low=0.04, high=0.4, grade="guess",
    note="one person cutting by hand and stripping leaf from stems",
)  # fmt: skip
FILL_H: Final = Sourced(
    value=0.5, unit="h", source="common-practice", low=0.2, high=1.0, grade="guess", note="leaf and water into one tub"
)
LOOK_H: Final = Sourced(
    value=0.1, unit="h", source="common-practice", low=0.05, high=0.25, grade="guess", note="one look at one tub a day"
)
STRAIN_H: Final = Sourced(
    value=1.5, unit="h", source="common-practice", low=0.7, high=3.0, grade="guess",
    note="one tub strained, made alkaline and aired",
)  # fmt: skip
WASH_H: Final = Sourced(
    value=1.5, unit="h", source="common-practice", low=0.5, high=3.0, grade="guess",
    note="one tub's blue decanted, washed, filtered, spread and weighed, all together",
)  # fmt: skip
WASH_WAIT_D: Final = Sourced(
    value=7.0, unit="d", source="common-practice", low=3.0, high=10.0, grade="guess",
    note="within so many days after straining the washes are done; wet blue spoils slowly",
)  # fmt: skip
WASH_D: Final = Sourced(
    value=3.0, unit="d", source="common-practice", low=2.0, high=5.0, grade="practice",
    note="from straining to the tray: settling and washes",
)  # fmt: skip
DRY_D: Final = Sourced(
    value=6.0, unit="d", source="common-practice", low=3.0, high=10.0, grade="practice", note="on the tray"
)
REST_D: Final = Sourced(
    value=1.0, unit="d", source="common-practice", low=0.0, high=3.0, grade="guess",
    note="a tub stays taken after straining: air, settling, scrubbing",
)  # fmt: skip
LEAF_KG_PER_L: Final = Sourced(
    value=0.10, unit="kg/L", source="common-practice", low=0.05, high=0.2, grade="practice",
    note="leaf that a tub takes, of what it holds",
)  # fmt: skip
TRAY_M2_PER_KG: Final = Sourced(
    value=0.03, unit="m2/kg", source="common-practice", low=0.01, high=0.08, grade="guess",
    note="tray for the blue of a kilogram of leaf: some 80 g of paste, 3 mm thick",
)  # fmt: skip
LATE_FRAC: Final = Sourced(
    value=0.5, unit="1", source="common-practice", low=0.2, high=0.9, grade="guess",
    note="what a gram is worth that no want gets in time, against one that comes in time",
)  # fmt: skip
EXTRA_G_PER_H: Final = Sourced(
    value=0.5, unit="g/h", source="common-practice", low=0.1, high=5.0, grade="guess",
    note="grams that an hour beyond the free ones must bring",
)  # fmt: skip
TUB_G: Final = Sourced(
    value=0.3, unit="g", source="common-practice", low=0.05, high=2.0, grade="guess",
    note="grams that filling one tub more must bring",
)  # fmt: skip
MOVE_FRAC_PER_D: Final = Sourced(
    value=0.02, unit="1/d", source="common-practice", low=0.0, high=0.1, grade="guess",
    note="share of its blue that it must bring to move a cut by a day that was planned for this week",
)  # fmt: skip
NIGHT_H: Final = Sourced(
    value=18.0, unit="h", source="common-practice", low=12.0, high=24.0, grade="guess",
    note="leaf that waits for the next day waits so long",
)  # fmt: skip
MOST_CUTS: Final = Sourced(
    value=4.0, unit="1", source="bluewright-bed", low=2.0, high=6.0, grade="practice", note="cuts of a bed in a year"
)
EARLY_FACTOR: Final = Sourced(
    value=0.85, unit="1", source="bluewright-bed", low=0.7, high=0.95, grade="guess",
    note="of the warmth to a ready cut; before it no cut is planned",
)  # fmt: skip
