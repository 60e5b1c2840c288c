"""Conditioning standard scores on readings: an ensemble moved towards the data in two gentle steps.

Nothing here knows of liquor. A model turns scores z (prior: independent standard normals) and noise of the readings
(independent standard normals too) into quantities that are known to be `value`. The ensemble smoother with several
assimilations (Emerick & Reynolds 2013) uses the readings several times, each time with noise so much larger that
together they count once; each member moves along the covariance of scores and quantities. Exact for a linear model;
here it is held against simulated liquors by the tests.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import numpy as np

from bluewright.science.base.errors import ModelError
from bluewright.science.base.sourced import Floats

Foretell = Callable[[Floats, Floats], Floats]
"""From scores (d, members) and noise (readings, members) to the quantities foretold, (readings, members)."""

INFLATIONS: Final = (3.0, 1.5)
"""What each assimilation multiplies the variance of a reading by; the inverses add to 1."""
LEAST_VARIANCE: Final = 1e-6
"""Added to the variance of every quantity, so that two equal readings can be inverted."""
FARTHEST_MEAN, FARTHEST_MEMBER = 6.0, 14.0
"""Prior standard deviations beyond which neither the mean of a score nor any member of it is believed."""


def condition(foretell: Foretell, *, prior_z: Floats, value: Floats, rng: np.random.Generator) -> tuple[Floats, float]:
    """Scores of members for which the quantities are as `value` (shape (readings,)), noise allowed for.

    Formula, for each inflation a: z += C_zg C_gg^-1 (value - g(z, sqrt(a) e)), C being covariances over the members
    (so that C_gg holds the noise) and e fresh standard normals. Returns the scores, of the shape of `prior_z`
    (d, members), and the largest misfit before the last move, in standard deviations of a reading.
    Raises ModelError where the readings lie farther from all that is believed than that.
    Source: Emerick & Reynolds 2013, Computers & Geosciences 55, 3, equations 6 to 9.
    """
    z, worst = prior_z, 0.0
    count, members = len(value), z.shape[1]
    for inflation in INFLATIONS:
        foretold = foretell(z, np.sqrt(inflation) * rng.standard_normal((count, members)))
        middle = np.mean(foretold, axis=1)
        apart = foretold - middle[:, None]
        spread = apart @ apart.T / (members - 1) + LEAST_VARIANCE * np.eye(count)
        cross = (z - np.mean(z, axis=1, keepdims=True)) @ apart.T / (members - 1)
        z = z + cross @ np.linalg.solve(spread, value[:, None] - foretold)
        worst = float(np.max(np.abs(value - middle) / np.sqrt(np.diag(spread) / inflation)))
        if np.max(np.abs(np.mean(z, axis=1))) > FARTHEST_MEAN or np.max(np.abs(z)) > FARTHEST_MEMBER:
            raise ModelError(
                "no liquor like those that are known could show these readings; check each amount with its unit, "
                "the size of the sample, the strength of the alkali and the pH"
            )
    return z, worst
