"""A spectrum of reflectance and the colour that it makes."""

from __future__ import annotations

from itertools import pairwise
from typing import Annotated, Final, Literal

from pydantic import Field

from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import answer, record
from bluewright.science.colour.hues import Hue, Shade

MOST_POINTS: Final = 2500
FROM_NM: Final = 400.0
TO_NM: Final = 700.0
"""What a spectrum must cover to make a colour."""
WIDEST_NM: Final = 25.0
"""How far two readings may lie apart: a step of 20 nm is the coarsest that tells indigo's colour."""
MOST_NM: Final = 2500.0
MOST_FACTOR: Final = 2.0
"""Even brightened paper sends back less than this of what white does."""


@record
class Reflected:
    """What comes back at one wavelength."""

    wavelength_nm: Annotated[float, Field(ge=0.1, le=100_000)]
    """Wavelength in nanometres."""
    reflectance_factor: Annotated[float, Field(ge=-10, le=1000)]
    """Light sent back, white being 1 (not per cent)."""


@record
class ReflectanceRecord:
    """The spectrum of a cloth or a powder, as a spectrometer or a colour meter gives it."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the sample, given back with the answer."""
    points: Annotated[tuple[Reflected, ...], Field(min_length=2, max_length=MOST_POINTS)]
    """The spectrum, from short to long wavelengths, at least from 400 to 700 nm."""
    ground: Annotated[tuple[Reflected, ...], Field(max_length=MOST_POINTS)] = ()
    """The same cloth undyed: depth is then told of the dye alone."""
    noise_sd: Annotated[float, Field(ge=0, le=0.2)] = 0.003
    """Noise of one reading (standard deviation, white being 1)."""
    scale_sd_frac: Annotated[float, Field(ge=0, le=0.2)] = 0.01
    """How far its white may be off (standard deviation)."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        check_points(self.points, where="points")
        if self.ground:
            check_points(self.ground, where="ground")


def check_points(points: tuple[Reflected, ...], *, where: str) -> None:
    """Raise InputError unless these are reflectances by rising nanometres that cover what the eye sees."""
    _check_units(points, where)
    for i, point in enumerate(points):
        if point.reflectance_factor < 0:
            raise InputError(
                where=f"{where}[{i}].reflectance_factor",
                what=f"{point.reflectance_factor:g} at {point.wavelength_nm:g} nm is less than nothing",
                right="take the instrument's black anew; a trace below 0 is noise: write 0",
            )
    for i, (one, other) in enumerate(pairwise(points), start=1):
        if other.wavelength_nm <= one.wavelength_nm:
            same = other.wavelength_nm == one.wavelength_nm
            raise InputError(
                where=f"{where}[{i}].wavelength_nm",
                what=f"{other.wavelength_nm:g} nm stands {'twice' if same else f'after {one.wavelength_nm:g} nm'}",
                right="give each wavelength once, from short to long",
            )
    _check_cover(points, where)


def _check_units(points: tuple[Reflected, ...], where: str) -> None:
    """Nanometres and shares of white, not 1/cm, micrometres or per cent; nor two of them mixed."""
    small = sum(point.wavelength_nm < 10 for point in points)
    large = sum(point.wavelength_nm > MOST_NM for point in points)
    odd, unit, turn = max((small, "micrometres", "1000 times"), (large, "1/cm", "10,000,000 divided by"))
    if odd:
        mixed = "some are" if odd < len(points) else "they are"
        first = next(i for i, p in enumerate(points) if p.wavelength_nm > MOST_NM or p.wavelength_nm < 10)
        raise InputError(
            where=f"{where}[{first}].wavelength_nm",
            what=f"{points[first].wavelength_nm:g} is no wavelength of light in nm: {mixed} in {unit}, it seems",
            right=f"give nanometres throughout: {turn} that number",
        )
    most = max(points, key=lambda point: point.reflectance_factor)
    if most.reflectance_factor > MOST_FACTOR:
        raise InputError(
            where=f"{where}[{points.index(most)}].reflectance_factor",
            what=f"{most.reflectance_factor:g} at {most.wavelength_nm:g} nm is more than white sends back",
            right="white is 1: divide per cent by 100, all of them",
        )


def _check_cover(points: tuple[Reflected, ...], where: str) -> None:
    first, last = points[0].wavelength_nm, points[-1].wavelength_nm
    if first > FROM_NM or last < TO_NM:
        raise InputError(
            where=where, what=f"the spectrum runs from {first:g} to {last:g} nm",
            right=f"a colour needs at least {FROM_NM:g} to {TO_NM:g} nm",
        )  # fmt: skip
    for i, (one, other) in enumerate(pairwise(points), start=1):
        inside = one.wavelength_nm < TO_NM and other.wavelength_nm > FROM_NM
        if inside and other.wavelength_nm - one.wavelength_nm > WIDEST_NM:
            raise InputError(
                where=f"{where}[{i}].wavelength_nm",
                what=f"nothing was read between {one.wavelength_nm:g} and {other.wavelength_nm:g} nm",
                right=f"steps of at most 20 nm, from {FROM_NM:g} to {TO_NM:g} nm",
            )


@answer
class ReflectanceAnswer:
    """The colour and the depth of what the spectrum is of."""

    version: Literal[1] = 1
    id: str
    lab: tuple[float, float, float]
    """L*, a*, b* under D65 for the 2 degree observer."""
    lab_sd: tuple[float, float, float]
    """Standard deviation of each, from the instrument's noise and its white."""
    hue: Hue
    """The word for its hue."""
    shade: Shade
    """How deep it looks."""
    hue_deg: Band
    """Its hue h_ab in degrees; a range across 0 goes on beyond 360 or below 0."""
    chroma: Band
    """How far from grey it is, C*ab."""
    k_over_s: Band
    """Depth: K/S at 660 nm, where indigo absorbs most."""
    dye_k_over_s: Band | None = None
    """The same of the dye alone; absent without the undyed ground."""
    red_k_over_s: Band
    """Depth as a photo would tell it: K/S of red light."""
    darkest_nm: float
    """Where between 400 and 700 nm it sends back least; about 660 on cloth dyed with indigo alone."""
    whiteness: Band | None = None
    """CIE whiteness, where it is near white; for comparing whites read by one instrument."""
    tint: Band | None = None
    """CIE tint, where it is near white: above 0 greenish, below reddish."""
    basis: Literal["readings"]
    """It rests on your own reading."""
    inputs: ReflectanceRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
