"""From loose blue to what a white rag shows: a judgement, no measured law."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.dyeing.shade_record import Rub

WET_AT_ONE: Final = Sourced(
    value=2.5, unit="1", source="bluewright-dyeing", low=2.0, high=3.0, grade="guess",
    note="grade at 1 g of loose indigo on a kilogram: dark cotton commonly gets 2 to 3 wet, 3 to 4 dry",
)  # fmt: skip
PER_TENFOLD: Final = Sourced(
    value=1.5, unit="1", source="bluewright-dyeing", low=1.0, high=2.0, grade="guess",
    note="grades lost with ten times as much",
)  # fmt: skip
DRY_BETTER: Final = Sourced(
    value=1.0, unit="1", source="common-practice", low=0.5, high=1.5, grade="practice", note="dry over wet"
)
GRADE_SD: Final = Sourced(
    value=0.5, unit="1", source="common-practice", low=0.3, high=0.7, grade="practice",
    note="by which two people and two rags differ",
)  # fmt: skip
WORDS: Final[tuple[tuple[float, Rub], ...]] = ((4.25, "hardly"), (3.25, "little"), (2.25, "some"), (0.0, "much"))
"""From which wet grade each word holds."""


def wet_rub_grade(loose_g_per_kg: Floats, *, rng: np.random.Generator) -> Floats:
    """The grade of each draw: the scale ends at 5 and 1."""
    grade = WET_AT_ONE.value - PER_TENFOLD.value * np.log10(np.maximum(loose_g_per_kg, 1e-6))
    return np.clip(grade + GRADE_SD.value * rng.standard_normal(len(grade)), 1.0, 5.0)


def rub_of(stain_grade: float) -> Rub:
    """The word for a wet grade."""
    return next(word for least, word in WORDS if stain_grade >= least)
