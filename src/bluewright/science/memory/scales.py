"""Scores as the quantities they stand for: a parameter on its prior, a sign or an instrument as its slant."""

from __future__ import annotations

import numpy as np

from bluewright.science.base.bands import NINETY_Z, Band, significant
from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.basket import Plant
from bluewright.science.media.precursor import CONTENT
from bluewright.science.memory.shares import KEPT_NAME
from bluewright.science.pigment.priors import KEPT
from bluewright.science.steep.priors import priors_of
from bluewright.science.steep.record import CONTENT_NAME
from bluewright.science.steep.signs import SIGNS


def scale_of(plant: Plant, name: str) -> tuple[Prior | None, str]:
    """The prior on which a score stands, and its unit; signs slant by levels, instruments by errors."""
    priors = priors_of(plant) | {CONTENT_NAME: CONTENT[plant], KEPT_NAME: KEPT}
    if name in priors:
        return priors[name], priors[name].unit
    return None, "level" if name in SIGNS else "sd"


def on_scale(plant: Plant, name: str, mean_z: float, sd_z: float) -> Band:
    """A normal score as the quantity it stands for."""
    prior, _ = scale_of(plant, name)
    scores_z = mean_z + sd_z * np.array([-NINETY_Z, 0.0, NINETY_Z])
    return _band(_step(name) * scores_z if prior is None else prior.from_z(scores_z))


def differs(plant: Plant, name: str, mean_z: float, sd_z: float) -> Band:
    """A normal difference of scores as a factor; as a step where the scale is a plain one."""
    prior, _ = scale_of(plant, name)
    moved_z = mean_z + sd_z * np.array([-NINETY_Z, 0.0, NINETY_Z])
    if prior is None:
        return _band(_step(name) * moved_z)
    return _band(prior.spread * moved_z if prior.kind == "normal" else prior.from_z(moved_z) / prior.centre)


def _step(name: str) -> float:
    """What one score of a sign's slant is in levels, by the mean distance between its cuts; 1 for an instrument."""
    return next(
        (2 * sign.offset_sd / (sign.cuts[2] - sign.cuts[0]) for known, sign in SIGNS.items() if known == name), 1.0
    )


def _band(values: Floats) -> Band:
    low, middle, high = (significant(float(value)) for value in values)
    return Band(p5=low, p50=middle, p95=high)
