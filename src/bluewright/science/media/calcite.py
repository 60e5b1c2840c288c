"""Chalk that falls when hard or limed water is made alkaline: its solubility, and that of slaked lime itself."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Sourced
from bluewright.science.base.validity import Studied
from bluewright.science.media.acids import pkw
from bluewright.science.media.activity import davies, debye_slope

CALCITE_G_PER_MOL: Final = Sourced(
    value=100.09, unit="g/mol", source="iupac-atomic-weights-2021", low=100.08, high=100.09, grade="exact"
)
LIME_G_PER_MOL: Final = Sourced(
    value=74.09, unit="g/mol", source="iupac-atomic-weights-2021", low=74.09, high=74.10, grade="exact"
)

ACETIC_G_PER_MOL: Final = Sourced(
    value=60.05, unit="g/mol", source="iupac-atomic-weights-2021", low=60.05, high=60.06, grade="exact"
)
VINEGAR_PERCENT: Final = Sourced(
    value=5.0, unit="%", source="common-practice", low=4.0, high=10.0, grade="practice",
    note="household vinegar: grams of acetic acid in 100 mL",
)  # fmt: skip
VINEGAR_ML_PER_G_CALCITE: Final = (
    1000.0 * 2.0 / CALCITE_G_PER_MOL.value / (10.0 * VINEGAR_PERCENT.value / ACETIC_G_PER_MOL.value)
)
"""Household vinegar that dissolves a gram of chalk: two acids for each, 24 mL."""

CALCITE: Final = tuple(
    Sourced(value=value, unit=unit, source="plummer-busenberg-1982", low=value, high=value, grade="memory")
    for value, unit in ((-171.9065, "1"), (-0.077993, "1/K"), (2839.319, "K"), (71.595, "1"))
)
"""log10 of the solubility product of calcite = a + b T + c/T + d log10 T; -8.48 at 25 C."""

PAIR: Final = tuple(
    Sourced(value=value, unit=unit, source="plummer-busenberg-1982", low=value, high=value, grade="memory")
    for value, unit in ((-1228.732, "1"), (-0.299444, "1/K"), (35512.75, "K"), (485.818, "1"))
)
"""log10 of the constant of the dissolved pair of calcium and carbonate, the same formula; 3.22 at 25 C."""

_LIME = ((0.0, 1.85), (10.0, 1.76), (20.0, 1.65), (30.0, 1.53), (40.0, 1.41), (60.0, 1.16), (70.0, 1.06))

LIME_SOLUBILITY: Final = {
    temp: Sourced(
        value=grams, unit="g/L", source="seidell-1940", low=0.95 * grams, high=1.06 * grams, grade="measured",
        note="handbooks differ by about 5 %; some pages print a tenth of it, by a slip",
    )
    for temp, grams in _LIME
}  # fmt: skip
"""Slaked lime that dissolves in a litre of water, by temperature (C)."""

NEAR_LIME_PH: Final = 0.1
"""So close to the pH of saturated lime water a target counts as out of reach: the last step takes the whole sack."""

STUDIED_C: Final = Studied(low=0.0, high=70.0, unit="C", source="seidell-1940")


def lime_solubility_g_per_l(temp_c: float) -> float:
    """Slaked lime that dissolves in pure water, g/L: less when warm.

    Formula: straight lines between the rows of `LIME_SOLUBILITY`; the end rows hold outside 0 to 70 C.
    Source: Seidell 1940 and the handbooks after it.
    """
    return float(np.interp(temp_c, list(LIME_SOLUBILITY), [row.value for row in LIME_SOLUBILITY.values()]))


def lime_water_ph(temp_c: float) -> float:
    """pH of water saturated with slaked lime: about 12.5 at 25 C, higher when cold.

    Formula: pKw + log10(2 s g), s the solubility in mol/L, g the activity coefficient at ionic strength 3 s.
    Source: Seidell 1940 for the solubility; the pair CaOH+ is left out, which reads some 0.07 too high.
    """
    dissolved = lime_solubility_g_per_l(temp_c) / LIME_G_PER_MOL.value
    return pkw(temp_c) + math.log10(2.0 * dissolved) - davies(3.0 * dissolved, slope=debye_slope(temp_c))


def undissolved_lime_g(added_g: float, *, liquor_l: float, temp_c: float | None = None) -> float:
    """Slaked lime that stays as such on the bottom, g: what was added beyond what the liquor can dissolve.

    Formula: added - solubility x volume, never below none; at 20 C if the temperature is unknown. What acids of the
    liquor use up is not counted, so that rather too much is expected to stay.
    """
    return max(added_g - lime_solubility_g_per_l(20.0 if temp_c is None else temp_c) * liquor_l, 0.0)
