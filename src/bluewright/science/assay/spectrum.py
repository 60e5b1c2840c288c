"""From the spectrum of a dissolved pigment to its share of indigo and indirubin."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from bluewright.science.assay import priors
from bluewright.science.assay.bands_fit import SCATTER_NM, Fit, fit, thinned
from bluewright.science.assay.common import Doubted, check_method, dry_frac, possible
from bluewright.science.assay.dangers import solvent_cautions
from bluewright.science.assay.priors import LITERATURE
from bluewright.science.assay.spectrum_record import PartAt, SpectrumAnswer, SpectrumRecord
from bluewright.science.base.bands import Band, band, significant
from bluewright.science.base.cautions import Caution, those_that_hold
from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats, Prior

DRAWS = 2000
SEEN_NM: Final = (570.0, 660.0)
"""Where the top of indigo's band is looked for."""
ENOUGH: Final = 8
"""Readings there from which the top is believed; and a standard's, from which its shape is."""
INDIRUBIN_BELOW_NM: Final = 570.0
PEAK_FAR_NM: Final = 8.0
WIDE_MISFIT: Final = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Read:
    """The readings inside the fit, blank subtracted and thinned."""

    wavelength_nm: Floats
    values: Floats
    two: bool
    """Whether indirubin is looked for."""
    top_nm: float


def spectrum(record: SpectrumRecord, *, rng: np.random.Generator) -> SpectrumAnswer:
    """Indigo and indirubin in the pigment by least squares of its spectrum.

    Formula: A = l (a c s(w) + a' c' s'(w)) + B (w / 700 nm)^-n; share = c V D / (m (1 - moisture)).
    Raises InputError (from the record; for a solvent without any figure; for more indigo than pigment) and ModelError
    where no indigo explains the readings. Source: Beer's law; constants in `assay.priors`.
    """
    absorptivity, calibration = _absorptivity(record)
    read = _read(record)
    bands = _bands(record, read)
    found = fit(
        read.wavelength_nm, read.values, bands.shapes, size=bands.size, noise_sd=record.absorbance_sd,
        exponent=record.scatter_exponent, draws=DRAWS, rng=rng,
    )  # fmt: skip
    own = absorptivity.draw(rng, DRAWS)
    errors = _errors(record, calibration)
    off = np.exp(sum(sd * rng.standard_normal(DRAWS) for sd in errors.values()))
    mg_per_l = 1000.0 * found.parts_absorbance[:, 0] / (own * record.path_cm)
    to_pct = 100.0 * record.volume_ml / 1000.0 * record.dilution_factor / record.sample_mg * off
    dry = dry_frac(record.moisture_frac, rng=rng, draws=DRAWS)
    indigo_pct = band(mg_per_l * to_pct / dry)
    possible(indigo_pct, where="sample_mg")
    red = _indirubin(record, found, read, to_pct / dry, rng)
    peak_nm = float(np.mean(bands.tops_nm(found.shape_z)))
    return SpectrumAnswer(
        id=record.id, indigo_pct=indigo_pct, indirubin_pct=red, indigo_as_weighed_pct=band(mg_per_l * to_pct),
        indigo_mg_per_l=band(mg_per_l), absorptivity_l_per_g_cm=band(own), calibration=calibration,
        peak_nm=significant(peak_nm), peak_absorbance=significant(float(np.interp(peak_nm, *_whole(record)))),
        other_frac=significant(_other_frac(record, found, peak_nm)), scatter_exponent=band(found.exponent),
        fit_residual=significant(found.residual_absorbance, 3), dilution_off_pct=_off_pct(record),
        doubts=_doubts(found, own, dry, errors), parts=_parts(read, found, bands), ess=significant(found.ess),
        basis="readings" if calibration == "standard" else "prior", inputs=record,
        cautions=_cautions(record, found, calibration, peak_nm, red, indigo_pct),
        sources=tuple(sorted({absorptivity.source, priors.CHECK_ABOVE_PCT.source, "common-practice"})),
    )  # fmt: skip


