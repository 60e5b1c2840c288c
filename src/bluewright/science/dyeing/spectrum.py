"""From indigo on fibre to the colour of the cloth: K/S over the wavelengths, reflectance, CIELAB.

K/S = K/S of the undyed cloth + yield * seen * shape; R = s + (1 - s) R(K/S), s what the bare surface sends back.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.depth import INDIGO_NM, k_over_s, reflectance_of_k_over_s
from bluewright.science.colour.observer import DAYLIGHT, OBSERVER, WAVELENGTHS_NM
from bluewright.science.colour.spaces import D65_XYZ, lab_of_xyz
from bluewright.science.dyeing.scores import Believed
from bluewright.science.dyeing.shade_priors import (
    BLUE_NM,
    BLUE_WIDTH_NM,
    FLOOR,
    GROUND_K_OVER_S,
    GROUND_SLOPE,
    LEFT_NM,
    PEAK_NM,
    RIGHT_NM,
    SHOULDER,
    SHOULDER_NM,
    SHOULDER_WIDTH_NM,
    VIOLET,
    VIOLET_NM,
)
from bluewright.science.media.cloth import Fibre

Lab = tuple[float, float, float]
NODES_NM: Final[Floats] = np.arange(380.0, 781.0, 20.0)
"""Wavelengths that the spectrum of dyed cloth is computed at: it is smooth, and cubics join them."""


def _weights() -> Floats:
    """How much the spectrum at each node counts for X, Y and Z, shape (21, 3): the CIE's tables on local cubics."""
    join = np.zeros((len(WAVELENGTHS_NM), len(NODES_NM)))
    for row, at_nm in enumerate(WAVELENGTHS_NM):
        first = min(max(int(np.searchsorted(NODES_NM, at_nm)) - 2, 0), len(NODES_NM) - 4)
        near = NODES_NM[first : first + 4]
        for k in range(4):
            others = np.delete(near, k)
            join[row, first + k] = np.prod((at_nm - others) / (near[k] - others))
    whole = OBSERVER * DAYLIGHT[:, None]
    return np.asarray(join.T @ (whole / whole.sum(axis=0)) * D65_XYZ)


_WEIGHTS: Final[Floats] = _weights()


def shape(turn_nm: Floats, blue_frac: Floats, *, at_nm: Floats = NODES_NM) -> Floats:
    """K/S of indigo on fibre over the wavelengths, 1 at 660 nm; (n,) and (n,) to (n, wavelengths)."""
    whole = _bands(turn_nm, blue_frac, at_nm)
    return np.asarray(whole / _bands(turn_nm, blue_frac, np.array([INDIGO_NM.value])))


def _bands(turn_nm: Floats, blue_frac: Floats, at_nm: Floats) -> Floats:
    from_peak = at_nm - PEAK_NM.value - turn_nm[:, None]
    band = np.exp(-0.5 * (from_peak / np.where(from_peak < 0, LEFT_NM.value, RIGHT_NM.value)) ** 2)
    shoulder = np.exp(-0.5 * ((at_nm - SHOULDER_NM.value - turn_nm[:, None]) / SHOULDER_WIDTH_NM.value) ** 2)
    blue = blue_frac[:, None] * np.exp(-0.5 * ((at_nm - BLUE_NM.value) / BLUE_WIDTH_NM.value) ** 2)
    violet = VIOLET.value * np.exp(-(at_nm - WAVELENGTHS_NM[0]) / VIOLET_NM.value)
    return np.asarray(band + SHOULDER.value * shoulder + blue + violet + FLOOR.value)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """The undyed cloth."""

    level: float
    """K/S at 560 nm."""
    slope: float
    """By how much its logarithm rises for each 100 nm towards the blue."""

    def k_over_s(self, at_nm: ArrayLike) -> Floats:
        """Its K/S at wavelengths."""
        return np.asarray(self.level * np.exp(-self.slope * (np.asarray(at_nm, dtype=float) - 560.0) / 100.0))


def usual_ground(fibre: Fibre) -> Ground:
    """Undyed cloth of a fibre as it commonly is."""
    return Ground(level=GROUND_K_OVER_S[fibre].value, slope=GROUND_SLOPE[fibre].value)


def ground_of_lab(lab: Lab) -> Ground:
    """Undyed cloth of which L* and b* were measured; its a* cannot be told by two numbers and is left as it comes.

    Newton's method on the level and the slope. Raises InputError for what is no pale cloth.
    """
    if not (lab[0] >= 60 and abs(lab[1]) <= 15 and -15 <= lab[2] <= 40):
        raise InputError(
            where="ground", what=f"L {lab[0]:g}, a {lab[1]:g}, b {lab[2]:g} is no undyed cloth",
            right="measure the cloth before the vat: L from 60 up, a and b near 0",
        )  # fmt: skip
    at = np.array([np.log(0.03), 0.5])
    for _ in range(25):
        off = _off(at, lab)
        columns = [(_off(at + step, lab) - off) / 1e-4 for step in np.eye(2) * 1e-4]
        at = at - np.linalg.solve(np.array(columns).T, off)
        if np.max(np.abs(off)) < 1e-6:
            break
    return Ground(level=float(np.exp(at[0])), slope=float(at[1]))


def _off(at: Floats, lab: Lab) -> Floats:
    ground = Ground(level=float(np.exp(at[0])), slope=float(at[1]))
    found = lab_of_ground(ground)
    return np.array([found[0] - lab[0], found[2] - lab[2]])


def lab_of_ground(ground: Ground) -> Floats:
    """L*, a*, b* of the undyed cloth, shape (3,)."""
    return lab_of_xyz(reflectance_of_k_over_s(ground.k_over_s(NODES_NM)) @ _WEIGHTS)


def lab_of_seen(seen_g_per_kg: Floats, held: Believed, *, ground: Ground) -> Floats:
    """L*, a*, b* (D65, 2 degree) of cloth with so much indigo where the light goes; (n, k) to (n, k, 3)."""
    form = shape(held.turn_nm, held.blue_frac)
    depth = held.yield_kg_per_g[:, None] * seen_g_per_kg
    inner = reflectance_of_k_over_s(ground.k_over_s(NODES_NM) + depth[..., None] * form[:, None, :])
    bare = held.surface_frac[:, None, None]
    return lab_of_xyz((bare + (1.0 - bare) * inner) @ _WEIGHTS)


def k_over_s_of_seen(seen_g_per_kg: Floats, held: Believed, *, ground: Ground) -> Floats:
    """Depth as an instrument reads it at 660 nm, the undyed cloth in it; (n, k) to (n, k)."""
    at_peak = ground.k_over_s(INDIGO_NM.value)
    inner = reflectance_of_k_over_s(at_peak + held.yield_kg_per_g[:, None] * seen_g_per_kg)
    bare = held.surface_frac[:, None]
    return k_over_s(bare + (1.0 - bare) * inner)
