"""The next most telling reading: by how much is each expected to lessen the loss?

For a reading that could be taken now, every outcome y has a chance in each member. Had y been seen, the members
would be reweighted and another moment might lose less. The worth of the reading is

    sum over y of  max over moments of E[share, y]   -   max over moments of E[share]

which is never negative: the expected value of sample information (Raiffa and Schlaifer 1961, key raiffa-1961).
Continuous readings are cut into bins, which gives exactly the worth of a reading rounded to the bin.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.steep.decide import Decision
from bluewright.science.steep.ensemble import Ensemble, cue, measured, noticed
from bluewright.science.steep.kinetics import Course
from bluewright.science.steep.numbers import NUMBERS, NumberName
from bluewright.science.steep.signs import SIGNS, level_chances

OFFERED_NUMBERS: Final[tuple[NumberName, ...]] = ("ph", "temp_c", "dissolved_oxygen_mg_l", "dye_index")
BINS: Final = 14
JUST_READ_H: Final = 0.25
"""A reading taken this short a time ago is not asked for again."""


def worths(ensemble: Ensemble, course: Course, decision: Decision) -> list[tuple[str, float]]:
    """Each reading that could be taken now with its worth (share of the best), the most telling first."""
    setting, z = ensemble.setting, ensemble.population.z
    now = course.at([setting.row(setting.record.now)])
    recent = _just_read(ensemble)
    found: list[tuple[str, float]] = []
    for sign, model in SIGNS.items():
        if sign not in recent:
            chances = level_chances(cue(setting, z, now, sign)[0], model)
            found.append((sign, _worth(chances, ensemble.weights, decision)))
    for number in OFFERED_NUMBERS:
        if number not in recent:
            mean = NUMBERS[number].mean(now, setting.column(z, number))[0]
            chances = _binned(mean, NUMBERS[number].scatter(mean, None), ensemble.weights)
            found.append((number, _worth(chances, ensemble.weights, decision)))
    return sorted(found, key=lambda pair: -pair[1])


def _worth(chances: Floats, weights: Floats, decision: Decision) -> float:
    """Worth of a reading with outcome chances (n, outcomes)."""
    joint = weights[:, None] * chances
    informed = (decision.share_frac @ joint).max(axis=0).sum()
    return max(0.0, float(informed - decision.expected_frac.max()))


def _binned(mean: Floats, sd: Floats, weights: Floats) -> Floats:
    """Chances (n, BINS) of each bin of a normal reading; the bins span the predictive distribution evenly."""
    order = np.argsort(mean)
    spread = np.interp(np.linspace(0, 1, BINS - 1), np.cumsum(weights[order]), mean[order])
    middle = float(np.median(sd))
    edges = np.linspace(spread[0] - 1.5 * middle, spread[-1] + 1.5 * middle, BINS - 1)
    below = _normal_below((edges - mean[:, None]) / sd[:, None])
    padded = np.concatenate([np.zeros((len(mean), 1)), below, np.ones((len(mean), 1))], axis=1)
    return np.diff(padded, axis=1)


def _normal_below(score: Floats) -> Floats:
    """The standard normal distribution function, by the logistic approximation good to 2e-4.

    Source: Bowling et al. 2009, J. Ind. Eng. Manag. 2, 114 (key bowling-2009); chances of bins need no more.
    """
    return 1.0 / (1.0 + np.exp(-np.clip(1.5976 * score + 0.07056 * score**3, -60, 60)))


def _just_read(ensemble: Ensemble) -> set[str]:
    record = ensemble.setting.record
    fresh = [r for r in record.readings if (record.now - r.time).total_seconds() <= JUST_READ_H * 3600]
    return {name for reading in fresh for name in (*noticed(reading), *measured(reading))}
