"""Which further rungs of a ladder teach most: expected information, the draws taken as normal.

Each candidate is a swatch with so many dips, measured as the others and scattering as pieces do. Its gain is the
mutual information between its three numbers and all that the draws do not agree on; what is chosen is conditioned on,
and the next one counts on it. Source: linear-Gaussian experimental design, by algebra.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.base.bands import NINETY_Z, significant
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.compare import spread_of
from bluewright.science.colour.compare_record import Colour
from bluewright.science.colour.priors import Taken
from bluewright.science.dyeing.ladder_record import NextRung
from bluewright.science.dyeing.priors import REPEAT_SD

CHOSEN: Final = 4
"""Rungs that are planned ahead."""
LIGHT_PER_DEPTH: Final = 13.0
"""L* by which a piece darkens when its depth grows to 2.7 times: at medium depths (from the colour of the model)."""


def half_range(light: Floats) -> float:
    """Plus or minus that holds nine in ten of L*, the mean over the dips; shape (n, dips)."""
    return float(NINETY_Z * np.mean(np.std(light, axis=0)))


def planned(lab: Floats, *, taken: Taken) -> tuple[NextRung, ...]:
    """The rungs that teach most, one after the other, from draws of Lab after each number of dips, (n, dips, 3)."""
    dips = lab.shape[1]
    covariance = np.cov(lab.reshape(len(lab), -1), rowvar=False)
    noise = _noise(taken)
    found = []
    for _ in range(min(CHOSEN, dips)):
        gains = [_bits(covariance, k, noise) for k in range(dips)]
        best = int(np.argmax(gains))
        covariance = _given(covariance, best, noise)
        light = np.sqrt(np.maximum(np.diag(covariance)[::3], 0.0))
        found.append(
            NextRung(
                dips=best + 1, bits=significant(gains[best], 3),
                half_range_l_star=significant(float(NINETY_Z * np.mean(light)), 3),
            )
        )  # fmt: skip
    return tuple(found)


def _noise(taken: Taken) -> Floats:
    """Covariance of one swatch's Lab about what is believed of such: measuring, and the piece's own scatter."""
    sd = spread_of(Colour(lab=(50.0, 0.0, 0.0)), taken)
    along = np.array([LIGHT_PER_DEPTH * REPEAT_SD.value, 0.0, 0.0])
    return np.asarray(np.diag(sd**2) + np.outer(along, along))


def _bits(covariance: Floats, k: int, noise: Floats) -> float:
    """Half the logarithm (base 2) of how much larger the spread is than the noise alone."""
    own = covariance[3 * k : 3 * k + 3, 3 * k : 3 * k + 3]
    return float(0.5 * (np.linalg.slogdet(own + noise)[1] - np.linalg.slogdet(noise)[1]) / np.log(2.0))


def _given(covariance: Floats, k: int, noise: Floats) -> Floats:
    """The covariance once that swatch is known (Schur's complement)."""
    part = covariance[:, 3 * k : 3 * k + 3]
    return np.asarray(covariance - part @ np.linalg.solve(part[3 * k : 3 * k + 3] + noise, part.T))
