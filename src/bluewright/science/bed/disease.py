"""How much of the leaf is damaged over the bed, and what does it cost in blue?

A share of the leaves is clean; the logit of the damaged area of the others is normal. Its middle and spread are
integrated over a grid under wide priors; the eye that scored is allowed to be off. Cost: what is eaten is gone, and
what is spotted changes the precursor by a factor that nobody has measured (`media.precursor.DAMAGE`).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Final

import numpy as np

from bluewright.science.base.bands import band
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Floats, Prior, Sourced
from bluewright.science.bed.causes import CAUSES, SPRAY
from bluewright.science.bed.disease_record import DiseaseAnswer, DiseaseRecord, Grade, GradeCount
from bluewright.science.bed.grid import drawn
from bluewright.science.media.precursor import CONTENT, DAMAGE, GOT_FRAC
from bluewright.science.media.stoichiometry import INDIGO_G_PER_MMOL_PRECURSOR

DRAWS: Final = 4000
GRADE_TOPS: Final[dict[Grade, float]] = {
    "clean": 0.0, "touch": 0.01, "light": 0.05, "clear": 0.10, "heavy": 0.25, "half": 0.50, "ruined": 1.0,
}  # fmt: skip
"""The upper end of each grade of damage, share of the leaf's area: our own, one drawn leaf for each."""

DAMAGED_SHARE: Final = Prior(
    kind="logitnormal", centre=0.06, spread=1.5, unit="1", source="bluewright-bed", grade="guess",
    note="area that is damaged on the middle one of the leaves that are damaged at all: 0.5 to 43 %",
)  # fmt: skip
UNLIKENESS: Final = Prior(
    kind="lognormal", centre=1.3, spread=0.35, unit="1", source="bluewright-bed", grade="guess",
    note="standard deviation of the logit of the damaged area, from leaf to damaged leaf",
)  # fmt: skip
EYE: Final = Prior(
    kind="normal", centre=0.0, spread=0.25, unit="1", source="chiang-2014", grade="guess",
    note="logit of what an untrained eye sees over what is there: that it errs is from there, the size is a judgement",
)  # fmt: skip
EYE_WITH_KEY: Final = Prior(
    kind="normal", centre=0.0, spread=0.12, unit="1", source="chiang-2014", grade="guess",
    note="the same with drawn leaves beside it",
)  # fmt: skip
LEAST_SCORE: Final = Sourced(
    value=0.0005, unit="1", source="chiang-2014", low=0.0001, high=0.001, grade="practice",
    note="half of the lowest step above 0 that people tell, 0.1 %",
)  # fmt: skip
MOST_SCORE: Final = Sourced(
    value=0.98, unit="1", source="common-practice", low=0.95, high=0.995, grade="guess",
    note="a leaf scored as wholly damaged: the eye passes over the last green",
)  # fmt: skip
FEW_LEAVES: Final = Sourced(
    value=10.0,
    unit="1",
    source="common-practice",
    low=10.0,
    high=20.0,
    grade="practice",
    note="leaves at least",
)


def disease(record: DiseaseRecord, *, rng: np.random.Generator) -> DiseaseAnswer:
    """Mean damage of the bed's leaf with its range, and its cost in blue.

    Formula: cost of a kilogram = 1 - exp(D s); of a square metre = 1 - (1 - e) exp(D s); s spotted, e eaten, D
    `media.precursor.DAMAGE`. Sources: Chiang 2014 for scoring by nearest percent, Chiang 2017 for means of percents
    and not of grades.
    """
    spotted = _mean_frac(record.spotted_pct, with_key=record.with_key, rng=rng)
    eaten = _mean_frac(record.eaten_pct, with_key=record.with_key, rng=rng)
    nothing = np.zeros(DRAWS)
    kept = np.exp(DAMAGE.draw(rng, DRAWS) * (nothing if spotted is None else spotted))
    sound_g_per_kg = INDIGO_G_PER_MMOL_PRECURSOR * CONTENT[record.plant].draw(rng, DRAWS) * GOT_FRAC.draw(rng, DRAWS)
    return DiseaseAnswer(
        id=record.id,
        spotted_frac=None if spotted is None else band(spotted),
        eaten_frac=None if eaten is None else band(eaten),
        touched_frac=band(_touched(record, rng)),
        grades=_grades(record),
        cost_per_kg_frac=band(1 - kept),
        cost_per_m2_frac=band(1 - kept * (1 - (nothing if eaten is None else eaten))),
        cost_g=None if record.leaf_kg is None else band(record.leaf_kg * sound_g_per_kg * (1 - kept)),
        basis="readings",
        inputs=record,
        cautions=_cautions(record),
        sources=tuple(sorted({"bluewright-bed", "bluewright-leaf", "chiang-2014", "chiang-2017", GOT_FRAC.source})),
    )


