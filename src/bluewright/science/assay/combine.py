"""Several results for one pigment: put together if they agree, told side by side if they do not."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Final

import numpy as np

from bluewright.science.assay.combine_record import ByMethod, CombineAnswer, CombineRecord, Result
from bluewright.science.assay.common import check_method
from bluewright.science.base.bands import Band, band, significant
from bluewright.science.base.cautions import Caution, caution
from bluewright.science.base.sourced import Sourced

DRAWS = 4000
AGREE_Z: Final = Sourced(
    value=2.0, unit="1", source="common-practice", low=1.6, high=2.6, grade="practice",
    note="two results further apart than so many standard deviations of their difference disagree",
)  # fmt: skip
MOST_SPREAD: Final = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Said:
    """A method's result on the logit scale."""

    method: str
    centre: float
    spread: float
    at_most: bool
    many: int


def combine(record: CombineRecord, *, rng: np.random.Generator) -> CombineAnswer:
    """Inverse-variance mean of the methods on the logit scale, widened by what they differ beyond their own doubts.

    Results of one method are put together first and stay as doubtful as the surest of them, for they share its faults.
    Methods agree if |z| < 2 for each two. Upper bounds take no part, but a method above one disagrees.
    Formula: random effects of DerSimonian and Laird, tau^2 = max(0, (Q - (k - 1)) / (S1 - S2 / S1)), S_i = sum of w^i.
    """
    said = _by_method(record.results)
    counted, bounds = [one for one in said if not one.at_most], [one for one in said if one.at_most]
    between = [abs(_z(one, other)) for one, other in combinations(counted, 2)]
    above = [one for one in counted if any(_z(one, bound) > AGREE_Z.value for bound in bounds)]
    agree = all(z < AGREE_Z.value for z in between) and not above
    tau, weights = _weights(counted) if agree and counted else (0.0, {})
    pct = _together(counted, tau, rng) if agree and counted else None
    return CombineAnswer(
        id=record.id, agree=agree, indigo_pct=pct,
        methods=tuple(
            ByMethod(
                method=one.method, indigo_pct=_band(one.centre, one.spread, rng), at_most=one.at_most,
                results=one.many, weight_frac=significant(weights.get(one.method, 0.0), 3),
            )
            for one in said
        ),
        largest_z=significant(max(between, default=0.0), 3), between_sd=significant(tau, 3), basis="readings",
        inputs=record, cautions=_cautions(counted, above, agree, pct),
        sources=("common-practice", "dersimonian-laird-1986", "hartl-2024"),
    )  # fmt: skip


def _by_method(results: Sequence[Result]) -> list[_Said]:
    """One entry a method and kind, in the order in which they come."""
    grouped: defaultdict[tuple[str, bool], list[Result]] = defaultdict(list)
    for one in results:
        grouped[one.method, one.at_most].append(one)
    return [_one_method(method, at_most, rows) for (method, at_most), rows in grouped.items()]


def _one_method(method: str, at_most: bool, rows: Sequence[Result]) -> _Said:
    centres = np.array([math.log(one.indigo_frac / (1 - one.indigo_frac)) for one in rows])
    spreads = np.array(
        [min(one.sd_frac / (one.indigo_frac * (1 - one.indigo_frac)), MOST_SPREAD) for one in rows]
    )  # fmt: skip
    weight = 1 / spreads**2
    centre = float(np.sum(weight * centres) / np.sum(weight))
    scatter = math.sqrt(float(np.sum(weight * (centres - centre) ** 2) / np.sum(weight)))
    spread = max(float(np.min(spreads)), scatter)
    return _Said(method=method, centre=centre, spread=spread, at_most=at_most, many=len(rows))


def _z(one: _Said, other: _Said) -> float:
    return (one.centre - other.centre) / math.hypot(one.spread, other.spread)


def _tau(said: Sequence[_Said]) -> float:
    """Spread among methods beyond their own doubts."""
    weight = np.array([1 / one.spread**2 for one in said])
    centres = np.array([one.centre for one in said])
    mean = float(np.sum(weight * centres) / np.sum(weight))
    q = float(np.sum(weight * (centres - mean) ** 2))
    room = float(np.sum(weight) - np.sum(weight**2) / np.sum(weight))
    return math.sqrt(max(0.0, (q - (len(said) - 1)) / room)) if len(said) > 1 and room > 0 else 0.0


def _weights(said: Sequence[_Said]) -> tuple[float, dict[str, float]]:
    tau = _tau(said)
    weight = [1 / (one.spread**2 + tau**2) for one in said]
    return tau, {one.method: w / sum(weight) for one, w in zip(said, weight, strict=True)}


def _together(said: Sequence[_Said], tau: float, rng: np.random.Generator) -> Band:
    weight = np.array([1 / (one.spread**2 + tau**2) for one in said])
    centre = float(np.sum(weight * [one.centre for one in said]) / np.sum(weight))
    return _band(centre, float(np.sum(weight)) ** -0.5, rng)


def _band(centre: float, spread: float, rng: np.random.Generator) -> Band:
    return band(100 / (1 + np.exp(-(centre + spread * rng.standard_normal(DRAWS)))))


def _cautions(counted: Sequence[_Said], above: Sequence[_Said], agree: bool, pct: Band | None) -> tuple[Caution, ...]:
    found = []
    if not agree and not above:
        found.append(
            caution(
                "results-disagree",
                "The results lie too far apart to be of one pigment: no mean is told. Was it the same well-mixed "
                "jar, and as dry? A third method tells which to doubt.",
            )
        )
    if above:
        names = ", ".join(one.method for one in above)
        found.append(caution("above-bound", f"This lies above what can be in the pigment at most: {names}."))
    if not counted:
        found.append(caution("bounds-only", "There are only upper bounds: they do not say how much is in it."))
    if len(counted) == 1:
        found.append(
            caution("one-method", "One method alone carries its own faults: a second of another kind checks it.")
        )
    return (*found, *(check_method(pct) if pct is not None else ()))
