"""Conditioning standard scores on readings: an ensemble moved towards the data in a few gentle steps.

Nothing here knows of liquor. A model turns scores z (prior: independent standard normals) into foretold readings. The
ensemble smoother with several assimilations (Emerick & Reynolds 2013) uses the readings several times, each time
with their variance multiplied so that together they count once; each member moves along the covariance of scores
and foretold readings. Exact for a linear model; here it is held against simulated liquors by the tests.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats

Foretell = Callable[[Floats], Floats]
"""From scores of shape (d, members) to foretold readings of shape (readings, members)."""

INFLATIONS: Final = (4.0, 3.0, 2.4)
"""What each assimilation multiplies the variance of a reading by; the inverses add to 1."""


def condition(
    foretell: Foretell, *, prior_z: Floats, read_ph: Floats, reading_sd: float, rng: np.random.Generator
) -> tuple[Floats, float]:
    """Scores of members that agree with the `read_ph` readings (shape (readings,)) of standard deviation `reading_sd`.

    Formula, for each inflation a: z += C_zg (C_gg + a sd^2 I)^-1 (read_ph + sqrt(a) sd e - g(z)), C being covariances
    over the members and e fresh standard normals. Returns the scores, of the shape of `prior_z` (d, members), and the
    largest misfit of a reading, in `reading_sd`, before the last move.
    Source: Emerick & Reynolds 2013, Computers & Geosciences 55, 3, equations 6 to 9.
    """
    z, worst = prior_z, 0.0
    members = z.shape[1]
    for inflation in INFLATIONS:
        foretold = foretell(z)
        middle = np.mean(foretold, axis=1, keepdims=True)
        apart = foretold - middle
        spread = apart @ apart.T / (members - 1) + inflation * reading_sd**2 * np.eye(len(read_ph))
        cross = (z - np.mean(z, axis=1, keepdims=True)) @ apart.T / (members - 1)
        noise = np.sqrt(inflation) * reading_sd * rng.standard_normal(foretold.shape)
        z = z + cross @ np.linalg.solve(spread, read_ph[:, None] + noise - foretold)
        worst = float(np.max(np.abs(read_ph - middle[:, 0]))) / reading_sd
    return z, worst