def _absorptivity(record: SpectrumRecord) -> tuple[Prior, Literal["standard", "given", "literature"]]:
    """Absorptivity of indigo at its peak, L/(g cm), and where it comes from."""
    given, standard = record.absorptivity, record.standard
    if standard is not None:
        top = max(one.absorbance for one in standard.points)
        if top <= 0:
            raise InputError(
                where="standard.points", what="the standard absorbs nothing", right="read it where indigo absorbs"
            )
        slope = 1000.0 * top / (standard.indigo_mg_per_l * standard.path_cm)
        return _known(slope, standard.sd_frac, "your own standard"), "standard"
    if given is not None:
        return _known(given.l_per_g_cm, given.sd_frac, "given in the record"), "given"
    known = LITERATURE[record.solvent].l_per_g_cm
    if known is None:
        raise InputError(
            where="absorptivity", what="no figure for indigo in this solvent is known here",
            right="read a standard of your own in it, or give a figure with its source",
        )  # fmt: skip
    return known, "literature"


def _known(value: float, sd: float, note: str) -> Prior:
    return Prior(
        kind="lognormal",
        centre=value,
        spread=sd,
        unit="L/(g cm)",
        source="common-practice",
        grade="measured",
        note=note,
    )


def _whole(record: SpectrumRecord) -> tuple[Floats, Floats]:
    """Wavelengths and absorbances of all readings, the blank subtracted."""
    at = np.array([one.wavelength_nm for one in record.points])
    values = np.array([one.absorbance for one in record.points])
    if record.blank:
        blank_at = np.array([one.wavelength_nm for one in record.blank])
        inside = at[(at >= record.fit_from_nm) & (at <= record.fit_to_nm)]
        if blank_at[0] > inside[0] or blank_at[-1] < inside[-1]:
            raise InputError(
                where="blank", what=f"it runs from {blank_at[0]:g} to {blank_at[-1]:g} nm",
                right=f"read it from {inside[0]:g} to {inside[-1]:g} nm, like the sample",
            )  # fmt: skip
        values = values - np.interp(at, blank_at, [one.absorbance for one in record.blank])
    return at, values


def _read(record: SpectrumRecord) -> _Read:
    at, values = _whole(record)
    inside = (at >= record.fit_from_nm) & (at <= record.fit_to_nm)
    wavelength_nm, thin = thinned(at[inside], values[inside])
    two = record.indirubin and len(thin) >= 4 and bool(wavelength_nm[0] <= INDIRUBIN_BELOW_NM)
    return _Read(wavelength_nm=wavelength_nm, values=thin, two=two, top_nm=_top_nm(record, wavelength_nm, thin))


def _book_top_nm(record: SpectrumRecord) -> float:
    given = record.absorptivity.peak_nm if record.absorptivity is not None else None
    return LITERATURE[record.solvent].peak_nm.value if given is None else given


def _top_nm(record: SpectrumRecord, wavelength_nm: Floats, values: Floats) -> float:
    """Where the band's top seems to be: as read, if enough readings show it inside; else as the solvent's is known."""
    near = (wavelength_nm >= SEEN_NM[0]) & (wavelength_nm <= SEEN_NM[1])
    if near.sum() < ENOUGH:
        return _book_top_nm(record)
    at, height = wavelength_nm[near], values[near]
    high = int(np.argmax(height))
    if high in {0, len(height) - 1}:
        return _book_top_nm(record)
    bend = np.polyfit(at[high - 1 : high + 2] - at[high], height[high - 1 : high + 2], 2)
    return float(at[high] - bend[1] / (2 * bend[0])) if bend[0] < 0 else float(at[high])


