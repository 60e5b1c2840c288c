"""Which tub does what: fillings that were only counted are given to single tubs, and their leaf is shared out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bluewright.science.plan.schedule_model import taken
from bluewright.science.plan.schedule_problem import Problem, Schedule

DUST_KG = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class Single:
    """One tub from filling to its being free again."""

    size: int
    tub: int
    """Number among those of its size, from 0."""
    kind: int
    fill: int
    """Day of filling; below 0 for one that steeps already."""
    strain: int
    free: int
    """First day on which it is free again."""
    leaf_kg: float
    kept_frac: float
    running: int | None = None
    """Which of the tubs that steep already."""


def singles(problem: Problem, schedule: Schedule, *, running_kinds: Sequence[int]) -> list[Single]:
    """Every tub of a schedule, in order of days: the lowest number that is free takes the next filling.

    Since never more tubs of a size are taken than there are, each filling finds one.
    """
    free_on = [[0] * size.count for size in problem.sizes]
    found = []
    for number, (tub, chosen) in enumerate(zip(problem.running, schedule.strained, strict=True)):
        end = min(
            max(int(tub.strain[chosen]), int(tub.busy_until[chosen])) + problem.sizes[tub.size].rest_d, problem.days
        )
        place = free_on[tub.size].index(0)
        free_on[tub.size][place] = max(end, 1)
        found.append(
            Single(
                size=tub.size, tub=place, kind=running_kinds[number], fill=-1, strain=int(tub.strain[chosen]), free=end,
                leaf_kg=tub.leaf_kg, kept_frac=float(tub.kept_frac[chosen]), running=number,
            )
        )  # fmt: skip
    load = tub_load_frac(problem, schedule)
    rows = [
        (int(problem.steeps[one.kind].fill[one.steep]), one.size, one.kind, one.steep)
        for one in schedule.fillings
        for _ in range(one.tubs)
    ]
    for fill, size, kind, steep in sorted(rows):
        place = next(k for k, day in enumerate(free_on[size]) if day <= fill)
        end = taken(problem, kind, steep, size)[1]
        free_on[size][place] = end
        steeps = problem.steeps[kind]
        found.append(
            Single(
                size=size, tub=place, kind=kind, fill=fill, strain=int(steeps.strain[steep]), free=end,
                leaf_kg=problem.sizes[size].leaf_kg * load.get((kind, fill), 0.0),
                kept_frac=float(steeps.kept_frac[steep]),
            )
        )  # fmt: skip
    return found


def leaf_by_day(problem: Problem, schedule: Schedule) -> dict[tuple[int, int], float]:
    """Leaf cut on each day, without what stays standing, by kind and day."""
    found: dict[tuple[int, int], float] = {}
    for cut in schedule.cuts:
        ways = problem.beds[cut.bed]
        key = (ways.kind, int(ways.on[cut.way]))
        found[key] = found.get(key, 0.0) + float(ways.leaf_kg[cut.way]) * cut.parts / ways.parts
    for (bed, day), kg in schedule.standing_kg.items():
        found[problem.beds[bed].kind, day] -= kg
    return found


def into_tubs(problem: Problem, schedule: Schedule) -> dict[tuple[int, int], float]:
    """Leaf that goes into tubs on each day, by kind and day: of the day, less what waits, with what waited."""
    found = leaf_by_day(problem, schedule)
    for (kind, day), kg in schedule.held_kg.items():
        found[kind, day] = found.get((kind, day), 0.0) - kg
        found[kind, day + 1] = found.get((kind, day + 1), 0.0) + kg
    return {key: kg for key, kg in found.items() if kg > DUST_KG}


def room_by_day(problem: Problem, schedule: Schedule) -> dict[tuple[int, int], float]:
    """Leaf that the tubs filled on each day take, by kind and day."""
    found: dict[tuple[int, int], float] = {}
    for one in schedule.fillings:
        key = (one.kind, int(problem.steeps[one.kind].fill[one.steep]))
        found[key] = found.get(key, 0.0) + one.tubs * problem.sizes[one.size].leaf_kg
    return found


def tub_load_frac(problem: Problem, schedule: Schedule) -> dict[tuple[int, int], float]:
    """How full the tubs of each day are, by kind and day."""
    room = room_by_day(problem, schedule)
    return {key: kg / room[key] for key, kg in into_tubs(problem, schedule).items() if key in room}
