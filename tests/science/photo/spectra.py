"""Light through a jar, wavelength by wavelength: a bench of synthetic liquors for the jar test.

Daylight D65 is the table of ISO/CIE 11664-2 at 10 nm (from memory; held below against its published x, y); the colour
matching functions are those of the CIE 1931 observer as coloraide carries them. The liquors are our own inventions:
a brown tail, a yellow band of alkaline liquor, a band of indigo about 620 nm, and haze as a power of the wavelength.
"""

import numpy as np
from coloraide.cmfs import CIE_1931_2DEG
from numpy.typing import NDArray

from bluewright.science.colour.spaces import linear_of_xyz

NM = np.arange(380.0, 781.0, 10.0)
D65 = np.array([
    49.9755, 54.6482, 82.7549, 91.4860, 93.4318, 86.6823, 104.865, 117.008, 117.812, 114.861, 115.923, 108.811,
    109.354, 107.802, 104.790, 107.689, 104.405, 104.046, 100.000, 96.3342, 95.7880, 88.6856, 90.0062, 89.5991,
    87.6987, 83.2886, 83.6992, 80.0268, 80.2146, 82.2778, 78.2842, 69.7213, 71.6091, 74.3490, 61.6040, 69.8856,
    75.0870, 63.5927, 46.4182, 66.8054, 63.3828,
])  # fmt: skip
OBSERVER = np.array([dict(CIE_1931_2DEG.items())[int(nm)] for nm in NM])

Spectrum = NDArray[np.float64]


def band(at_nm: float, half_nm: float, high: float) -> Spectrum:
    return np.asarray(high * np.exp(-0.5 * ((NM - at_nm) / half_nm) ** 2))


def brown(amount: float = 1.0) -> Spectrum:
    return np.asarray(amount * 0.55 * np.exp(-(NM - 450.0) / 60.0))


def yellow(amount: float = 1.0) -> Spectrum:
    return amount * band(430.0, 35.0, 1.3)


def indigo(a660: float) -> Spectrum:
    shape = band(620.0, 45.0, 1.0)
    return np.asarray(a660 * shape / shape[NM == 660.0])


def haze(power: float, at_550: float = 0.25) -> Spectrum:
    return np.asarray(at_550 * (550.0 / NM) ** power)


def xyz(light: Spectrum) -> NDArray[np.float64]:
    """Of light as a share of D65, white having Y = 1."""
    whole = D65 @ OBSERVER
    return np.asarray((light * D65) @ OBSERVER / whole[1])


def linear(light: Spectrum) -> list[float]:
    """Linear sRGB of light as a share of D65."""
    return [float(part) for part in linear_of_xyz(xyz(light))]


def through(absorbance: Spectrum, *, white: float = 0.8) -> list[float]:
    """Linear sRGB of what comes through, over paper that the photo shows at `white`."""
    return linear(white * 10.0**-absorbance)
