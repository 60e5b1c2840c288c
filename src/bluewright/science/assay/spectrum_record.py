"""The spectrum record and its answer."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Annotated, Literal

from pydantic import Field

from bluewright.science.assay.common import Doubt, Doubted, Milligrams, Moisture
from bluewright.science.assay.priors import Solvent
from bluewright.science.base.bands import Band
from bluewright.science.base.cautions import Caution
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import LEAST, answer, record

LEAST_POINTS = 3
LEAST_ABSORBANCE = -0.05
"""A blank may read as much more than the sample by noise; beyond, it was no blank of it."""


@record
class Point:
    """What the instrument read at one wavelength."""

    wavelength_nm: Annotated[float, Field(ge=190, le=1100)]
    """Wavelength in nanometres."""
    absorbance: Annotated[float, Field(ge=-1, le=10)]
    """Absorbance (decadic), without unit."""


@record
class Standard:
    """Your own pure indigo, dissolved and read the same way."""

    indigo_mg_per_l: Annotated[float, Field(ge=LEAST, le=10_000)]
    """Indigo in its solution, the standard's own purity counted."""
    sd_frac: Doubt = 0.03
    """How far that may be off: its weighing, dilution and stated purity together (standard deviation)."""
    path_cm: Annotated[float, Field(ge=0.01, le=20)] = 1.0
    """Light path of its cuvette."""
    points: Annotated[tuple[Point, ...], Field(min_length=1, max_length=4000)]
    """Its spectrum; one reading at the peak will do, a whole spectrum also shows the shape of the band."""

    def __post_init__(self) -> None:
        rising(self.points, where="points")


@record
class Absorptivity:
    """A figure for indigo in your solvent, from a paper or from an earlier standard."""

    l_per_g_cm: Annotated[float, Field(ge=1, le=1000)]
    """Absorbance of one gram in a litre through one centimetre, at the peak."""
    sd_frac: Doubt = 0.10
    """How far it may be off (standard deviation)."""
    peak_nm: Annotated[float, Field(ge=500, le=750)] | None = None
    """Where that peak stands; left out: that of the solvent."""


@record
class DilutionCheck:
    """The same solution diluted further: its absorbance must fall as it was thinned."""

    times_factor: Annotated[float, Field(ge=1.1, le=100)] = 2.0
    """How many times thinner: 2 is to half."""
    before_absorbance: Annotated[float, Field(ge=0.001, le=10)]
    """At the peak, as measured."""
    after_absorbance: Annotated[float, Field(ge=0.001, le=10)]
    """At the peak, thinned."""


@record
class SpectrumRecord:
    """A weighed sample of pigment, dissolved, and its spectrum."""

    version: Literal[1] = 1
    """Version of this record."""
    id: Annotated[str, Field(max_length=200)] = ""
    """Your own name for the pigment, given back with the answer."""
    solvent: Solvent
    """What it is dissolved in. `sulphuric_acid`: sulphonated with the hot acid, then diluted with water."""
    sample_mg: Milligrams
    """Pigment that was dissolved."""
    volume_ml: Annotated[float, Field(ge=LEAST, le=100_000)]
    """Volume of the first solution, made up to the mark."""
    dilution_factor: Annotated[float, Field(ge=1, le=1_000_000)] = 1.0
    """How many times that was thinned before it was read: 1 mL made up to 10 mL is 10."""
    path_cm: Annotated[float, Field(ge=0.01, le=20)] = 1.0
    """Light path of the cuvette."""
    points: Annotated[tuple[Point, ...], Field(min_length=LEAST_POINTS, max_length=4000)]
    """The spectrum, from short to long wavelengths."""
    blank: Annotated[tuple[Point, ...], Field(max_length=4000)] = ()
    """Spectrum of the blank, if the instrument has not subtracted it."""
    standard: Standard | None = None
    """Your own pure indigo in the same solvent: surer than any figure from a book."""
    absorptivity: Absorptivity | None = None
    """Or a figure for it; without either that of the literature for the solvent."""
    indirubin: bool = True
    """Whether red indirubin is looked for too."""
    indirubin_l_per_g_cm: Annotated[float, Field(ge=1, le=1000)] | None = None
    """Absorptivity of indirubin at its peak, if you know one; default a rough 40."""
    scatter_exponent: Annotated[float, Field(ge=0, le=4)] | None = None
    """Haze falls with the wavelength to this power; left out, it is fitted."""
    fit_from_nm: Annotated[float, Field(ge=300, le=700)] = 500.0
    """The fit begins here: below, yellow and brown matter absorbs."""
    fit_to_nm: Annotated[float, Field(ge=550, le=1100)] = 750.0
    """The fit ends here."""
    moisture_frac: Moisture | None = None
    """Water in the sample as weighed; default that of air-dry pigment, 0.05; 0 after an oven."""
    scale_sd_mg: Annotated[float, Field(ge=0.0001, le=1000)] = 0.1
    """How far the weighing may be off (standard deviation)."""
    absorbance_sd: Annotated[float, Field(ge=0.0001, le=0.1)] = 0.003
    """Noise of one reading: 0.003 of a bench instrument, 0.01 of a cheap one."""
    most_absorbance: Annotated[float, Field(ge=0.5, le=6)] = 2.5
    """The highest that your instrument reads straight."""
    dilution_check: DilutionCheck | None = None
    """The solution thinned and read again."""
    seed: Annotated[int, Field(ge=0)] = 1
    """Seed of the random draws: the same record and seed give the same answer."""

    def __post_init__(self) -> None:
        if self.fit_to_nm - self.fit_from_nm < 20:
            raise InputError(
                where="fit_to_nm", what=f"a fit from {self.fit_from_nm:g} to {self.fit_to_nm:g} nm holds no band",
                right="leave at least 20 nm, with the peak of indigo (about 610 nm) inside",
            )  # fmt: skip
        rising(self.points, where="points")
        rising(self.blank, where="blank")
        self._check_readings()

    def _check_readings(self) -> None:
        """Enough readings inside the fit, none beyond the instrument, none below nothing."""
        inside = [
            (i, one) for i, one in enumerate(self.points) if self.fit_from_nm <= one.wavelength_nm <= self.fit_to_nm
        ]
        if len(inside) < LEAST_POINTS:
            raise InputError(
                where="points", what=f"{len(inside)} of them lie from {self.fit_from_nm:g} to {self.fit_to_nm:g} nm",
                right=f"give at least {LEAST_POINTS} there: near 540, 610 and 720 nm",
            )  # fmt: skip
        for i, one in inside:
            where = f"points[{i}].absorbance"
            if one.absorbance > self.most_absorbance:
                raise InputError(
                    where=where,
                    what=f"{one.absorbance:g} at {one.wavelength_nm:g} nm is beyond {self.most_absorbance:g}, the "
                    "most that the instrument reads straight",
                    right="dilute and read again; or is it transmittance in per cent?",
                )
            if one.absorbance < LEAST_ABSORBANCE and not self.blank:
                raise InputError(
                    where=where, what=f"{one.absorbance:g} at {one.wavelength_nm:g} nm is less than nothing",
                    right="read the blank anew: it absorbs more than the sample",
                )  # fmt: skip


