"""Our colour science beside colour-science and scikit-image: run by `second_opinion.py`, where both are installed.

Each row says how far apart the two are at the most, and how far they may be. Where a tolerance is more than rounding,
the reason stands with it.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator

import colour
import numpy as np
from skimage import color as skimage

from bluewright.science.colour import differences as ours
from bluewright.science.colour import spaces
from bluewright.science.colour.observer import DAYLIGHT, OBSERVER, WAVELENGTHS_NM
from bluewright.science.colour.spectrum import at_table_wavelengths, xyz_of_spectrum
from bluewright.science.colour.whiteness import tint, whiteness

RNG = np.random.default_rng(20)
ONE, OTHER = RNG.uniform([0, -60, -60], [100, 60, 60], (2, 5000, 3))
CODES = RNG.uniform(0, 1, (5000, 3))
OBSERVER_NAME = "CIE 1931 2 Degree Standard Observer"
Row = tuple[str, float, float]


def rows() -> Iterator[Row]:
    """What was compared, how far apart, how far apart it may be."""
    yield from _differences()
    yield from _spaces()
    yield from _tables()
    yield from _spectra()
    yield from _white()


def _far(mine: np.ndarray, theirs: np.ndarray) -> float:
    return float(np.max(np.abs(np.asarray(mine) - np.asarray(theirs))))


def _differences() -> Iterator[Row]:
    theirs = {
        "colour-science": (
            colour.delta_E(ONE, OTHER, method="CIE 2000"), colour.delta_E(ONE, OTHER, method="CIE 1976"),
            colour.delta_E(ONE, OTHER, method="CMC", l=2, c=1),
        ),
        "scikit-image": (
            skimage.deltaE_ciede2000(ONE, OTHER), skimage.deltaE_cie76(ONE, OTHER),
            skimage.deltaE_cmc(ONE, OTHER, kL=2, kC=1),
        ),
    }  # fmt: skip
    mine = (ours.ciede2000(OTHER, ONE), ours.cie76(OTHER, ONE), ours.cmc(OTHER, ONE))
    for library, found in theirs.items():
        for name, own, other in zip(("CIEDE2000", "CIE76", "CMC(2:1)"), mine, found, strict=True):
            yield f"{name}, 5000 pairs, {library}", _far(own, other), 1e-6


def _spaces() -> Iterator[Row]:
    """Both libraries use the matrix as it is printed, with four decimals, and scikit-image a white of five figures."""
    lab = spaces.lab_of_code(CODES)
    theirs = colour.XYZ_to_Lab(colour.sRGB_to_XYZ(CODES), colour.CCS_ILLUMINANTS[OBSERVER_NAME]["D65"])
    yield "sRGB to Lab, colour-science", _most(lab, theirs), 0.1
    yield "sRGB to Lab, scikit-image", _most(lab, skimage.rgb2lab(CODES)), 0.1
    p3 = colour.RGB_to_XYZ(CODES, "Display P3", apply_cctf_decoding=True)
    theirs = colour.XYZ_to_Lab(p3, colour.CCS_ILLUMINANTS[OBSERVER_NAME]["D65"])
    yield "Display P3 to Lab, colour-science", _most(spaces.lab_of_code(CODES, space="display-p3"), theirs), 0.1


def _most(lab: np.ndarray, theirs: np.ndarray) -> float:
    return float(np.max(ours.cie76(lab, theirs)))


def _tables() -> Iterator[Row]:
    """The observer is kept to six decimals."""
    yield "observer of 1931", _far(OBSERVER, colour.MSDS_CMFS[OBSERVER_NAME][WAVELENGTHS_NM]), 5.1e-7
    yield "D65", _far(DAYLIGHT, colour.SDS_ILLUMINANTS["D65"][WAVELENGTHS_NM]), 1e-9


def _spectra() -> Iterator[Row]:
    """Measured reflectances of the 24 patches that colour-science carries, in their own steps, 10 and 20 nm.

    Theirs: summed every nanometre after Sprague's interpolation; with wide steps each fills the gaps its own way.
    """
    observer, daylight = colour.MSDS_CMFS[OBSERVER_NAME], colour.SDS_ILLUMINANTS["D65"]
    white = colour.sd_to_XYZ(colour.sd_constant(1, colour.SpectralShape(380, 780, 1)), observer, daylight) / 100
    patches = list(colour.SDS_COLOURCHECKERS["ISO 17321-1"].values())
    for step_nm, allowed in ((5.0, 0.05), (10.0, 0.1), (20.0, 0.3)):
        worst = 0.0
        for patch in patches:
            truth = colour.sd_to_XYZ(patch, observer, daylight, method="Integration") / 100
            nm = np.arange(380.0, 731.0, step_nm)
            mine = xyz_of_spectrum(at_table_wavelengths(nm, np.asarray(patch[nm])))
            theirs = spaces.lab_of_xyz(truth / white * spaces.D65_XYZ)
            worst = max(worst, float(ours.ciede2000(spaces.lab_of_xyz(mine), theirs)))
        yield f"24 measured spectra every {step_nm:g} nm, CIEDE2000, colour-science", worst, allowed


def _white() -> Iterator[Row]:
    blued = np.array([0.3100, 0.3240])
    xyz = 0.9 * np.array([blued[0] / blued[1], 1.0, (1 - blued.sum()) / blued[1]])
    theirs = colour.colorimetry.whiteness_CIE2004(blued, 90.0, np.array([0.3127, 0.3290]), OBSERVER_NAME)
    yield "CIE whiteness and tint", _far(np.array([whiteness(xyz), tint(xyz)]), theirs), 1e-6


def main() -> int:
    """Print the rows; 1 if any is too far off."""
    bad = 0
    print(f"colour-science {colour.__version__} and scikit-image beside ours:")
    for name, apart, allowed in rows():
        wrong = not apart <= allowed
        bad += wrong
        print(f"  {'TOO FAR' if wrong else 'agrees '}  {apart:9.2g} (at most {allowed:g})  {name}")
    return int(bad > 0)


if __name__ == "__main__":
    sys.exit(main())