@dataclass(frozen=True, slots=True, kw_only=True)
class _Bands:
    """The bands by their scores: indigo's top and two widths unless a standard shows them, then the same of the red."""

    at: Floats
    top_nm: float
    own: Floats | None
    """The shape that the standard's spectrum shows at the readings."""
    two: bool

    @property
    def size(self) -> int:
        """How many scores the shapes take."""
        return (0 if self.own is not None else 3) + (3 if self.two else 0)

    def tops_nm(self, z: Floats) -> Floats:
        """Where the band of indigo stands, shape (n,)."""
        if self.own is not None:
            return np.full(len(z), self.top_nm)
        return np.asarray(self.top_nm + priors.PEAK_SD_NM.value * z[:, 0])

    def shapes(self, z: Floats) -> Floats:
        """Each band 1 at its top, shape (n, readings, colours)."""
        if self.own is not None:
            blue = np.broadcast_to(self.own, (len(z), len(self.at)))
        else:
            left, right = (w.from_z(z[:, k]) for k, w in enumerate(priors.INDIGO_WIDTHS_NM, start=1))
            blue = _bell(self.at, self.tops_nm(z), [left, right])
        if not self.two:
            return blue[:, :, None]
        reds = priors.INDIRUBIN_PEAK_NM.from_z(z[:, -3])
        left, right = (w.from_z(z[:, k]) for k, w in zip((-2, -1), priors.INDIRUBIN_WIDTHS_NM, strict=True))
        return np.stack([blue, _bell(self.at, reds, [left, right])], axis=2)


def _bands(record: SpectrumRecord, read: _Read) -> _Bands:
    """The bands to be looked for; raises InputError where the standard's spectrum is too short."""
    at, standard = read.wavelength_nm, record.standard
    if standard is None or len(standard.points) < ENOUGH:
        return _Bands(at=at, top_nm=read.top_nm, own=None, two=read.two)
    own_at = np.array([one.wavelength_nm for one in standard.points])
    own = np.array([one.absorbance for one in standard.points])
    if own_at[0] > at[0] or own_at[-1] < at[-1]:
        raise InputError(
            where="standard.points", what=f"they run from {own_at[0]:g} to {own_at[-1]:g} nm",
            right=f"read the standard from {at[0]:g} to {at[-1]:g} nm, like the sample, or give its peak alone",
        )  # fmt: skip
    shape = np.interp(at, own_at, own / own.max())
    return _Bands(at=at, top_nm=float(own_at[np.argmax(own)]), own=shape, two=read.two)


def _bell(at: Floats, tops: Floats, widths: list[Floats]) -> Floats:
    """Bands of two half bells, shape (tops, at)."""
    off = at[None, :] - tops[:, None]
    width = np.where(off < 0, widths[0][:, None], widths[1][:, None])
    return np.exp(-0.5 * (off / width) ** 2)


def _errors(record: SpectrumRecord, calibration: str) -> dict[str, float]:
    """Relative standard deviations beside those of the fit and of the absorptivity."""
    beside = calibration == "standard"
    return {
        "weighing": min(record.scale_sd_mg / record.sample_mg, 0.5),
        "volumes": priors.VOLUME_SD.value * (1.0 if record.dilution_factor == 1 else 2.0**0.5),
        "photometer": priors.PHOTOMETER_SD.value,
        "dissolving": (priors.DISSOLVED_BESIDE_SD if beside else priors.DISSOLVED_SD).value,
        "background": (priors.BACKGROUND_BESIDE_SD if beside else priors.BACKGROUND_SD).value,
    }


def _indirubin(
    record: SpectrumRecord, found: Fit, read: _Read, to_pct: Floats, rng: np.random.Generator
) -> Band | None:
    if not read.two:
        return None
    prior, given = priors.INDIRUBIN_L_PER_G_CM, record.indirubin_l_per_g_cm
    own = prior.draw(rng, DRAWS) if given is None else given * np.exp(0.1 * rng.standard_normal(DRAWS))
    return band(1000.0 * found.parts_absorbance[:, 1] / (own * record.path_cm) * to_pct)


def _other_frac(record: SpectrumRecord, found: Fit, peak_nm: float) -> float:
    """Share of the absorbance at the peak that is not indigo, between 0 and 1."""
    whole = float(np.interp(peak_nm, *_whole(record)))
    if whole <= 0:
        return 0.0
    return float(np.clip(1.0 - np.median(found.parts_absorbance[:, 0]) / whole, 0.0, 1.0))


def _off_pct(record: SpectrumRecord) -> float | None:
    check = record.dilution_check
    if check is None:
        return None
    return significant(100.0 * (check.after_absorbance * check.times_factor / check.before_absorbance - 1.0), 3)


