"""Pure blue of batches and jars, drawn together: what is wrong of one is mostly wrong of all."""

from __future__ import annotations

from typing import Protocol

import numpy as np

from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.media.basket import Plant
from bluewright.science.media.dry_pigment import moisture
from bluewright.science.media.purity import PURITY, Known, Make, known_share


class Pigment(Protocol):
    """What is known of dry pigment."""

    @property
    def plant(self) -> Plant:
        """The plant."""

    @property
    def make(self) -> Make:
        """How it was made."""

    @property
    def purity(self) -> Known | None:
        """Indigo in it, if measured."""

    @property
    def moisture_frac(self) -> float | None:
        """Water in it, if known."""


def purity(pigment: Pigment) -> Prior:
    """Indigo in the dry pigment: as measured, or by plant and make."""
    if pigment.purity is not None:
        return known_share(pigment.purity)
    return PURITY[pigment.make][pigment.plant]


def pure_frac(pigment: Pigment, *, purity_z: Floats, moisture_z: Floats) -> Floats:
    """Pure indigo as a share of the mass as weighed, at the scores (n,) that all pigment of one garden shares.

    Formula: (1 - moisture) * purity.
    """
    return (1 - moisture(pigment.moisture_frac).from_z(moisture_z)) * purity(pigment).from_z(purity_z)


def scores(rng: np.random.Generator, n: int) -> tuple[Floats, Floats]:
    """One score of purity and one of moisture for each draw."""
    return rng.standard_normal(n), rng.standard_normal(n)
