"""A trial's rows become the records of the science: its layout with the lots, and what its tubs gave."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Final
from uuid import UUID

import numpy as np

from bluewright.journal.bridge.book import Z95, Line, baskets, lines
from bluewright.journal.models import Garden, Trial, TrialTub
from bluewright.journal.queries import book
from bluewright.journal.queries.trials import batches_of, tub_of
from bluewright.science.base.bands import Band
from bluewright.science.learn.design import trial_plan
from bluewright.science.learn.design_record import NamedWay, TrialPlanAnswer, TrialPlanRecord
from bluewright.science.learn.trial import trial
from bluewright.science.learn.trial_answer import TrialAnswer
from bluewright.science.learn.trial_record import TrialRecord, Way
from bluewright.science.learn.trial_record import TrialTub as Tub

MOST_SD: Final = 1.0
JUDGED: Final = "judged"
"""The name of the assay of all jars that were not assayed: they share what is wrong of the judgement."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Got:
    """What a tub gave, by its thread; without a value, why there is none."""

    g_per_kg: float | None = None
    assay: str = ""
    assay_sd_frac: float = 0.0
    batches: tuple[str, ...] = ()
    """Names of the batches that it went into."""
    joined: bool = False
    """Whether its liquor was worked together with that of another tub: it cannot be told apart then."""


def plan_record(row: Trial) -> TrialPlanRecord:
    """The layout as it was laid down. Raises InputError as the record does."""
    return TrialPlanRecord(
        id=row.name, question=row.question, ways=tuple(NamedWay(name=way) for way in row.ways),
        differs=_word(row.differs), outcome=_word(row.outcome),
        assigned=_word(row.assigned), tubs=row.tubs, days=row.days, vessels_differ=row.vessels_differ,
        worth_finding_frac=row.worth_finding_frac, leaf_kg=row.leaf_kg, seed=row.seed,
    )  # fmt: skip


@lru_cache(maxsize=64)
def laid_out(record: TrialPlanRecord) -> TrialPlanAnswer:
    """The layout, its lots and what it can show. Raises InputError where there is none."""
    return trial_plan(record, rng=np.random.default_rng(record.seed))


def lots_of(row: Trial, answer: TrialPlanAnswer) -> list[TrialTub]:
    """The sealed lots of a trial that is laid down."""
    return [
        TrialTub(trial=row, number=one.number, block=one.block, vessel=one.tub, way=one.way) for one in answer.settings
    ]  # fmt: skip


def got(rows: list[Trial], *, of: Garden) -> Mapping[UUID, Got]:
    """What the tubs of these trials gave, by the key of the tub; a fixed number of statements."""
    tubs = {str(steep.pk): (steep.pk, row.outcome) for row in rows for lot in row.lots.all() if (steep := tub_of(lot))}
    if not tubs:
        return {}
    within = batches_of(of, [key for key, _outcome in tubs.values()])
    listed = book.listed(within)
    came_from = baskets(book.pours(of, within), [one.key for one in listed])
    by_tub: defaultdict[str, list[Line]] = defaultdict(list)
    for line in lines(listed, came_from):
        for tub in line.basket.tubs:
            by_tub[tub.key].append(line)
    hexed = {key.replace("-", ""): told for key, told in tubs.items()}
    return {
        hexed[key.replace("-", "")][0]: _got(found, hexed[key.replace("-", "")][1])
        for key, found in by_tub.items()
        if key.replace("-", "") in hexed
    }


def _got(found: list[Line], outcome: str) -> Got:
    names = tuple(line.name for line in found)
    if any(len(line.basket.tubs) != 1 for line in found):
        return Got(batches=names, joined=True)
    leaf_kg = sum(line.basket.leaf_kg for line in found)
    if leaf_kg <= 0 or any(line.pigment_g is None for line in found):
        return Got(batches=names)
    powder_g = sum(line.pigment_g or 0.0 for line in found)
    if outcome == "powder":
        return Got(g_per_kg=_positive(powder_g / leaf_kg), batches=names)
    if any(line.purity_frac is None for line in found):
        return Got(batches=names)
    pure_g = sum((line.pigment_g or 0.0) * line.purity_frac.p50 for line in found if line.purity_frac is not None)
    measured = all(line.measured for line in found)
    spread = max(_sd_frac(line.purity_frac) for line in found if line.purity_frac is not None)
    return Got(
        g_per_kg=_positive(pure_g / leaf_kg), batches=names, assay_sd_frac=round(min(spread, MOST_SD), 4),
        assay=", ".join(sorted({jar for line in found for jar in line.jars}))[:60] if measured else JUDGED,
    )  # fmt: skip


def _sd_frac(purity: Band) -> float:
    """The standard deviation of a purity as a share of it."""
    return (purity.p95 - purity.p5) / (2 * Z95 * purity.p50) if purity.p50 > 0 else MOST_SD


def _positive(value: float) -> float | None:
    return round(value, 6) if value > 1e-6 else None


def trial_record(row: Trial, found: Mapping[UUID, Got], *, looks: int) -> TrialRecord | None:
    """The trial as it stands, opened lots only; None before a lot is opened. Raises InputError as the record does."""
    opened = [lot for lot in row.lots.all() if lot.opened_at is not None]
    if not opened:
        return None
    worst: defaultdict[str, float] = defaultdict(float)
    for one in found.values():
        worst[one.assay] = max(worst[one.assay], one.assay_sd_frac)
    return TrialRecord(
        id=row.name, question=row.question, outcome=_word(row.outcome), ways=tuple(Way(name=way) for way in row.ways),
        assigned=_word(row.assigned), tubs=tuple(_tub(lot, found, worst) for lot in opened),
        planned_blocks=max(1, _blocks(row)), looks=max(1, looks), leaf_kg=row.leaf_kg, seed=row.seed,
    )  # fmt: skip


def _tub(lot: TrialTub, found: Mapping[UUID, Got], worst: Mapping[str, float]) -> Tub:
    steep = tub_of(lot)
    one = Got() if steep is None else found.get(steep.pk, Got())
    by_hand = lot.got_g_per_kg is not None
    value = lot.got_g_per_kg if by_hand else one.g_per_kg
    assay = "" if by_hand or value is None else one.assay
    alone = lot.trial.tubs < len(lot.trial.ways)
    return Tub(
        way=lot.way, value=value, block="" if alone else lot.block, assay=assay,
        assay_sd_frac=worst[assay] if assay else 0.0, day=None if steep is None else steep.started_at.date(),
        tub=str(lot.vessel), spoilt=lot.spoilt,
    )  # fmt: skip


def _blocks(row: Trial) -> int:
    """How many blocks were laid down; for tubs that stand alone, of each way."""
    lots = list(row.lots.all())
    return len(lots) // max(1, len(row.ways))


@lru_cache(maxsize=64)
def told(record: TrialRecord) -> TrialAnswer:
    """What the trial says. Raises InputError where no way has a counted rival."""
    return trial(record, rng=np.random.default_rng(record.seed))


def is_over(row: Trial) -> bool:
    """Whether it was ended, or every lot is opened and has its value or is spoilt."""
    return row.ended_at is not None


def _word(stored: str) -> Any:
    """A choice as the database holds it, a string; the record refuses what is none of its own words."""
    return stored
