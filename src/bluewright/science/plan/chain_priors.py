"""What is believed of the days of each step, of cuts, and of figures that a grower types as their own."""

from __future__ import annotations

import math
from typing import Final

from bluewright.science.base.bands import NINETY_Z
from bluewright.science.base.sourced import Prior, Sourced
from bluewright.science.media.basket import Plant
from bluewright.science.plan.chain_record import SteepKind, VatKind


def _days(low: float, high: float, *, note: str = "") -> Prior:
    """A log-normal of days whose nine tenths lie between two bounds."""
    return Prior(
        kind="lognormal", centre=math.sqrt(low * high), spread=math.log(high / low) / (2 * NINETY_Z), unit="d",
        source="common-practice", grade="practice", note=note or f"{low:g} to {high:g} days",
    )  # fmt: skip


STEEP_D: Final[dict[SteepKind, Prior]] = {"hot": _days(0.7, 1.4, note="a day"), "cold": _days(1, 4)}
"""Days in the tub, with straining, alkali and air."""
WASH_D: Final = _days(2, 5)
"""Days to settle and wash."""
DRY_D: Final = _days(3, 10)
"""Days to dry and grind."""
VAT_D: Final[dict[VatKind, Prior]] = {
    "quick": _days(0.5, 2.0, note="a day"),
    "ferment": _days(6, 20, note="7 to 14, up to 30"),
}
"""Days until a new vat dyes."""
SECOND_YEAR_BLUE_FRAC: Final = Prior(
    kind="lognormal", centre=0.5, spread=0.5, unit="1", source="common-practice", grade="guess",
    note="blue in a kilogram of woad leaf before stems rise in the second year, beside the first; nobody measured it",
)  # fmt: skip
FINISH_D: Final = _days(3, 7)
"""Days to rinse, soap and dry, and to rest."""
DIPS_A_DAY: Final = Prior(
    kind="lognormal", centre=3.0, spread=0.35, unit="1/d", source="common-practice", grade="guess",
    note="two to six: each dip is aired before the next, and the vat rests",
)  # fmt: skip

CUTS: Final[dict[Plant, Sourced]] = {
    "woad": Sourced(
        value=3.0, unit="1", source="fwi-woad", low=2.0, high=3.0, grade="measured", note="July to late autumn"
    ),
    "japanese_indigo": Sourced(
        value=3.0, unit="1", source="angelini-2004", low=2.0, high=3.0, grade="measured", note="two in Austria"
    ),
    "indigofera": Sourced(
        value=3.0, unit="1", source="common-practice", low=2.0, high=4.0, grade="practice", note="four in the tropics"
    ),
}
"""Cuts of a season, where no weather tells how many come in time: drawn evenly from low to high."""
LEAF_KG_PER_L: Final = Sourced(
    value=0.15, unit="kg/L", source="common-practice", low=0.1, high=0.25, grade="practice",
    note="fresh leaf to a litre of water",
)  # fmt: skip
OWN_SHARE_SD: Final = Sourced(
    value=0.25, unit="1", source="common-practice", low=0.1, high=0.5, grade="guess",
    note="sd of the logit of a share that was typed as one's own: 0.70 is meant as 0.65 to 0.75",
)  # fmt: skip
FIRST_CUT_DAY: Final = Sourced(
    value=135.0, unit="d", source="common-practice", low=120.0, high=160.0, grade="guess",
    note="northern day of the year before which nothing sown in the same year is cut",
)  # fmt: skip
SOWING_OPENS: Final[dict[Plant, Sourced]] = {
    "woad": Sourced(
        value=74.0, unit="d", source="common-practice", low=60.0, high=91.0, grade="practice", note="mid March"
    ),
    "japanese_indigo": Sourced(
        value=121.0,
        unit="d",
        source="common-practice",
        low=105.0,
        high=140.0,
        grade="practice",
        note="after the frosts",
    ),
    "indigofera": Sourced(
        value=121.0,
        unit="d",
        source="common-practice",
        low=105.0,
        high=150.0,
        grade="practice",
        note="after the frosts",
    ),
}
"""Northern day of the year from which it is sown or planted in the open."""
