"""Indigo by titration or by its nitrogen."""

from __future__ import annotations

from typing import Final

import numpy as np

from bluewright.science.assay.common import check_method, dry_frac, possible
from bluewright.science.assay.dangers import LABORATORY
from bluewright.science.assay.factors import (
    ELECTRONS,
    NITROGEN_PER_PROTEIN,
    Titrant,
    indigo_g_per_g_nitrogen,
    indigo_mg_per_ml,
)
from bluewright.science.assay.priors import CHECK_ABOVE_PCT
from bluewright.science.assay.titration_record import Method, TitrationAnswer, TitrationRecord
from bluewright.science.base.bands import band, significant
from bluewright.science.base.cautions import Caution, caution, those_that_hold
from bluewright.science.base.errors import InputError
from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.media.stoichiometry import ATOMIC_WEIGHT

DRAWS = 4000

OTHERS: Final[dict[Method, Prior]] = {
    "dithionite": Prior(
        kind="lognormal", centre=1.0, spread=0.06, unit="1", source="villavecchia-1918", grade="guess",
        note="air takes titrant, and whatever else can be reduced counts",
    ),
    "permanganate": Prior(
        kind="lognormal", centre=1.0, spread=0.15, unit="1", source="lee-indigo-assay", grade="guess",
        note="always too high, by other matter that is oxidised",
    ),
    "titanium": Prior(
        kind="lognormal", centre=1.0, spread=0.05, unit="1", source="common-practice", grade="guess",
        note="the same as dithionite, under inert gas",
    ),
    "kjeldahl": Prior(
        kind="lognormal", centre=1.0, spread=0.03, unit="1", source="common-practice", grade="practice",
        note="digestion and distillation",
    ),
}  # fmt: skip
"""Titrant used over titrant that indigo alone would use, where no standard was titrated the same way."""
PROTEIN_FRAC: Final = Prior(
    kind="normal", centre=0.03, spread=0.03, unit="1", source="common-practice", grade="guess",
    note="protein left in washed pigment; cut at none",
)  # fmt: skip
PROTEIN_SD: Final = Sourced(
    value=0.005, unit="1", source="common-practice", low=0.002, high=0.01, grade="guess",
    note="how far a given share of protein may be off",
)  # fmt: skip


def titration(record: TitrationRecord, *, rng: np.random.Generator) -> TitrationAnswer:
    """Indigo by what reduces, oxidises or counts it.

    Formula: indigo = (titre - blank) f / sample; f from electrons (`assay.factors`) or from pure indigo titrated the
    same way; nitrogen times 9.362 less 1.5 for each share of protein. Raises InputError (from the record; for more
    indigo than pigment, or none beside the protein). Sources: Villavecchia; Tennant Lee; atomic weights.
    """
    factor = _factor_mg_per_ml(record)
    ml = record.titre_ml - record.blank_titre_ml
    many = 1 if record.blank_titre_ml == 0 else 2**0.5
    noise = min(record.titre_sd_ml * many / ml, 0.5)
    errors = [noise, min(record.scale_sd_mg / record.sample_mg, 0.5)]
    errors += [record.titrant_sd_frac if record.standardised is None else record.standardised.sd_frac]
    off = np.exp(sum(sd * rng.standard_normal(DRAWS) for sd in errors))
    if record.standardised is None:
        off = off / OTHERS[record.method].draw(rng, DRAWS)
    dry = dry_frac(record.moisture_frac, rng=rng, draws=DRAWS)
    apparent = 100.0 * ml * factor / record.sample_mg
    pct = band(_less_protein(record, apparent * off / dry, rng))
    possible(pct, where="titre_ml")
    bound = record.method == "permanganate" and record.standardised is None
    return TitrationAnswer(
        id=record.id, indigo_pct=pct, apparent_pct=significant(apparent), factor_mg_per_ml=significant(factor),
        bound="at_most" if bound else "about", basis="prior" if record.standardised is None else "readings",
        inputs=record, cautions=(*_cautions(record, noise), *check_method(pct)),
        sources=tuple(sorted({OTHERS[record.method].source, "iupac-atomic-weights-2021", CHECK_ABOVE_PCT.source})),
    )  # fmt: skip


def _factor_mg_per_ml(record: TitrationRecord) -> float:
    if record.method == "kjeldahl":
        return indigo_g_per_g_nitrogen() * ATOMIC_WEIGHT["N"].value * record.titrant_mol_per_l
    known = record.standardised
    if known is not None:
        return known.standard_mg * known.standard_frac / known.standard_ml
    titrant: Titrant = record.method
    assert titrant in ELECTRONS
    return indigo_mg_per_ml(titrant, titrant_mol_per_l=record.titrant_mol_per_l)


def _less_protein(record: TitrationRecord, pct: Floats, rng: np.random.Generator) -> Floats:
    """Of nitrogen, the part that is protein's taken off; a draw with more protein than nitrogen holds no indigo."""
    if record.method != "kjeldahl":
        return pct
    if record.protein_frac is None:
        protein = np.maximum(PROTEIN_FRAC.draw(rng, DRAWS), 0.0)
    else:
        protein = np.maximum(record.protein_frac + PROTEIN_SD.value * rng.standard_normal(DRAWS), 0.0)
    left = pct - 100.0 * protein * indigo_g_per_g_nitrogen() / NITROGEN_PER_PROTEIN.value
    if np.median(left) <= 0:
        raise InputError(
            where="protein_frac" if record.protein_frac is not None else "titre_ml",
            what="the protein would hold all of this nitrogen and more", right="wash the pigment and titrate again",
        )  # fmt: skip
    return np.maximum(left, 0.0)


DANGERS: Final[dict[Method, str]] = {
    "dithionite": "Sulphonating takes hot concentrated sulphuric acid. Dithionite heats itself when damp, may catch "
    "fire, and gives off sulphur dioxide with acid.",
    "permanganate": "Sulphonating takes hot concentrated sulphuric acid. Permanganate sets fire to what burns, and "
    "strong acid makes it explosive: only its thin solution meets thin acid.",
    "titanium": "Sulphonating takes hot concentrated sulphuric acid. Titanium(III) chloride comes in strong "
    "acid and fumes.",
    "kjeldahl": "Digestion boils concentrated sulphuric acid for hours, then strong lye meets it.",
}


def _cautions(record: TitrationRecord, noise: float) -> tuple[Caution, ...]:
    said = {
        (
            "too-high",
            "Permanganate also oxidises indirubin, brown matter and whatever else it can: without pure indigo titrated "
            "the same way this is the most that can be in it, not what is.",
        ): record.method == "permanganate" and record.standardised is None,
        (
            "protein-guessed",
            "Each per cent of protein left in the pigment counts as one and a half of indigo; 3% was taken off by "
            "guess. Wash with hot water and thin alkali first.",
        ): record.method == "kjeldahl" and record.protein_frac is None,
        (
            "small-titre",
            f"An end point is only good to {100 * noise:.0f}% of this titre: weigh in more pigment.",
        ): noise > 0.05,
    }  # fmt: skip
    lab = caution(f"lab-{record.method}", f"{LABORATORY}{DANGERS[record.method]} Go by labels and local rules.")
    return (lab, *those_that_hold(said))