def _doubts(found: Fit, own: Floats, dry: Floats, errors: dict[str, float]) -> tuple[Doubted, ...]:
    blue = found.parts_absorbance[:, 0]
    named = {
        "fit": float(np.std(blue) / np.mean(blue)), "absorptivity": float(np.std(np.log(own))),
        "moisture": float(np.std(dry) / np.mean(dry)), **errors,
    }  # fmt: skip
    ranked = sorted(named.items(), key=lambda one: -one[1])
    return tuple(Doubted(name=name, sd_frac=significant(min(sd, 1.0), 2)) for name, sd in ranked)


def _parts(read: _Read, found: Fit, bands: _Bands) -> tuple[PartAt, ...]:
    """The median of each part at each reading."""
    some = slice(0, 400)
    shape = bands.shapes(found.shape_z[some])
    colours = np.median(shape * found.parts_absorbance[some, None, :-1], axis=0)
    haze = (read.wavelength_nm[None, :] / SCATTER_NM) ** -found.exponent[some, None]
    other = np.median(found.parts_absorbance[some, -1:] * haze, axis=0)
    return tuple(
        PartAt(
            wavelength_nm=significant(at, 5),
            measured_absorbance=significant(value),
            indigo_absorbance=significant(colour[0]),
            indirubin_absorbance=significant(colour[1]) if read.two else 0.0,
            other_absorbance=significant(rest),
        )
        for at, value, colour, rest in zip(read.wavelength_nm, read.values, colours, other, strict=True)
    )


def _cautions(
    record: SpectrumRecord, found: Fit, calibration: str, peak_nm: float, red: Band | None, indigo_pct: Band
) -> tuple[Caution, ...]:
    """What is dangerous first, then what to doubt."""
    peak, off = float(np.interp(peak_nm, *_whole(record))), _off_pct(record)
    book, spread = _book_top_nm(record), record.absorbance_sd
    left, hazy = found.residual_absorbance, float(np.median(found.parts_absorbance[:, -1]))
    said = {
        (
            "beer-range",
            f"The peak reads {peak:.2f}: best between {priors.BEER_FROM.value:g} and {priors.BEER_TO.value:g}. "
            f"{'Take more sample or dilute less.' if peak < priors.BEER_FROM.value else 'Dilute and read again.'}",
        ): not priors.BEER_FROM.value <= peak <= priors.BEER_TO.value,
        (
            "not-linear",
            f"Thinned, it reads {off or 0:+.1f}% off what it should: indigo was falling out, or the instrument bends. "
            "Warm it, filter, and read thinner.",
        ): off is not None and abs(off) > 100 * priors.HALVES_WITHIN.value,
        (
            "peak-far",
            f"The band stands at {peak_nm:.0f} nm, not near {book:.0f} nm as indigo does in this solvent: another "
            "solvent, another dye, or a wavelength scale that is off?",
        ): calibration != "standard" and abs(peak_nm - book) > PEAK_FAR_NM,
        (
            "poor-fit",
            f"The fit leaves {left:.3f} of absorbance over, more than noise of {spread:g} would: something "
            "else absorbs there. Filter, or subtract a blank of washed extract.",
        ): found.residual_absorbance > WIDE_MISFIT * spread,
        (
            "hazy",
            f"Haze reads {hazy:.2f} at 700 nm beside a peak of {peak:.2f}: filter through 0.45 um and read again.",
        ): hazy > 0.2 * max(peak, 1e-9),
        (
            "book-figure",
            "The absorptivity is a figure recalled from a book, good to a tenth at best: a weighed standard of pure "
            "indigo in the same solvent would halve the doubt.",
        ): calibration == "literature",
        (
            "indirubin-scale",
            "For indirubin only the order of its absorptivity is known here: compare its share from pigment to "
            "pigment, and do not take it as a measured per cent.",
        ): red is not None and record.indirubin_l_per_g_cm is None,
    }
    found_to_say = list(those_that_hold(said))
    return (*solvent_cautions(record.solvent), *found_to_say, *check_method(indigo_pct))
