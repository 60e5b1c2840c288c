"""From a reflectance spectrum to colour: X, Y, Z under D65 for the 2 degree observer, by the CIE's tables."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from bluewright.science.base.sourced import Floats
from bluewright.science.colour.observer import DAYLIGHT, OBSERVER, STEP_NM, WAVELENGTHS_NM
from bluewright.science.colour.spaces import D65_XYZ


def at_table_wavelengths(wavelength_nm: Floats, reflectance_frac: Floats) -> Floats:
    """The spectrum at each of WAVELENGTHS_NM, shape (..., 81), of one at rising `wavelength_nm`, shape (..., n).

    Readings further apart than the table are joined by a curve that never leaves the range between two neighbours;
    closer ones are averaged over 5 nm, which calms the noise of a small spectrometer. Beyond the first and the last
    reading the spectrum is held at them (CIE 15:2004, 7.2.3).
    """
    rows = np.atleast_2d(reflectance_frac)
    step_nm = float(np.median(np.diff(wavelength_nm)))
    if step_nm < STEP_NM:
        offsets_nm = np.linspace(-STEP_NM / 2, STEP_NM / 2, 11)
        around_nm = WAVELENGTHS_NM[:, None] + offsets_nm
        weights = np.where(np.abs(offsets_nm) == STEP_NM / 2, 0.5, 1.0) / (len(offsets_nm) - 1)
        found = np.stack([np.interp(around_nm, wavelength_nm, row) @ weights for row in rows])
    else:
        found = _joined(wavelength_nm, rows, np.clip(WAVELENGTHS_NM, wavelength_nm[0], wavelength_nm[-1]))
    return found.reshape(*np.shape(reflectance_frac)[:-1], len(WAVELENGTHS_NM))


def xyz_of_spectrum(reflectance_frac: ArrayLike) -> Floats:
    """X, Y, Z (white has Y = 1) of reflectance, 1 being the perfect white, at WAVELENGTHS_NM; (..., 81) to (..., 3).

    The sums are brought to the white that Lab is told by (0.9504, 1, 1.0891), from which they are 0.0003 apart, so that
    a perfect white has neither a* nor b*. Source: CIE 15:2004, 7.1.
    """
    weights = OBSERVER * DAYLIGHT[:, None]
    return np.asarray(np.asarray(reflectance_frac, dtype=float) @ (weights / weights.sum(axis=0)) * D65_XYZ)


def at_nm(wanted_nm: float, *, wavelength_nm: Floats, reflectance_frac: Floats) -> Floats:
    """Reflectance at one wavelength within the readings, on the line between its neighbours; (..., n) to (...)."""
    right = min(max(int(np.searchsorted(wavelength_nm, wanted_nm)), 1), len(wavelength_nm) - 1)
    left_nm, right_nm = wavelength_nm[right - 1], wavelength_nm[right]
    part = (wanted_nm - left_nm) / (right_nm - left_nm)
    return np.asarray(reflectance_frac[..., right - 1] * (1.0 - part) + reflectance_frac[..., right] * part)


def _joined(x: Floats, rows: Floats, at: Floats) -> Floats:
    """Piecewise cubics through (x, each row), with the slopes of Fritsch and Butland 1984: no overshoot."""
    wide = np.diff(x)
    rise = np.diff(rows, axis=-1) / wide
    slopes = np.empty_like(rows)
    before, after = rise[..., :-1], rise[..., 1:]
    w_1, w_2 = 2.0 * wide[1:] + wide[:-1], wide[1:] + 2.0 * wide[:-1]
    same = before * after > 0
    safe_before, safe_after = np.where(same, before, 1.0), np.where(same, after, 1.0)
    slopes[..., 1:-1] = np.where(same, (w_1 + w_2) / (w_1 / safe_before + w_2 / safe_after), 0.0)
    slopes[..., 0], slopes[..., -1] = rise[..., 0], rise[..., -1]
    k = np.clip(np.searchsorted(x, at, side="right") - 1, 0, len(x) - 2)
    t, h = (at - x[k]) / wide[k], wide[k]
    return np.asarray(
        (1 + 2 * t) * (1 - t) ** 2 * rows[..., k] + t * (1 - t) ** 2 * h * slopes[..., k]
        + t**2 * (3 - 2 * t) * rows[..., k + 1] + t**2 * (t - 1) * h * slopes[..., k + 1]
    )  # fmt: skip