def rising(points: Sequence[Point], *, where: str) -> None:
    """Raise InputError unless the wavelengths rise, each once."""
    for i, (one, other) in enumerate(pairwise(points), start=1):
        if other.wavelength_nm <= one.wavelength_nm:
            same = other.wavelength_nm == one.wavelength_nm
            raise InputError(
                where=f"{where}[{i}].wavelength_nm",
                what=f"{other.wavelength_nm:g} nm stands {'twice' if same else f'after {one.wavelength_nm:g} nm'}",
                right="give each wavelength once, from short to long",
            )


@answer
class PartAt:
    """What absorbs at one wavelength, by the fit."""

    wavelength_nm: float
    """Where."""
    measured_absorbance: float
    """What was read, the blank subtracted."""
    indigo_absorbance: float
    """Indigo's part."""
    indirubin_absorbance: float
    """Indirubin's part."""
    other_absorbance: float
    """Haze and the rest."""


@answer
class SpectrumAnswer:
    """How much of the pigment is indigo, by its spectrum."""

    version: Literal[1] = 1
    id: str
    indigo_pct: Band
    """Indigo in the dry pigment, per cent by mass."""
    indirubin_pct: Band | None
    """Indirubin in the dry pigment; absent where it was not looked for or cannot be told."""
    indigo_as_weighed_pct: Band
    """Indigo in the pigment as weighed, its water included."""
    indigo_mg_per_l: Band
    """Indigo in the solution that was read."""
    absorptivity_l_per_g_cm: Band
    """Absorptivity of indigo that this rests on."""
    calibration: Literal["standard", "given", "literature"]
    """Where that comes from: your own standard, a figure you gave, or the literature."""
    peak_nm: float
    """Where the fitted band of indigo stands."""
    peak_absorbance: float
    """What was read there."""
    other_frac: float
    """Share of that which is not indigo: haze, indirubin and the rest."""
    scatter_exponent: Band
    """How steeply the haze falls with the wavelength."""
    fit_residual: float
    """Root mean square of what the fit leaves over, in absorbance."""
    dilution_off_pct: float | None
    """How far the thinned solution is off what it should read, per cent; absent without a check."""
    doubts: tuple[Doubted, ...]
    """What makes the result uncertain, the largest first."""
    parts: tuple[PartAt, ...]
    """What absorbs, along the fit."""
    ess: float
    """Effective sample size of the fit."""
    basis: Literal["prior", "readings"]
    """`readings` with a standard of your own; `prior` if the absorptivity is from a book."""
    inputs: SpectrumRecord
    cautions: tuple[Caution, ...]
    sources: tuple[str, ...]
