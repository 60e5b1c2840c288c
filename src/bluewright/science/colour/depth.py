"""How deep a dyeing is: Kubelka and Munk's K/S, and the same of a photo's red light.

K/S grows with the dye in the cloth where reflectance only creeps towards nothing. At 660 nm, where indigo absorbs
most, it is the textile trade's depth; a photo has no 660 nm, but its red light tells nearly the same. It goes with the
true one to the power 0.93 or so, differently for each phone: it compares swatches of one phone and card, and is no
per cent of indigo.
"""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.sourced import Floats, Sourced
from bluewright.science.colour.spaces import linear_of_xyz, xyz_of_lab

INDIGO_NM: Final = Sourced(
    value=660.0, unit="nm", source="common-practice", low=656.0, high=668.0, grade="practice",
    note="where indigo on cloth absorbs most, and where its K/S is usually quoted",
)  # fmt: skip
LEAST_REFLECTANCE: Final = Sourced(
    value=0.004, unit="1", source="common-practice", low=0.002, high=0.04, grade="guess",
    note="light that the surface of any cloth sends back; below it nothing is read",
)  # fmt: skip
PHOTO_DEPTH: Final = Sourced(
    value=10.0, unit="1", source="common-practice", low=8.0, high=15.0, grade="guess",
    note="K/S beyond which veiling light in a lens and on a cloth hides depth from a photo: one per cent of it takes a "
    "tenth of a K/S of 4 and a quarter of one of 13 (simulated)",
)  # fmt: skip


def k_over_s(reflectance_frac: ArrayLike) -> Floats:
    """K/S of an opaque layer that sends back so much light, 0 to 1 of white: (1 - R)^2 / (2 R); the same shape.

    Less than LEAST_REFLECTANCE counts as that: K/S never exceeds 124. Source: Kubelka and Munk 1931.
    """
    share = np.maximum(np.asarray(reflectance_frac, dtype=float), LEAST_REFLECTANCE.value)
    return np.asarray((1.0 - share) ** 2 / (2.0 * share))


def reflectance_of_k_over_s(k_over_s: ArrayLike) -> Floats:
    """The light sent back, 0 to 1: 1 + q - sqrt(q^2 + 2 q) of q = K/S; what `k_over_s` undoes."""
    q = np.asarray(k_over_s, dtype=float)
    return np.asarray(1.0 / (1.0 + q + np.sqrt(q * (q + 2.0))))


def dye_k_over_s(dyed: ArrayLike, *, ground: ArrayLike) -> Floats:
    """K/S of the dye alone: dyed less the undyed ground, both K/S. Below 0 where the ground was the darker one."""
    return np.asarray(np.asarray(dyed, dtype=float) - np.asarray(ground, dtype=float))


def red_k_over_s(linear: ArrayLike) -> Floats:
    """The depth of linear sRGB light, 1 being white: K/S of its red; shape (..., 3) to (...)."""
    return k_over_s(np.asarray(linear, dtype=float)[..., 0])


def red_k_over_s_of_lab(lab: ArrayLike) -> Floats:
    """The same of L*, a*, b* (D65, 2 degree); shape (..., 3) to (...)."""
    return red_k_over_s(linear_of_xyz(xyz_of_lab(lab)))
