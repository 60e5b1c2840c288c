"""A trial's rows become the records of the science: its layout with the lots, and what its tubs gave."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache
from typing import Any, Final, NamedTuple
from uuid import UUID
from zoneinfo import ZoneInfo

import numpy as np

from bluewright.journal.bridge.book import Line, baskets, lines
from bluewright.journal.bridge.stored import word
from bluewright.journal.models import Garden, Steep, Trial, TrialTub
from bluewright.journal.queries import book, work
from bluewright.journal.queries.trials import batches_of, ended, tub_of
from bluewright.science.base.bands import Band, sd_of
from bluewright.science.base.errors import BluewrightError
from bluewright.science.learn.design import trial_plan
from bluewright.science.learn.design_record import NamedWay, TrialPlanAnswer, TrialPlanRecord
from bluewright.science.learn.trial import trial
from bluewright.science.learn.trial_answer import TrialAnswer
from bluewright.science.learn.trial_record import EarlierPairs, TrialRecord, Way
from bluewright.science.learn.trial_record import TrialTub as Tub
from bluewright.science.media.purity import PURITY, Make

MOST_SD: Final = 1.0
MOST_NAME: Final = 60
LEAST_PAIR_SD: Final = 0.005
"""Tubs more alike than this teach nothing of how unlike tubs are."""
JUDGED: Final = "judged"
"""How the assays of jars that were not assayed begin: those of one make share what is wrong of the judgement."""


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


def plan_record(row: Trial, *, earlier: EarlierPairs | None = None) -> TrialPlanRecord:
    """The layout as it was laid down, with what the garden's trials before it taught. InputError as the record."""
    return TrialPlanRecord(
        id=row.name, question=row.question, ways=tuple(NamedWay(name=way) for way in row.ways),
        differs=word(row.differs), outcome=word(row.outcome),
        assigned=word(row.assigned), tubs=row.tubs, days=row.days, vessels_differ=row.vessels_differ,
        worth_finding_frac=row.worth_finding_frac, earlier=earlier, leaf_kg=row.leaf_kg, seed=row.seed,
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
    makes = work.makes(within)
    hexed = {key.replace("-", ""): told for key, told in tubs.items()}
    return {
        hexed[key.replace("-", "")][0]: _got(found, hexed[key.replace("-", "")][1], makes)
        for key, found in by_tub.items()
        if key.replace("-", "") in hexed
    }


def _got(found: list[Line], outcome: str, makes: Mapping[str, Make]) -> Got:
    names = tuple(line.name for line in found)
    if any(len(line.basket.tubs) != 1 for line in found):
        return Got(batches=names, joined=True)
    leaf_kg = sum(line.basket.leaf_kg for line in found)
    if leaf_kg <= 0 or any(line.pigment_g is None for line in found):
        return Got(batches=names)
    powder_g = sum(line.pigment_g or 0.0 for line in found)
    if outcome == "powder":
        return Got(g_per_kg=_positive(powder_g / leaf_kg), batches=names)
    known = [known_purity(line, makes) for line in found]
    pure_g = sum((line.pigment_g or 0.0) * one.frac for line, one in zip(found, known, strict=True))
    worst = max(known, key=lambda one: one.sd_frac)
    assay = ", ".join(sorted({one.assay for one in known}))[:MOST_NAME]
    return Got(g_per_kg=_positive(pure_g / leaf_kg), batches=names, assay_sd_frac=worst.sd_frac, assay=assay)


class Purity(NamedTuple):
    """Indigo in a batch's pigment, how far it may be off as a share of it, and by which assay it is known."""

    frac: float
    sd_frac: float
    assay: str


def known_purity(line: Line, makes: Mapping[str, Make]) -> Purity:
    """As its jars were assayed, else what pigment of its plant and make usually holds: nothing that the leaf was
    believed to hold is in it. Batches of one make share that error, those of another do not."""
    if line.measured and line.purity_frac is not None:
        sd_frac = round(min(_sd_frac(line.purity_frac), MOST_SD), 4)
        return Purity(line.purity_frac.p50, sd_frac, ", ".join(sorted(line.jars))[:MOST_NAME])
    plant: Any = line.basket.tubs[0].plant if line.basket.tubs else "woad"
    make = makes.get(line.key.hex, "unknown")
    usual = PURITY[make][plant]
    return Purity(usual.centre, round(min(usual.spread, MOST_SD), 4), f"{JUDGED}, {make} {plant}")


def _sd_frac(purity: Band) -> float:
    """The standard deviation of a purity as a share of it."""
    return sd_of(purity) / purity.p50 if purity.p50 > 0 else MOST_SD


def _positive(value: float) -> float | None:
    return round(value, 6) if value > 1e-6 else None


def earlier_pairs(of: Garden, *, before: datetime, outcome: str) -> EarlierPairs | None:
    """How unlike tubs of one picking were in the garden's own trials that had ended by then; None before there are
    any. Their residual variances are pooled by their degrees of freedom."""
    rows = list(ended(of, before=before, outcome=outcome))
    found = got(rows, of=of)
    dof, squares = 0, 0.0
    for row in rows:
        try:
            record = trial_record(row, found, earlier=None)
            answer = None if record is None else told(record)
        except BluewrightError:  # it has no result, and so says nothing of its tubs
            continue
        if answer is None or answer.kind == "alone" or (pair_sd := answer.against[0].pair_sd) is None:
            continue
        own = (len(row.ways) - 1) * (answer.blocks - 1)
        dof, squares = dof + own, squares + own * pair_sd**2
    if not dof or (pooled_sd := math.sqrt(squares / dof)) < LEAST_PAIR_SD:
        return None
    return EarlierPairs(pairs=dof + 1, pair_sd=round(pooled_sd, 4))


def trial_record(row: Trial, found: Mapping[UUID, Got], *, earlier: EarlierPairs | None) -> TrialRecord | None:
    """The trial as it stands, opened lots only; None before a lot is opened. Raises InputError as the record does."""
    opened = [lot for lot in row.lots.all() if lot.opened_at is not None]
    if not opened:
        return None
    worst: defaultdict[str, float] = defaultdict(float)
    for one in found.values():
        worst[one.assay] = max(worst[one.assay], one.assay_sd_frac)
    return TrialRecord(
        id=row.name, question=row.question, outcome=word(row.outcome), ways=tuple(_ways(row)),
        assigned=word(row.assigned), tubs=tuple(_tub(lot, found, worst) for lot in opened),
        planned_blocks=max(1, _blocks(row)), looks=max(1, row.looks), earlier=earlier, leaf_kg=row.leaf_kg,
        least_gain_frac=row.least_gain_frac, least_g_per_h=row.least_g_per_h, seed=row.seed,
    )  # fmt: skip


def _ways(row: Trial) -> Iterator[Way]:
    hours = row.work_h or [None] * len(row.ways)
    for name, work_h in zip(row.ways, hours, strict=True):
        yield Way(name=name, work_h=work_h)


def _tub(lot: TrialTub, found: Mapping[UUID, Got], worst: Mapping[str, float]) -> Tub:
    steep = tub_of(lot)
    one = Got() if steep is None else found.get(steep.pk, Got())
    by_hand = lot.got_g_per_kg is not None
    value = lot.got_g_per_kg if by_hand else one.g_per_kg
    assay = "" if by_hand or value is None else one.assay
    alone = lot.trial.tubs < len(lot.trial.ways)
    filled = lot.opened_at if steep is None else steep.started_at
    return Tub(
        way=lot.way, value=value, block="" if alone else lot.block, assay=assay,
        assay_sd_frac=worst[assay] if assay else 0.0, tub=str(lot.vessel), spoilt=lot.spoilt,
        day=None if filled is None else filled.astimezone(ZoneInfo(lot.trial.garden.time_zone)).date(),
        picking="" if steep is None else _pickings(steep),
    )  # fmt: skip


def _pickings(steep: Steep) -> str:
    """The pickings of a tub's leaf by the ends of their keys: told apart, not named."""
    return ", ".join(sorted(part.picking_id.hex[-12:] for part in steep.leaf.all()))[:200]


def _blocks(row: Trial) -> int:
    """How many blocks were laid down; for tubs that stand alone, of each way."""
    lots = list(row.lots.all())
    return len(lots) // max(1, len(row.ways))


@lru_cache(maxsize=64)
def told(record: TrialRecord) -> TrialAnswer:
    """What the trial says. Raises InputError where no way has a counted rival."""
    return trial(record, rng=np.random.default_rng(record.seed))