def mean_draws(scores_frac: Floats, *, n: int, rng: np.random.Generator) -> Floats:
    """`n` draws, (n,), of the mean damage over all leaves of the bed, given scores of some (k,).

    The eye's error is left out.
    """
    touched = np.clip(scores_frac[scores_frac > 0], LEAST_SCORE.value, MOST_SCORE.value)
    share = rng.beta(len(touched) + 0.5, len(scores_frac) - len(touched) + 0.5, n)
    logits = np.log(touched / (1 - touched))
    many, total, squares = len(logits), float(logits.sum()), float((logits**2).sum())
    usual, unlike = math.log(DAMAGED_SHARE.centre / (1 - DAMAGED_SHARE.centre)), math.log(UNLIKENESS.centre)

    def _log_density(middle: Floats, log_sd: Floats) -> Floats:
        off = squares - 2 * total * middle + many * middle**2
        return np.asarray(
            -many * log_sd[None, :]
            - 0.5 * off[:, None] / np.exp(2 * log_sd)[None, :]
            - 0.5 * ((middle[:, None] - usual) / DAMAGED_SHARE.spread) ** 2
            - 0.5 * ((log_sd[None, :] - unlike) / UNLIKENESS.spread) ** 2
        )

    reach = 5 * UNLIKENESS.spread
    middle, log_sd = drawn(_log_density, box=((usual - 9, usual + 9), (unlike - reach, unlike + reach)), n=n, rng=rng)
    places, weights = np.polynomial.hermite_e.hermegauss(15)
    areas = 1 / (1 + np.exp(-(middle[:, None] + np.exp(log_sd)[:, None] * places)))
    return np.asarray(share * (areas @ (weights / weights.sum())))


def _mean_frac(scores_pct: tuple[float, ...], *, with_key: bool, rng: np.random.Generator) -> Floats | None:
    """Draws of the mean damage with the eye's error; None where nothing was scored."""
    if not scores_pct:
        return None
    found = np.clip(mean_draws(np.array(scores_pct) / 100, n=DRAWS, rng=rng), 1e-12, 1 - 1e-12)
    off = (EYE_WITH_KEY if with_key else EYE).draw(rng, DRAWS)
    return np.asarray(1 / (1 + (1 - found) / found * np.exp(-off)))


def _touched(record: DiseaseRecord, rng: np.random.Generator) -> Floats:
    """Share of leaves with any damage; where both were scored, of the more often damaged kind."""
    kinds = [scores for scores in (record.spotted_pct, record.eaten_pct) if scores]
    hit, clean = max((sum(s > 0 for s in scores), sum(s == 0 for s in scores)) for scores in kinds)
    return rng.beta(hit + 0.5, clean + 0.5, DRAWS)


def _grades(record: DiseaseRecord) -> tuple[GradeCount, ...]:
    return tuple(
        GradeCount(
            grade=grade,
            up_to_frac=top,
            spotted=sum(grade_of(score / 100) == grade for score in record.spotted_pct),
            eaten=sum(grade_of(score / 100) == grade for score in record.eaten_pct),
        )
        for grade, top in GRADE_TOPS.items()
    )


def under_curve_frac_d(days_d: Sequence[float], damaged_frac: Sequence[float]) -> float:
    """Damage summed over the days of several looks, as share of leaf times days; 0 for a single look.

    Formula: trapezoids, sum of (y_k + y_k+1) / 2 (t_k+1 - t_k). Source: common practice of scoring plant disease over a
    season (area under its progress curve).
    """
    pairs = zip(pairwise(days_d), pairwise(damaged_frac), strict=True)
    return float(sum((after - before) * (low + high) / 2 for (before, after), (low, high) in pairs))


def grade_of(damaged_frac: float) -> Grade:
    """The grade of a leaf of which this share of the area, 0 to 1, is damaged."""
    return next(grade for grade, top in GRADE_TOPS.items() if damaged_frac <= top)


def _cautions(record: DiseaseRecord) -> tuple[Caution, ...]:
    found = [SPRAY]
    if record.cause is not None:
        found.append(CAUSES[record.cause])
    scored = max(len(record.spotted_pct), len(record.eaten_pct))
    if scored < FEW_LEAVES.value:
        text = f"{scored} leaves are few: score {FEW_LEAVES.value:g} to 20, taken blindly from all over the bed."
        found.append(caution("few-leaves", text))
    return tuple(found)
