"""Which one reading, taken at the next look, would narrow the minutes left the most?

For each possible outcome of a reading the members that would give it are set apart; the spread that is left within
them, averaged over the outcomes by their chances, is what one may expect to be left after the reading.
"""

from __future__ import annotations

from typing import Final, Literal

import numpy as np

from bluewright.science.air.answer import NextReading
from bluewright.science.air.cautions import ph_now
from bluewright.science.air.endpoint import SIGNS, jar_per_cm, level_chances, probe_mg_per_l
from bluewright.science.air.forecast import Forecast
from bluewright.science.air.members import Score, scores
from bluewright.science.air.oxidation import State
from bluewright.science.air.record import AirRecord
from bluewright.science.base.sourced import Floats

ReadingName = Literal["dissolved_oxygen", "foam", "liquor", "ph", "dye_index"]

BINS: Final = 12
SETTLED: Final = 1e-6
"""A variance of the logarithm below which nothing is left to learn."""
STRIP_SD_PH: Final = 0.2
"""Error of a pH reading where none was taken yet (judgement)."""


def next_readings(
    record: AirRecord, seen: Forecast, *, after_h: float, rng: np.random.Generator
) -> tuple[NextReading, ...]:
    """The readings by how much each would narrow the minutes needed (their logarithm), best first; none if settled."""
    wanted = np.log(60.0 * np.maximum(seen.left_h, 1.0 / 60.0))
    weights = seen.drawn.weights
    before = _variance(wanted, weights)
    if before <= SETTLED:
        return ()
    then, at = seen.future.at_h(after_h), scores(seen.drawn.z)
    left = _left_by_sign_and_probe(wanted, weights, then, at, rng)
    shown, width = jar_per_cm(then.exposure, seen.group, at=at, aired_h=seen.group.done_h + after_h)
    left["dye_index"] = _left_by_bins(wanted, weights, shown + width * rng.logistic(size=len(shown)))
    if ph_now(record) is None:
        strip = seen.group.ph_offset_ph + STRIP_SD_PH * rng.standard_normal(len(wanted))
        left["ph"] = _left_by_bins(wanted, weights, strip)
    narrowed = {name: 1.0 - float(np.sqrt(min(part / before, 1.0))) for name, part in left.items()}
    ranked = sorted(narrowed.items(), key=lambda pair: -pair[1])
    return tuple(NextReading(reading=name, narrows_frac=round(share, 3)) for name, share in ranked)


def _left_by_sign_and_probe(
    wanted: Floats, weights: Floats, then: State, at: Score, rng: np.random.Generator
) -> dict[ReadingName, float]:
    shown, width = probe_mg_per_l(then.oxygen_mmol_per_l, at=at)
    probe = np.maximum(shown + width * rng.logistic(size=len(shown)), 0.0)
    left: dict[ReadingName, float] = {"dissolved_oxygen": _left_by_bins(wanted, weights, probe)}
    for name in SIGNS:
        chances = level_chances(name, then.exposure, at=at)
        left[name] = sum(float(np.sum(weights * chance)) * _variance(wanted, weights * chance) for chance in chances)
    return left


def _variance(values: Floats, weights: Floats) -> float:
    total = float(np.sum(weights))
    if total <= 0.0:
        return 0.0
    mean = np.sum(weights * values) / total
    return float(np.sum(weights * (values - mean) ** 2) / total)


def _left_by_bins(values: Floats, weights: Floats, outcome: Floats) -> float:
    """Expected variance of `values` once the outcome is known to a twelfth of its distribution."""
    order = np.argsort(outcome)
    share = np.cumsum(weights[order])
    bins = np.minimum((BINS * (share - 0.5 * weights[order])).astype(int), BINS - 1)
    left = 0.0
    for part in range(BINS):
        inside = order[bins == part]
        left += float(np.sum(weights[inside])) * _variance(values[inside], weights[inside])
    return left
