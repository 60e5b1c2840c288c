"""A one-band meter: a bent line through one's own standards, read backwards."""

from __future__ import annotations

import numpy as np

from bluewright.science.assay import priors
from bluewright.science.assay.common import check_method, dry_frac, possible
from bluewright.science.assay.dangers import solvent_cautions
from bluewright.science.assay.led_record import LedAnswer, LedRecord
from bluewright.science.base.bands import Band, band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.errors import InputError, ModelError
from bluewright.science.base.sourced import Floats

DRAWS = 4000
LEAST_NOISE = 0.0005
"""No meter repeats better, however few standards happen to lie on a line."""
BENT_PCT = 15.0


def led(record: LedRecord, *, rng: np.random.Generator) -> LedAnswer:
    """Indigo by a meter of one wide band, whose line bends: absorbance = a + b c + d c^2 through the standards.

    The doubt of the line (Student's t for few standards), of the readings, of standard, weighing and volumes are drawn.
    Raises InputError where the sample reads beyond the standards, ModelError where they do not rise. Source: Beer's
    law holds for one wavelength only; over a band the reading falls behind (common practice: a quadratic).
    """
    strength = np.array([step.indigo_mg_per_l for step in record.steps])
    read = np.array([step.reading_absorbance for step in record.steps])
    mean = float(np.mean(record.readings_absorbance))
    if not read.min() <= mean <= read.max():
        raise InputError(
            where="readings_absorbance", what=f"{mean:.3f} lies beyond the standards, {read.min():g} to {read.max():g}",
            right="dilute the sample, or read more standards on that side",
        )  # fmt: skip
    lines, noise = _lines(strength / strength.max(), read, rng)
    around = max(float(np.std(record.readings_absorbance, ddof=1)), noise) / np.sqrt(3)
    seen = mean + around * rng.standard_t(2 + len(strength) - 3, DRAWS)
    mg_per_l = strength.max() * _backwards(lines, seen)
    errors = (
        record.standard_sd_frac, min(record.scale_sd_mg / record.sample_mg, 0.5), priors.VOLUME_SD.value,
        priors.DISSOLVED_BESIDE_SD.value, priors.BACKGROUND_BESIDE_SD.value,
    )  # fmt: skip
    off = np.exp(sum(sd * rng.standard_normal(DRAWS) for sd in errors))
    dry = dry_frac(record.moisture_frac, rng=rng, draws=DRAWS)
    pct = band(100.0 * mg_per_l * record.volume_ml / 1000 * record.dilution_factor / record.sample_mg * off / dry)
    possible(pct, where="sample_mg")
    middle = np.median(lines, axis=0)
    bend = -100.0 * float(middle[2]) / max(float(middle[1]), 1e-9)
    return LedAnswer(
        id=record.id, indigo_pct=pct, indigo_mg_per_l=band(mg_per_l), bend_pct=significant(bend, 3),
        fit_residual=significant(noise, 3), basis="readings", inputs=record,
        cautions=_cautions(record, bend, pct), sources=("common-practice", priors.CHECK_ABOVE_PCT.source),
    )  # fmt: skip


def _lines(at: Floats, read: Floats, rng: np.random.Generator) -> tuple[Floats, float]:
    """Draws of a, b, d (DRAWS, 3) and the noise; raises ModelError where the line does not rise along the standards."""
    columns = np.stack([np.ones_like(at), at, at**2], axis=1)
    inverse = np.linalg.pinv(columns.T @ columns)
    best = inverse @ columns.T @ read
    free = len(at) - 3
    noise = max(float(np.sqrt(np.sum((read - columns @ best) ** 2) / free)), LEAST_NOISE)
    root = np.linalg.cholesky(inverse + 1e-12 * np.eye(3))
    drawn = best + noise * rng.standard_t(free, (DRAWS, 1)) * (rng.standard_normal((DRAWS, 3)) @ root.T)
    rises = (drawn[:, 1] > 0) & (drawn[:, 1] + 2 * drawn[:, 2] > 0)
    if rises.mean() < 0.5:
        raise ModelError("These standards do not rise with their strength: is one of them mixed up, or too strong?")
    return drawn[rng.choice(np.flatnonzero(rises), size=DRAWS)], noise


def _backwards(lines: Floats, seen: Floats) -> Floats:
    """The strength (share of the strongest standard) at which each line reads what was seen; 0 where it reads more."""
    rest, slope, bend = lines[:, 0] - seen, lines[:, 1], lines[:, 2]
    inside = np.maximum(slope**2 - 4 * bend * rest, 0.0)
    return np.asarray(np.maximum(-2 * rest / (slope + np.sqrt(inside)), 0.0))


def _cautions(record: LedRecord, bend_pct: float, pct: Band) -> tuple[Caution, ...]:
    found = [*solvent_cautions(record.solvent)]
    if abs(bend_pct) > BENT_PCT:
        text = f"The line bends by {bend_pct:.0f}% at the strongest standard: work in its lower half."
        found.append(caution("not-linear", text))
    text = (
        "One band cannot tell indigo from what else absorbs there (indirubin, brown matter, haze): it counts as indigo."
    )
    return (*found, caution("one-band", text), *check_method(pct))
