"""How far a measured colour may be from the true one, part by part; never from the pixels alone."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.colour.spaces import lab_of_linear
from bluewright.science.photo.correction import Correction
from bluewright.science.photo.priors import METHOD_SD, SHOT_SD, VEIL_FRAC, Light, values
from bluewright.science.photo.record import Part, What, rounded_lab
from bluewright.science.photo.references import References
from bluewright.science.photo.region import Region

RESAMPLES: Final = 100
CARD_SHARE: Final = 0.5
"""Of what held-out patches are off by, cloth between them is off by about so much (the study of the docs page)."""


def parts_of(
    part: Region,
    known: References,
    correction: Correction | None,
    *,
    lab: Floats,
    light: Light,
    rng: np.random.Generator,
) -> tuple[Part, ...]:
    """The parts of the spread of one sample of colour `lab`."""
    method = "none" if correction is None else correction.method
    found = [
        _part("shots", values(SHOT_SD[method])),
        _part("method", values(METHOD_SD[light][method])),
        _part("region", _of_region(part, known, correction, rng=rng)),
    ]
    if correction is not None:
        found.append(_part("white", _of_white(part, known, correction, lab=lab)))
        if correction.method in {"matrix", "root"}:
            found.append(_part("card", np.full(3, CARD_SHARE * correction.fit_de / np.sqrt(3))))
    if not known.veil.any() and len(known.light) < 4:
        found.append(_part("veil", _of_veil(part, known, correction, lab=lab)))
    return tuple(each for each in found if any(each.lab_sd))


def total_sd(parts: Sequence[Part]) -> Floats:
    """The standard deviation of all parts together, shape (3,)."""
    return np.asarray(np.sqrt(np.sum(np.array([each.lab_sd for each in parts]) ** 2, axis=0)))


def repeated_sd(parts: Sequence[Part]) -> Floats:
    """That of the parts that are new in each photo, shape (3,)."""
    return total_sd([each for each in parts if each.what in {"shots", "region"}])


def lab_of(light: Floats, correction: Correction | None, *, known: References) -> Floats:
    """L*, a*, b* of light, shape (..., 3), with or without a correction."""
    if correction is None:
        return lab_of_linear(np.maximum(light, 0.0), space=known.space)
    return correction.lab(light)


def _part(what: What, lab_sd: Floats) -> Part:
    return Part(what=what, lab_sd=rounded_lab(lab_sd, decimals=3))


def _of_region(part: Region, known: References, correction: Correction | None, *, rng: np.random.Generator) -> Floats:
    """Spread of the mean over blocks drawn anew with replacement, each as often as chance has it."""
    blocks = known.lightened(part)
    count = len(blocks)
    if count < 2:
        return np.zeros(3)
    times = rng.multinomial(count, np.full(count, 1 / count), size=RESAMPLES) * part.block_points
    means = times @ blocks / times.sum(axis=1, keepdims=True)
    return np.asarray(lab_of(means, correction, known=known).std(axis=0))


def _of_white(part: Region, known: References, correction: Correction, *, lab: Floats) -> Floats:
    """What the references' own colours leave open: each moved by its standard deviation, one coordinate at a time."""
    total = np.zeros(3)
    for k, c in zip(*np.nonzero(known.lab_sd), strict=True):
        moved = known.lab.copy()
        moved[k, c] += known.lab_sd[k, c]
        own = known.learn(correction.method, lab=moved)
        total += (own.lab(known.mean(part)) - lab) ** 2
    return np.sqrt(total)


def _of_veil(part: Region, known: References, correction: Correction | None, *, lab: Floats) -> Floats:
    """What stray light would lift this colour by, if as much of it lay over the picture as is expected."""
    white = np.ones(3) if known.white is None else known.mean(known.white)
    without = known.mean(part) - VEIL_FRAC.centre * white
    return np.abs(lab_of(np.maximum(without, 0.0), correction, known=known) - lab)
