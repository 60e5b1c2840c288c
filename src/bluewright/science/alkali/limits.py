"""What an alkali cannot do: targets out of its reach, and where it becomes dear."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from bluewright.science.alkali.priors import UNREAD_TEMP_C
from bluewright.science.alkali.record import LiquorRecord
from bluewright.science.alkali.titrant import ROOM_C, titrant
from bluewright.science.base.bands import significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.errors import ModelError
from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.media.alkalis import KINDS
from bluewright.science.media.calcite import NEAR_LIME_PH, lime_solubility_g_per_l, lime_water_ph

STRONGEST_MOL_PER_L: Final = Sourced(
    value=0.15, unit="mol/L", source="davies-1962", low=0.1, high=0.2, grade="guess",
    note="of soda or lye in the liquor: 16 or 6 g/L; beyond lies a brine for which the activities do not hold",
)  # fmt: skip
"""More than this of a salt or lye is no longer a dose."""

AMMONIA_DEAR_PH: Final = Sourced(
    value=10.3, unit="1", source="bates-pinching-1949", low=9.8, high=10.8, grade="guess",
    note="a whole unit above the pK: nine tenths of what is added stays free gas",
)  # fmt: skip
AMMONIA_WARM: Final = Sourced(
    value=30.0, unit="C", source="bates-pinching-1949", low=25.0, high=40.0, grade="guess",
    note="where the dose has grown to about twice that of a liquor at 18 C",
)  # fmt: skip


def ceiling(record: LiquorRecord) -> float:
    """The most of this alkali that makes sense, in its own unit.

    Formula: of a solution as much again as the liquor; and of every alkali but ammonia `STRONGEST_MOL_PER_L`.
    """
    strongest = math.inf
    if record.alkali.kind != "ammonia":
        strongest = STRONGEST_MOL_PER_L.value * record.liquor_l / titrant(record.alkali).nominal_mol
    return min(strongest, 1000.0 * record.liquor_l) if record.alkali.unit == "ml" else strongest


def check_reachable(record: LiquorRecord, amount: Floats, ceiling: float) -> None:
    """Raises ModelError if the alkali cannot bring most possible liquors (`amount`: their doses) to the target."""
    words = KINDS[record.alkali.kind].words
    if record.alkali.kind == "slaked_lime" and record.target_ph > lime_water_ph(_temp_c(record)) - NEAR_LIME_PH:
        raise ModelError(
            f"slaked lime cannot reach pH {record.target_ph:g} at {_temp_c(record):g} C: saturated lime water itself "
            f"stands at about {lime_water_ph(_temp_c(record)):.1f}; choose a lower target_ph"
        )
    if _share_beyond(amount, ceiling) > 0.5:
        raise ModelError(
            f"{words} as given cannot bring this liquor to pH {record.target_ph:g}: it would take more than "
            f"{significant(ceiling, 2):,.0f} {record.alkali.unit}; choose a lower target_ph, a stronger solution or "
            "another alkali"
        )


def limits(record: LiquorRecord, amount: Floats, ceiling: float) -> tuple[Caution, ...]:
    """What this alkali cannot do in this liquor, in words with this case's figures."""
    found = []
    beyond = _share_beyond(amount, ceiling)
    if beyond > 0.0:
        found.append(
            caution(
                "may-not-reach",
                f"In {100 * beyond:.0f} of 100 possible liquors even {significant(ceiling, 2):,.0f} "
                f"{record.alkali.unit} would not reach pH {record.target_ph:g}.",
            )
        )
    kind = record.alkali.kind
    if kind in {"soda_ash", "washing_soda", "potash", "ash_lye"}:
        found.append(
            caution(
                "soda-ceiling",
                "Carbonates buffer: up to pH 10 a little does it, near pH 11 each tenth of a pH takes far more, and "
                "they do not pass about 11.5. Baking soda cannot stand in for them: it stops near pH 8.3.",
            )
        )
    if record.alkali.unit == "g" and KINDS[kind].solubility_by_c:
        found.append(_dissolve(record, float(np.median(amount))))
    if kind == "slaked_lime":
        found.append(_lime(record))
    if kind == "ammonia":
        found += _ammonia(record)
    if record.alkali.unit == "ml" and np.median(amount) > 100.0 * record.liquor_l:
        found.append(
            caution(
                "dilutes",
                f"The dose is {np.median(amount) / 10.0 / record.liquor_l:.0f}% of the liquor and dilutes it.",
            )
        )
    return tuple(found)


def _dissolve(record: LiquorRecord, grams: float) -> Caution:
    water_l = grams / KINDS[record.alkali.kind].solubility_g_per_l(ROOM_C)
    return caution(
        "dissolve-first",
        f"Dissolve it first: {significant(grams, 2):g} g take at least {significant(water_l, 2):g} L of water at "
        f"{ROOM_C:g} C; grains on the bottom of the tub read as no pH at all.",
        source="seidell-1940",
    )


def _lime(record: LiquorRecord) -> Caution:
    temp_c = _temp_c(record)
    return caution(
        "lime-solubility",
        f"A litre of water at {temp_c:g} C dissolves about {lime_solubility_g_per_l(temp_c):.1f} g of slaked lime and "
        f"then stands near pH {lime_water_ph(temp_c):.1f}; what is more lies on the bottom and reads as no pH at all "
        "until it is stirred up.",
        source="seidell-1940",
    )


def _ammonia(record: LiquorRecord) -> list[Caution]:
    found = []
    if record.target_ph > AMMONIA_DEAR_PH.value:
        found.append(
            caution(
                "ammonia-ceiling",
                "Above pH 10 every third of a pH with ammonia takes twice as much, most of it free gas. "
                "For such a target soda or lye serve better.",
            )
        )
    if _temp_c(record) > AMMONIA_WARM.value:
        found.append(
            caution(
                "warm-ammonia",
                f"At {_temp_c(record):g} C ammonia is a weaker base and leaves faster: the dose is several times that "
                "of a cold liquor. Let it cool, or use soda.",
                source="bates-pinching-1949",
            )
        )
    return found


def _share_beyond(amount: Floats, ceiling: float) -> float:
    return float(np.mean(~(amount <= ceiling)))


def _temp_c(record: LiquorRecord) -> float:
    return UNREAD_TEMP_C.centre if record.temp_c is None else record.temp_c
