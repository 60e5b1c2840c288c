"""Cloth of the invented season, dyed by rules of its own: none of its dips follows those that the program reckons with.

Each dip lays blue on the yarn, and later ones give less, by a power of their number: no isotherm, no way into the
yarn, nothing taken off again. The blue lies unevenly: some of the surface has only a part of it. What the eye gets is
the mean light of both, and a little shine; the band of the blue is drawn up from parts of its own. Then each piece
came out somewhat deeper or paler than the next, and the photo read each colour somewhat off.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.colour.compare_record import Lab
from bluewright.science.colour.observer import WAVELENGTHS_NM
from bluewright.science.colour.spaces import lab_of_xyz
from bluewright.science.colour.spectrum import xyz_of_spectrum

READ_SD: Final = (0.9, 0.7, 0.8)
"""By which a photo with a card reads L*, a* and b* off (invented)."""
PIECE_SD: Final = 0.08
"""By which two pieces differ that were dyed alike, in natural logarithms of the blue (invented)."""
_NM: Final[Floats] = np.asarray(WAVELENGTHS_NM, dtype=float)
_BAND: Final[Floats] = (
    0.78 * np.exp(-0.5 * ((_NM - 658.0) / 46.0) ** 2)
    + 0.66 * np.exp(-0.5 * ((_NM - 594.0) / 52.0) ** 2)
    + 0.02
    + 0.07 * np.exp(-0.5 * ((_NM - 460.0) / 45.0) ** 2)
    + 0.16 * np.exp(-(_NM - 380.0) / 30.0)
)
"""How strongly the blue absorbs: a band in the red with a shoulder, some brown, the rise towards the violet (drawn up,
not measured; its hue keeps to what is published of natural indigo)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Yarn:
    """A yarn in a vat; all its figures are invented."""

    bare: float
    """What it sends back undyed, at 700 nm."""
    yellow: float
    """By how much that falls for each 100 nm towards the violet, as a share."""
    blue: float
    """How strongly the blue of one dip absorbs against how the cloth scatters (K/S), in the red."""
    power: float
    """Of the number of dips that the blue goes with: below 1 each dip gives less than the one before it."""
    thin_frac: float = 0.12
    """Share of the surface that has less."""
    thin_part: float = 0.4
    """What that has of it."""
    shine: float = 0.012

    def lab(self, dips: float, *, deeper: float = 0.0) -> Floats:
        """Its colour after so many dips; `deeper` in natural logarithms of the blue."""
        undyed = self.bare * (1.0 - self.yellow * np.maximum(700.0 - _NM, 0.0) / 100.0)
        bare = (1.0 - undyed) ** 2 / (2.0 * undyed)
        blue = self.blue * dips**self.power * np.exp(deeper) * _BAND
        light = (1.0 - self.thin_frac) * _sent_back(bare + blue) + self.thin_frac * _sent_back(
            bare + self.thin_part * blue
        )
        return lab_of_xyz(xyz_of_spectrum(self.shine + (1.0 - self.shine) * light))

    def read(self, dips: float, *, rng: np.random.Generator) -> Lab:
        """The colour of one piece as it was read, to a tenth."""
        return _tenths(self.lab(dips, deeper=PIECE_SD * rng.standard_normal()) + READ_SD * rng.standard_normal(3))

    @property
    def ground(self) -> Lab:
        """Undyed."""
        return _tenths(self.lab(0.0))


def _sent_back(absorbs: Floats) -> Floats:
    """Light that thick cloth sends back, by what it absorbs against what it scatters (Kubelka and Munk 1931)."""
    return np.asarray(1.0 + absorbs - np.sqrt(absorbs**2 + 2.0 * absorbs))


def _tenths(found: Floats) -> Lab:
    l_star, a_star, b_star = (round(float(value), 1) for value in found)
    return l_star, a_star, b_star


SHAWL_WOOL: Final = Yarn(bare=0.74, yellow=0.10, blue=3.4, power=0.75)
"""In the crock; the strips of the ladder, and the hank that was dyed in it."""
OLD_WOOL: Final = Yarn(bare=0.71, yellow=0.11, blue=2.6, power=0.80)
"""In a vat of last year that is gone."""
CLASS_LINEN: Final = Yarn(bare=0.68, yellow=0.10, blue=1.7, power=0.72)
"""In the class's vat."""
SEED: Final = 1709


def readings(yarn: Yarn, dips: tuple[int, ...], *, place: int) -> dict[int, Lab]:
    """The colours of pieces of one yarn by their dips, always the same; `place` tells one set of them from another."""
    rng = np.random.default_rng([SEED, place])
    return {one: yarn.read(one, rng=rng) for one in dips}
