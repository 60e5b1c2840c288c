"""The plan of a season: the best schedule that is found, what it gives, why it is so, and what was given up."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date, timedelta
from typing import Final

import numpy as np

from bluewright.science.base.bands import band, significant
from bluewright.science.plan.schedule_explain import alone_g, reasons, worth_of_more
from bluewright.science.plan.schedule_first import first_values
from bluewright.science.plan.schedule_model import Model, model, ready_lag_d, without_needless
from bluewright.science.plan.schedule_problem import Schedule
from bluewright.science.plan.schedule_tubs import Single, singles
from bluewright.science.season.answer import (
    Change,
    Limit,
    Moved,
    PlannedCut,
    PlannedSteep,
    PlannedWant,
    SeasonAnswer,
    WorkDay,
)
from bluewright.science.season.cautions import cautions
from bluewright.science.season.outcome import Outcome, in_days, outcome
from bluewright.science.season.problem import Set, season_set
from bluewright.science.season.record import SeasonRecord

Progress = Callable[[float, float], None]
"""Told of each better plan: what it is worth in grams that come in time, and how far at most it is from the best."""
SOURCES: Final = ("bluewright-bed", "bluewright-leaf", "huangfu-hall-2018", "steep-fit")


def season_plan(record: SeasonRecord, *, rng: np.random.Generator, progress: Progress | None = None) -> SeasonAnswer:
    """What to cut, fill and strain on which day, and what it gives.

    A first plan is found at once (`schedule_first`), the solver betters it until it is within half a percent of the
    best or the record's limit of time ends (`schedule_model`); then the plan is followed in every draw of leaf, steeps
    and weather. Raises ModelError if even tubs that steep now cannot be strained in the hours there are.
    """
    found = season_set(record, rng=rng)
    made = model(found.problem)
    schedule = _solved(made, record, rng=rng, progress=progress)
    tubs = singles(found.problem, schedule, running_kinds=[found.plants.index(tub.plant) for tub in record.running])
    result = outcome(
        found.problem, schedule, tubs, beds=found.beds, steeps=found.steeps, running_g=_running_g(found, record, tubs)
    )
    steeps = _steeps(record, found, schedule, tubs)
    cuts = _cuts(record, found, schedule, result)
    bound_g, more_g = worth_of_more(made)
    schedule = replace(schedule, bound_g=min(schedule.bound_g, bound_g))
    return SeasonAnswer(
        id=record.id,
        blue_g=band(result.blue_g),
        plan_g=significant(_plan_g(found, schedule)),
        alone_g=significant(alone_g(found.problem) + sum(tub.blue_g for tub in found.problem.running)),
        standing_kg=significant(sum(schedule.standing_kg.values())),
        cuts=cuts,
        steeps=steeps,
        wants=_planned_wants(record, found, result),
        days=_days(record, found, schedule, tubs),
        uncut=tuple(bed.id for k, bed in enumerate(record.beds) if not any(cut.bed == k for cut in schedule.cuts)),
        limits=_limits(record, more_g),
        changes=_changes(record, found, schedule),
        moved=_moved(record, tubs),
        worst_clash_chance=max((one.clash_chance for one in steeps), default=0.0),
        gap_frac=significant(schedule.gap_frac, 2),
        every_d=found.every_d,
        basis="garden" if any(bed.learned for bed in found.beds) else "prior",
        inputs=record,
        cautions=cautions(record, cuts),
        sources=SOURCES,
    )


def _solved(made: Model, record: SeasonRecord, *, rng: np.random.Generator, progress: Progress | None) -> Schedule:
    def told(worth: float, bound: float) -> None:
        if progress is not None:
            progress(worth, max(0.0, bound - worth) / max(abs(bound), 1e-9) if np.isfinite(bound) else 1.0)

    start, worth = first_values(made, rng=rng)
    told(worth + sum(tub.blue_g for tub in made.problem.running), float("inf"))
    solved = made.program.solved(gap_frac=record.good_frac, limit_s=record.limit_s, start=start, progress=told)
    return made.schedule(without_needless(made, solved))


def _on(record: SeasonRecord, day: int) -> date:
    return record.now + timedelta(days=day)


def _plan_g(found: Set, schedule: Schedule) -> float:
    """Blue of the plan in the middle of what is believed."""
    problem = found.problem
    total = 0.0
    for cut in schedule.cuts:
        ways = problem.beds[cut.bed]
        total += float(ways.leaf_kg[cut.way] * ways.blue_g_per_kg[cut.way]) * cut.parts / ways.parts
    for (bed, day), kg in schedule.standing_kg.items():
        ways = problem.beds[bed]
        total -= kg * float(np.max(ways.blue_g_per_kg[ways.on == day]))
    for tub, chosen in zip(problem.running, schedule.strained, strict=True):
        total += tub.blue_g * float(tub.kept_frac[chosen])
    return total


def _running_g(found: Set, record: SeasonRecord, tubs: Sequence[Single]) -> list[np.ndarray]:
    """Blue of each running tub on its day of straining, in every draw."""
    result = []
    for one in tubs:
        if one.running is not None:
            steep, gone = found.running[one.running], (record.now - record.running[one.running].filled).days
            after = min(gone + one.strain, steep.kept_frac.shape[1] - 1)
            result.append(found.running_g[one.running] * steep.kept_frac[0, after] / steep.best_frac[0])
    return result


def _cuts(record: SeasonRecord, found: Set, schedule: Schedule, result: Outcome) -> tuple[PlannedCut, ...]:
    made = []
    for cut, drawn, why in zip(schedule.cuts, result.cuts, reasons(found.problem, schedule), strict=True):
        ways, bed = found.problem.beds[cut.bed], record.beds[cut.bed]
        kg = float(ways.leaf_kg[cut.way]) * cut.parts / ways.parts
        made.append(
            PlannedCut(
                bed=bed.id,
                plant=bed.plant,
                on=_on(record, int(ways.on[cut.way])),
                share_frac=cut.parts / ways.parts,
                leaf_kg=band(drawn.leaf_kg),
                taken_kg=significant(kg * drawn.taken_frac),
                standing_kg=significant(kg * (1 - drawn.taken_frac)),
                blue_g=band(drawn.blue_g),
                best_on=_on(record, why.best),
                reason=why.reason,
            )
        )
    return tuple(sorted(made, key=lambda one: (one.on, one.bed)))


def _steeps(record: SeasonRecord, found: Set, schedule: Schedule, tubs: Sequence[Single]) -> tuple[PlannedSteep, ...]:
    lag, wash_d = ready_lag_d(found.problem), found.problem.drying.wash_d
    made = []
    for one in tubs:
        filled = _on(record, one.fill) if one.running is None else record.running[one.running].filled
        again = [
            other.fill for other in tubs if (other.size, other.tub) == (one.size, one.tub) and other.fill > one.fill
        ]
        steep = found.steeps[one.kind] if one.running is None else found.running[one.running]
        best_d, gone = steep.best_d[max(one.fill, 0)], (record.now - filled).days
        next_fill = min(again, default=None)
        made.append(
            PlannedSteep(
                id="" if one.running is None else record.running[one.running].id,
                volume_l=record.tubs[one.size].volume_l,
                tub=one.tub + 1,
                plant=found.plants[one.kind],
                beds=() if one.running is not None else _whose(record, found, schedule, one),
                fill_on=filled,
                strain_on=_on(record, one.strain),
                leaf_kg=significant(one.leaf_kg),
                kept_frac=significant(one.kept_frac, 3),
                dry_from=_on(record, one.strain + wash_d),
                ready_on=_on(record, one.strain + lag),
                next_fill_on=None if next_fill is None else _on(record, next_fill),
                slow_chance=significant(float(np.mean(best_d > gone + one.strain)), 2),
                clash_chance=0.0 if next_fill is None else significant(float(np.mean(best_d > gone + next_fill)), 2),
            )
        )
    return tuple(sorted(made, key=lambda one: (one.fill_on, -one.volume_l, one.tub)))


def _whose(record: SeasonRecord, found: Set, schedule: Schedule, one: Single) -> tuple[str, ...]:
    """Beds whose leaf goes into a tub: those cut that day, and the day before if leaf waited."""
    days = {one.fill}
    if schedule.held_kg.get((one.kind, one.fill - 1)):
        days.add(one.fill - 1)
    names = [
        record.beds[cut.bed].id
        for cut in schedule.cuts
        if found.problem.beds[cut.bed].kind == one.kind and int(found.problem.beds[cut.bed].on[cut.way]) in days
    ]
    return tuple(dict.fromkeys(names))


def _planned_wants(record: SeasonRecord, found: Set, result: Outcome) -> tuple[PlannedWant, ...]:
    rows = sorted(record.wants, key=lambda want: want.on)
    return tuple(
        PlannedWant(
            name=want.name, on=want.on, wanted_g=want.blue_g, in_time_g=band(got),
            met_chance=significant(float(np.mean(got >= want.blue_g * (1 - 1e-9))), 2),
        )
        for want, got in zip(rows, result.in_time_g(found.problem), strict=True)
    )  # fmt: skip


def _days(record: SeasonRecord, found: Set, schedule: Schedule, tubs: Sequence[Single]) -> tuple[WorkDay, ...]:
    return tuple(
        WorkDay(
            on=_on(record, day), free_h=float(found.problem.free_h[day]), cut_h=significant(cut_h, 3),
            strain_h=significant(strain_h, 3), wash_h=significant(wash_h, 3),
        )
        for day, (cut_h, strain_h, wash_h) in in_days(found.problem, schedule, tubs).items()
    )  # fmt: skip


def _limits(record: SeasonRecord, more_g: dict[tuple[str, int], float]) -> tuple[Limit, ...]:
    names = {"tubs": "tub", "hours": "hour", "drying": "drying"}
    rows = [
        Limit(
            limit=names[name],  # type: ignore[arg-type]
            volume_l=record.tubs[number].volume_l if name == "tubs" else None,
            more_g=significant(grams, 3),
        )
        for (name, number), grams in more_g.items()
    ]
    return tuple(sorted(rows, key=lambda one: -one.more_g))


def _changes(record: SeasonRecord, found: Set, schedule: Schedule) -> tuple[Change, ...]:
    """Cuts that differ from the plan before: each bed's cuts in order, one against the other."""
    if not record.former:
        return ()
    changed = []
    for number, bed in enumerate(record.beds):
        was = sorted(cut.on for cut in record.former if cut.bed == bed.id and cut.on >= record.now)
        ways = found.problem.beds[number]
        now = sorted({_on(record, int(ways.on[cut.way])) for cut in schedule.cuts if cut.bed == number})
        for k in range(max(len(was), len(now))):
            before, after = was[k] if k < len(was) else None, now[k] if k < len(now) else None
            if before != after:
                changed.append(Change(bed=bed.id, was=before, now=after))
    return tuple(changed)


def _moved(record: SeasonRecord, tubs: Sequence[Single]) -> tuple[Moved, ...]:
    """Tubs that steep and are strained on another day than the plan before had."""
    found = []
    for one in tubs:
        tub = None if one.running is None else record.running[one.running]
        if tub is None or tub.planned is None or tub.planned == _on(record, one.strain):
            continue
        name = tub.id or f"{one.tub + 1} ({tub.volume_l:g} L)"
        found.append(Moved(tub=name, was=tub.planned, now=_on(record, one.strain), looked=tub.best is not None))
    return tuple(found)
