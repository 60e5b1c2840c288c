"""The text that an instrument exports, to readings of absorbance."""

from __future__ import annotations

from typing import Final

from bluewright.science.assay.spectrum_record import LEAST_POINTS, Point
from bluewright.science.base.errors import InputError
from bluewright.science.base.spectrum_table import readings

WRITE: Final = "write two columns, wavelength_nm,absorbance, with decimal points"


def points(text: str, *, least: int = LEAST_POINTS) -> tuple[Point, ...]:
    """The readings of a table, `least` or more, from short to long wavelengths; InputError names the line."""
    found = readings(text, least=least, write=WRITE)
    return tuple(Point(wavelength_nm=at, absorbance=_possible(line, value)) for line, at, value in found)


def _possible(line: int, value: float) -> float:
    if not -1 <= value <= 10:
        transmittance = "is it transmittance in per cent? Give absorbance, -log10(T)" if value > 0 else WRITE
        raise InputError(where=f"line {line}", what=f"{value:g} is no absorbance", right=transmittance)
    return value
