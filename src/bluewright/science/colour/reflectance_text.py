"""The table that a spectrometer exports, to readings of reflectance."""

from __future__ import annotations

from typing import Final

from bluewright.science.base.spectrum_table import readings
from bluewright.science.colour.reflectance_record import MOST_FACTOR, Reflected

LEAST_POINTS: Final = 16
"""From 400 to 700 nm every 20 nm."""
WRITE: Final = "write two columns, wavelength_nm,reflectance, with decimal points"


def points(text: str) -> tuple[Reflected, ...]:
    """The readings of a table, from short to long wavelengths. Raises InputError that names the line.

    A table with a number above 2 is in per cent, all of it: nothing sends back more than twice as much as white.
    """
    found = readings(text, least=LEAST_POINTS, write=WRITE)
    per = 100.0 if max(value for _line, _at, value in found) > MOST_FACTOR else 1.0
    return tuple(Reflected(wavelength_nm=at, reflectance_factor=value / per) for _line, at, value in found)
