"""Minutes of work: as noted, or estimated from notes of the same work and from priors."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from bluewright.science.base.sourced import Floats, Prior
from bluewright.science.cost.cost_record import BatchMade, CostRecord, WorkDone
from bluewright.science.cost.priors import PICKING_MIN_PER_KG, WORK_BATCH_SD, WORK_KINDS, WORK_MIN, WorkKind

BEFORE_FAILING: Final = frozenset({"picking", "filling", "looking", "straining"})
"""What is estimated of a batch that was given up: nobody said when, and these came before most failings."""
Basis = Literal["readings", "garden", "prior"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """Draws of the hours, shape (kinds, batches, n), in the order of `WORK_KINDS`, and what each kind rests on."""

    work_h: Floats
    basis: Mapping[WorkKind, Basis]
    """Only of the kinds that anything is counted of."""


def hours(record: CostRecord, *, shares_frac: Floats, rng: np.random.Generator, n: int) -> Hours:
    """Hours of each kind and batch; `shares_frac` (batches,) is by what work for the whole season is shared."""
    found, basis = np.zeros((len(WORK_KINDS), len(record.batches), n)), dict[WorkKind, Basis]()
    for k, kind in enumerate(WORK_KINDS):
        rows = [row for row in record.work if row.kind == kind]
        for_all = [row for row in rows if not row.batch]
        if for_all:
            found[k] += shares_frac[:, None] * _noted(for_all, rng=rng, n=n)
        of_batch = {batch.id: [row for row in rows if row.batch == batch.id] for batch in record.batches}
        missing = {
            b for b, batch in enumerate(record.batches) if not for_all and _wanted(batch, kind, of_batch[batch.id])
        }
        known = _rates(record.batches, kind, of_batch)
        rate = learned(kind, known)
        for b, batch in enumerate(record.batches):
            if of_batch[batch.id]:
                found[k, b] += _noted(of_batch[batch.id], rng=rng, n=n)
        if missing and rate is not None:
            middle = rate.draw(rng, n)
            for b, batch in enumerate(record.batches):
                if b in missing:
                    found[k, b] += middle * _size(batch, kind) * np.exp(WORK_BATCH_SD.value * rng.standard_normal(n))
            basis[kind] = "garden" if known else "prior"
        elif rows:
            basis[kind] = "readings"
    return Hours(work_h=found / 60.0, basis=basis)


def learned(kind: WorkKind, noted_min: Sequence[float]) -> Prior | None:
    """Minutes of a kind of work, for a batch (picking: for a kilogram), learned from batches where it was noted.

    Formula: log minutes of a batch ~ N(m, s_b); m ~ N(log centre, spread). With n noted batches of mean y the belief
    in m has precision 1/spread^2 + n/s_b^2 and the mean weighed by it. None for work of which nothing is believed.
    """
    prior = PICKING_MIN_PER_KG if kind == "picking" else WORK_MIN.get(kind)
    if prior is None:
        return None
    y = [math.log(one / prior.centre) / prior.spread for one in noted_min if one > 0]
    precision = 1.0 + len(y) * (prior.spread / WORK_BATCH_SD.value) ** 2
    centre_z = sum(y) * (prior.spread / WORK_BATCH_SD.value) ** 2 / precision
    return prior.moved(centre_z=centre_z, spread_z=precision**-0.5)


def unestimated(record: CostRecord) -> list[str]:
    """Batches whose picking is counted nowhere: neither noted nor to be estimated, since their leaf is not known."""
    picked = {row.batch for row in record.work if row.kind == "picking"}
    return [
        batch.id
        for batch in record.batches
        if batch.leaf_kg is None and batch.id not in picked and "" not in picked and _state_counts(batch)
    ]


def _wanted(batch: BatchMade, kind: WorkKind, rows: Sequence[WorkDone]) -> bool:
    """Whether this work of a batch is to be estimated: not noted, and done by now."""
    if rows or not _state_counts(batch) or (kind == "picking" and batch.leaf_kg is None):
        return False
    return not batch.failed or kind in BEFORE_FAILING


def _state_counts(batch: BatchMade) -> bool:
    return batch.failed or batch.pigment_g is not None


def _size(batch: BatchMade, kind: WorkKind) -> float:
    return (batch.leaf_kg or 0.0) if kind == "picking" else 1.0


def _rates(batches: Sequence[BatchMade], kind: WorkKind, rows: Mapping[str, Sequence[WorkDone]]) -> list[float]:
    """Minutes of the batches where all of it was noted: those that are done, by their size."""
    done = [b for b in batches if rows[b.id] and b.pigment_g is not None and (kind != "picking" or b.leaf_kg)]
    return [sum(row.spent_min for row in rows[batch.id]) / _size(batch, kind) for batch in done]


def _noted(rows: Sequence[WorkDone], *, rng: np.random.Generator, n: int) -> Floats:
    """The minutes of these notes together: their errors are apart, and add up by their squares."""
    total = sum(row.spent_min for row in rows)
    if total == 0:
        return np.zeros(n)
    off = math.sqrt(sum((row.off_frac * row.spent_min) ** 2 for row in rows)) / total
    return total * np.exp(off * rng.standard_normal(n))
