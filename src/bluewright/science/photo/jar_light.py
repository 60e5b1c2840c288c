"""From the light of two boxes to absorbances with their spread: the liquor's over the water's, channel by channel."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.colour.spaces import (
    chroma_of_lab,
    hue_deg_of_lab,
    lab_of_linear,
    linear_of_xyz,
    xyz_of_lab,
)
from bluewright.science.photo.jar_record import Colour, JarSeen

DARKEST_LINEAR: Final = Sourced(
    value=0.02, unit="1", source="common-practice", low=0.01, high=0.04, grade="guess",
    note="of white: below it an 8-bit photo has too few steps, and stray light is a large part of what is seen",
)  # fmt: skip
UNEVEN: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.05, unit="1", source="common-practice", grade="guess",
    note="light behind one jar over that behind the other, alike in all channels: two jars never stand quite alike",
)  # fmt: skip
TINT: Final = Prior(
    kind="lognormal", centre=1.0, spread=0.02, unit="1", source="common-practice", grade="guess",
    note="the same, in each channel by itself: paper, glass, the camera's steps",
)  # fmt: skip
STRAY_LINEAR: Final = Prior(
    kind="normal", centre=0.0, spread=0.003, unit="1", source="common-practice", grade="guess",
    note="stray light in the camera, of white; it is left when the black of the photo has been subtracted",
)  # fmt: skip
LEAST_LINEAR: Final = 1e-4
"""Light below which none is taken to come through."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One look as draws: absorbances (n, 3), what they are not to be trusted for, hue (n,)."""

    seen: JarSeen
    absorbance: Floats
    dark: tuple[bool, bool, bool]
    hue_deg: Floats
    chroma: Floats

    @property
    def dye(self) -> Floats | None:
        """Red minus green; None where too little of either came through."""
        return None if self.dark[0] or self.dark[1] else self.absorbance[:, 0] - self.absorbance[:, 1]

    @property
    def dye_at_least(self) -> Floats | None:
        """What the dye index is at least where too little red, but enough green came through; else None."""
        if not self.dark[0] or self.dark[1]:
            return None
        return self.absorbance[:, 0] - self.absorbance[:, 1]

    @property
    def green(self) -> Floats:
        """Absorbance in green."""
        return self.absorbance[:, 1]

    @property
    def yellow(self) -> Floats | None:
        """Blue minus red; None where too little of either came through."""
        return None if self.dark[0] or self.dark[2] else self.absorbance[:, 2] - self.absorbance[:, 0]


def linear_of(colour: Colour, notation: str) -> Floats:
    """Light in red, green and blue, white being 1, shape (3,), of a colour in either notation."""
    given = np.array(colour, dtype=float)
    return given if notation == "linear" else linear_of_xyz(xyz_of_lab(given))


def drawn(look: JarSeen, notation: str, *, stray_linear: Floats, rng: np.random.Generator) -> Drawn:
    """One look as draws; `stray_linear` (n,) is the stray light of the camera, the same in all looks of a series."""
    liquor, water = linear_of(look.jar, notation), linear_of(look.water, notation)
    n = len(stray_linear)
    light = UNEVEN.draw(rng, n)[:, None] * TINT.from_z(rng.standard_normal((n, 3)))
    through, whole = (np.maximum(part - stray_linear[:, None], LEAST_LINEAR) for part in (liquor, water))
    dark = tuple(bool(part < DARKEST_LINEAR.value) for part in np.minimum(liquor, water))
    # What is too dark to count is taken at the darkest that counts: its absorbance is at least that.
    through = np.where(dark, np.maximum(through, DARKEST_LINEAR.value), through)
    ratio = through * light / whole
    lab = lab_of_linear(np.clip(ratio, 0.0, 1.0))
    return Drawn(
        seen=look,
        absorbance=-np.log10(ratio),
        dark=(dark[0], dark[1], dark[2]),
        hue_deg=hue_deg_of_lab(lab),
        chroma=chroma_of_lab(lab),
    )
