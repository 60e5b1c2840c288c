"""From the light that a camera recorded to the colour that it was, learned from patches whose colour is known.

First the neutrals undo the tone curve and the cast of the light; then, where there are coloured patches too, a matrix
brings the camera's three channels to X, Y, Z. Which of the corrections is used is decided by patches that each had no
part in it: a correction with many terms fits its own patches always and others not.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import ArrayLike, NDArray

from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.spaces import XYZ_OF_LINEAR, Space, lab_of_xyz, linear_of_xyz, xyz_of_lab
from bluewright.science.photo.tone import Tone, fit_tone

Method = Literal["white", "neutrals", "matrix", "root"]
"""white: gains of the lightest neutral. neutrals: a tone curve through all of them. matrix: also 3 by 3 by least
squares. root: also the square roots of the products of two channels, which stay in proportion to exposure (Finlayson,
Mackiewicz and Hurlbert 2015)."""
METHODS: Final[tuple[Method, ...]] = ("white", "neutrals", "matrix", "root")

LEAST_PATCHES: Final[dict[Method, int]] = {"white": 1, "neutrals": 2, "matrix": 8, "root": 12}
"""Patches that a correction needs; the published studies have 24."""
LEAST_COLOURS: Final = 4
"""Patches that are not neutral, without which nothing can be learned of colour."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Correction:
    """What brings recorded light to X, Y, Z."""

    method: Method
    tone: Tone
    """Undoes curve and cast: recorded to true linear light."""
    matrix: Floats
    """Shape (terms, 3): from the terms of linear light to X, Y, Z."""
    held_out_de: Floats
    """CIEDE2000 of each coloured patch from its true colour, if it had no part in the correction; empty without any."""

    def xyz(self, light: ArrayLike) -> Floats:
        """X, Y, Z (white has Y = 1) of recorded linear light, shape (..., 3)."""
        return np.asarray(terms(self.tone(light), root=len(self.matrix) > 3) @ self.matrix)

    def lab(self, light: ArrayLike) -> Floats:
        """L*, a*, b* (D65, 2 degree) of recorded linear light, shape (..., 3)."""
        return lab_of_xyz(np.maximum(self.xyz(light), 0.0))

    @property
    def fit_de(self) -> float:
        """Root mean square of the held-out differences; 0 if there are none."""
        return float(np.sqrt(np.mean(self.held_out_de**2))) if len(self.held_out_de) else 0.0


def terms(linear: ArrayLike, *, root: bool) -> Floats:
    """R, G, B, and with `root` also the roots of RG, RB, GB; shape (..., 3 or 6). All grow in proportion to light."""
    rgb = np.asarray(np.maximum(np.asarray(linear, dtype=float), 0.0))
    if not root:
        return rgb
    r, g, b = rgb[..., 0], rgb[..., 1], rgb[..., 2]
    return np.stack([r, g, b, np.sqrt(r * g), np.sqrt(r * b), np.sqrt(g * b)], axis=-1)


def fit(
    light: ArrayLike,
    lab: ArrayLike,
    *,
    neutral: ArrayLike,
    method: Method | Literal["auto"] = "auto",
    space: Space = "srgb",
    where: str = "card",
) -> Correction:
    """The correction that patches teach: `light` as recorded (linear, shape (n, 3)), `lab` as they truly are (n, 3).

    `neutral` (n,) says which are without colour; at least one is. `auto` uses every neutral there is, and of the
    methods that the number of patches bears the one whose held-out colours are least wrong. Raises InputError at
    `where` if they bear not the one asked for, or contradict each other.
    """
    seen, true = np.atleast_2d(np.asarray(light, dtype=float)), np.atleast_2d(np.asarray(lab, dtype=float))
    grey = np.asarray(neutral, dtype=bool)
    if not grey.any():
        raise InputError(where=where, what="no patch of it is neutral", right="give a white or a grey")
    borne = [each for each in METHODS if _bears(each, len(seen), int(grey.sum()))]
    if method == "auto" and "neutrals" in borne:
        borne.remove("white")
    if method != "auto":
        if method not in borne:
            raise InputError(
                where=where,
                what=f"{len(seen)} known patches are too few for this correction",
                right=f"give at least {LEAST_PATCHES[method]}, or leave the choice to the program",
            )
        borne = [method]
    made = [_fitted(seen, true, grey, each, space=space, where=where) for each in borne]
    if not len(made[-1].held_out_de):
        return made[-1]
    return min(made, key=lambda one: one.fit_de)


def _bears(method: Method, patches: int, neutrals: int) -> bool:
    if method == "neutrals":
        return neutrals >= LEAST_PATCHES[method]
    colours_needed = LEAST_COLOURS if method in {"matrix", "root"} else 0
    return patches >= LEAST_PATCHES[method] and patches - neutrals >= colours_needed


def _fitted(
    light: Floats, lab: Floats, neutral: NDArray[np.bool_], method: Method, *, space: Space, where: str
) -> Correction:
    """One method, with the error of each coloured patch when it is held out. A neutral left out would be a gap."""
    tone, matrix = _learned(light, lab, neutral, method, space=space, where=where)
    held, found = np.flatnonzero(~neutral), []
    for k in held:
        rest = np.arange(len(light)) != k
        own = _learned(light[rest], lab[rest], neutral[rest], method, space=space, where=where)
        one = Correction(method=method, tone=own[0], matrix=own[1], held_out_de=np.empty(0))
        found.append(one.lab(light[k]))
    differences = ciede2000(np.array(found), lab[held]) if found else np.empty(0)
    return Correction(method=method, tone=tone, matrix=matrix, held_out_de=differences)


def _learned(
    light: Floats, lab: Floats, neutral: NDArray[np.bool_], method: Method, *, space: Space, where: str
) -> tuple[Tone, Floats]:
    xyz = xyz_of_lab(lab)
    greys = np.flatnonzero(neutral)
    if method == "white":
        greys = greys[[np.argmax(lab[greys, 0])]]
    tone = fit_tone(light[greys], linear_of_xyz(xyz[greys], space=space), where=where)
    if method in {"white", "neutrals"}:
        return tone, XYZ_OF_LINEAR[space].T
    known = terms(tone(light), root=method == "root")
    return tone, np.asarray(np.linalg.lstsq(known, xyz, rcond=None)[0], dtype=float)
