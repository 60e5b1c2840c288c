"""Spectra: the white they must give, and that coarse, fine and ragged readings tell the same colour."""

from __future__ import annotations

import numpy as np
import pytest

from bluewright.science.colour.depth import k_over_s, reflectance_of_k_over_s
from bluewright.science.colour.differences import ciede2000
from bluewright.science.colour.observer import DAYLIGHT, OBSERVER, WAVELENGTHS_NM
from bluewright.science.colour.spaces import lab_of_xyz
from bluewright.science.colour.spectrum import at_nm, at_table_wavelengths, xyz_of_spectrum
from bluewright.science.colour.whiteness import holds, tint, whiteness
from tests.published import rows


def indigo(wavelength_nm: np.ndarray, *, depth: float) -> np.ndarray:
    """An invented cloth: one band at 660 nm on a cream ground."""
    band = np.exp(-(((wavelength_nm - 660.0) / 75.0) ** 2)) + 0.12
    ground = k_over_s(0.55 + 0.35 / (1 + np.exp(-(wavelength_nm - 430.0) / 30.0)))
    return reflectance_of_k_over_s(ground + depth * band)


def lab(wavelength_nm: np.ndarray, *, depth: float = 6.0) -> np.ndarray:
    readings = indigo(wavelength_nm, depth=depth)
    return lab_of_xyz(xyz_of_spectrum(at_table_wavelengths(wavelength_nm, readings)))


def test_the_tables_sum_to_the_white_of_d65() -> None:
    xyz = (OBSERVER * DAYLIGHT[:, None]).sum(axis=0)
    found = {"x": xyz[0] / xyz.sum(), "y": xyz[1] / xyz.sum()}
    for row in rows("white-points"):
        assert row.agrees(found[row.what])


def test_a_perfect_white_has_no_colour_and_a_flat_grey_neither() -> None:
    """By definition; Y of a flat 0.2 is 0.2, L* 51.84 (own hand: 116 * 0.2^(1/3) - 16)."""
    found = lab_of_xyz(xyz_of_spectrum(np.outer([1.0, 0.2], np.ones(81))))
    np.testing.assert_allclose(found, [[100, 0, 0], [51.837, 0, 0]], atol=2e-3)


@pytest.mark.parametrize("step_nm", [1.0, 2.5, 10.0, 20.0])
def test_other_steps_tell_nearly_the_same_colour(step_nm: float) -> None:
    truth = lab(np.arange(380.0, 781.0, 5.0))
    assert float(ciede2000(lab(np.arange(380.0, 781.0, step_nm)), truth)) < (0.15 if step_nm == 20 else 0.03)


def test_a_range_from_400_to_700_nm_is_enough() -> None:
    assert float(ciede2000(lab(np.arange(400.0, 701.0, 10.0)), lab(np.arange(380.0, 781.0, 5.0)))) < 0.1


def test_uneven_readings_are_joined_without_leaving_their_range() -> None:
    at = np.sort(np.random.default_rng(4).uniform(385.0, 775.0, 24))
    readings = np.random.default_rng(5).uniform(0.02, 0.9, 24)
    found = at_table_wavelengths(at, readings)
    assert readings.min() - 1e-9 <= found.min() and found.max() <= readings.max() + 1e-9


def test_the_reading_at_660_nm_lies_between_its_neighbours() -> None:
    """Own hand: 0.2 at 655 nm and 0.1 at 665 nm make 0.15."""
    at = np.array([400.0, 655.0, 665.0, 700.0])
    found = at_nm(660.0, wavelength_nm=at, reflectance_frac=np.array([0.3, 0.2, 0.1, 0.1]))
    assert float(found) == pytest.approx(0.15)


def test_whiteness_and_tint_of_the_perfect_white_and_of_a_yellowish_one() -> None:
    """Perfect white: W 100, T 0 by definition. Own hand for Y 90, x 0.3100, y 0.3240 (D65/2):
    90 + 800 * 0.0027 + 1700 * 0.0050 = 100.66; T = 2.7 - 3.25 = -0.55."""
    perfect = xyz_of_spectrum(np.ones(81))
    assert (float(whiteness(perfect)), float(tint(perfect))) == pytest.approx((100.0, 0.0), abs=1e-6)
    blued = 0.9 * np.array([0.3100 / 0.3240, 1.0, (1 - 0.3100 - 0.3240) / 0.3240])
    assert float(whiteness(blued)) == pytest.approx(100.66, abs=0.005)
    assert float(tint(blued)) == pytest.approx(-0.55, abs=0.005)
    assert holds(blued)
    assert not holds(0.3 * perfect)


def test_tables_cover_what_the_eye_sees() -> None:
    assert (WAVELENGTHS_NM[0], WAVELENGTHS_NM[-1], len(WAVELENGTHS_NM)) == (380.0, 780.0, 81)
