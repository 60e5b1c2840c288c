"""Degree-days of a day from its coldest and warmest: warmth above a base, counted by one of five published rules.

Each rule is an area above the base; above an upper cut-off warmth counts no more (a horizontal cut-off), so that the
area above the cut-off is taken away. Sums by two rules must not be mixed: they differ by a tenth in spring.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final, Literal

import numpy as np

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats

Rule = Literal["average", "clipped", "triangle", "sine", "quarters"]
"""`average` of both less the base; `clipped`: the same, both first brought between base and cut-off; `triangle` and
`sine`: the area under a triangle or a sine through both; `quarters`: the fixed shares of the meteorological offices."""


def degree_days(
    min_c: Floats | float, max_c: Floats | float, *, base_c: float, cutoff_c: float | None = None, rule: Rule = "sine"
) -> Floats:
    """Degree-days of days with these extremes (shapes broadcast; `min_c` at most `max_c`), in C d, at least 0.

    Formula: A(base) - A(cutoff) with A the area above a level by the rule. Sources: `sine` Baskerville & Emin, Ecology
    50 (1969) 514; `triangle` Lindsey & Newman, Ecology 37 (1956) 812; `quarters` Met Eireann, accumulated temperatures.
    Raises InputError for a cut-off not above the base, and for one with `quarters`, which was published without.
    """
    if cutoff_c is not None and cutoff_c <= base_c:
        raise InputError(
            where="cutoff_c",
            what=f"{cutoff_c:g} C is not above the base of {base_c:g} C",
            right="give a warmer cut-off",
        )
    if cutoff_c is not None and rule == "quarters":
        raise InputError(
            where="cutoff_c", what="the rule of quarters has no upper cut-off", right="leave it out, or choose `sine`"
        )
    low, high = np.asarray(min_c, dtype=float), np.asarray(max_c, dtype=float)
    if rule == "clipped":
        return _mean(*(np.clip(each, base_c, cutoff_c) for each in (low, high))) - base_c
    found = _ABOVE[rule](low, high, base_c)
    return found if cutoff_c is None else np.maximum(found - _ABOVE[rule](low, high, cutoff_c), 0.0)


def _mean(low: Floats, high: Floats) -> Floats:
    return np.asarray((low + high) / 2)


def _average(low: Floats, high: Floats, level_c: float) -> Floats:
    return np.maximum(_mean(low, high) - level_c, 0.0)


def _triangle(low: Floats, high: Floats, level_c: float) -> Floats:
    """(max - level)^2 / (2 (max - min)) where the level lies between the two."""
    between = (high - level_c) ** 2 / (2 * np.maximum(high - low, 1e-12))
    return _by_place(low, high, level_c, between)


def _sine(low: Floats, high: Floats, level_c: float) -> Floats:
    """((mean - level)(pi/2 - q) + a cos q) / pi with a the half range and sin q = (level - mean) / a."""
    mean, half = _mean(low, high), np.maximum((high - low) / 2, 1e-12)
    q = np.arcsin(np.clip((level_c - mean) / half, -1.0, 1.0))
    return _by_place(low, high, level_c, ((mean - level_c) * (np.pi / 2 - q) + half * np.cos(q)) / np.pi)


def _quarters(low: Floats, high: Floats, level_c: float) -> Floats:
    """(max - level)/2 - (level - min)/4 where the mean is above the level, (max - level)/4 where it is below."""
    above = (high - level_c) / 2 - (level_c - low) / 4
    return _by_place(low, high, level_c, np.where(_mean(low, high) >= level_c, above, (high - level_c) / 4))


def _by_place(low: Floats, high: Floats, level_c: float, between: Floats) -> Floats:
    """The whole mean above a level below both, nothing above a level over both, else `between`."""
    return np.where(low >= level_c, _mean(low, high) - level_c, np.where(high <= level_c, 0.0, between))


_ABOVE: Final[Mapping[str, Callable[[Floats, Floats, float], Floats]]] = {
    "average": _average, "triangle": _triangle, "sine": _sine, "quarters": _quarters,
}  # fmt: skip
