"""Why each cut stands on its day, and what the limits cost."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final, Literal

import numpy as np

from bluewright.science.plan.schedule_first import Search
from bluewright.science.plan.schedule_left import Left, Placed
from bluewright.science.plan.schedule_model import Limit, Model, best_steep, ready_lag_d
from bluewright.science.plan.schedule_problem import START, Cut, Problem, Schedule, Ways
from bluewright.science.plan.schedule_tubs import into_tubs, room_by_day

Reason = Literal["best", "tubs", "hours", "drying", "wants", "kept", "others"]
PLENTY: Final = 1e4
"""Of tubs, hours, places: more than any cut asks for."""
AS_GOOD_D: Final = 2
"""So many days beside the best are as good."""
MOST_OF_IT: Final = 0.98


@dataclass(frozen=True, slots=True, kw_only=True)
class Why:
    """Why a cut is on its day."""

    best: int
    """The day that the bed alone would have it, were there no limits and no dates."""
    reason: Reason


def reasons(problem: Problem, schedule: Schedule) -> list[Why]:
    """For each cut of a schedule, in its order.

    What is held against it is the bed's own best chain of cuts. If that has another day for this cut, everything but
    this cut is left as it is and that day is tried: what is missing then is the reason. If nothing is, the plan
    before, dates of wants, or room for other beds speak against it.
    """
    search = Search(problem)
    chains = [best_chain(bed)[1] for bed in problem.beds]
    return [_why(problem, search, schedule, cut, chains[cut.bed]) for cut in schedule.cuts]


def best_chain(bed: Ways) -> tuple[float, tuple[int, ...]]:
    """Blue and ways of a bed that is cut at its best, with no limits and no dates."""
    best: dict[tuple[int, int], tuple[float, tuple[int, ...]]] = {(START, 0): (0.0, ())}
    for way in np.argsort(bed.on, kind="stable").tolist():
        grams = float(bed.leaf_kg[way] * bed.blue_g_per_kg[way])
        for cuts in range(bed.most_cuts):
            before = best.get((int(bed.since[way]), cuts))
            if before is not None:
                key = (int(bed.on[way]), cuts + 1)
                if key not in best or before[0] + grams > best[key][0]:
                    best[key] = (before[0] + grams, (*before[1], way))
    return max(best.values(), key=lambda one: one[0])


def _why(problem: Problem, search: Search, schedule: Schedule, cut: Cut, chain: tuple[int, ...]) -> Why:
    ways = problem.beds[cut.bed]
    on = int(ways.on[cut.way])
    if not chain:
        return Why(best=on, reason="best")
    best = min(chain, key=lambda way: abs(int(ways.on[way]) - on))
    day = int(ways.on[best])
    if abs(day - on) <= AS_GOOD_D:
        return Why(best=day, reason="best")
    return Why(best=day, reason=_reason(problem, search, schedule, cut, best=best))


def _reason(problem: Problem, search: Search, schedule: Schedule, cut: Cut, *, best: int) -> Reason:
    ways = problem.beds[cut.bed]
    on, day = int(ways.on[cut.way]), int(ways.on[best])
    if int(ways.since[cut.way]) == START and problem.kept_days.get(cut.bed) == on:
        return "kept"
    missing = _missing(search, _without(problem, search, schedule, cut), ways, best)
    if missing is not None:
        return missing
    if day > on and any(
        _jar(problem, ways.kind, on) <= want.day < _jar(problem, ways.kind, day) for want in problem.wants
    ):
        return "wants"
    return "others"


def _jar(problem: Problem, kind: int, day: int) -> int:
    steep = best_steep(problem.steeps[kind], day)
    return problem.days if steep is None else int(problem.steeps[kind].strain[steep]) + ready_lag_d(problem)


def _without(problem: Problem, search: Search, schedule: Schedule, cut: Cut) -> Left:
    """What all but one cut leaves: its tubs are given back as far as the leaf of others does not need them."""
    left = search.room.empty()
    day, kind = int(problem.beds[cut.bed].on[cut.way]), problem.beds[cut.bed].kind
    rooms, leaf = room_by_day(problem, schedule), into_tubs(problem, schedule)
    own_kg = float(problem.beds[cut.bed].leaf_kg[cut.way]) * cut.parts / problem.beds[cut.bed].parts
    for one in schedule.fillings:
        fill = int(problem.steeps[one.kind].fill[one.steep])
        key, tubs = (one.kind, fill), one.tubs
        if key == (kind, day):
            others_kg = max(0.0, leaf.get(key, 0.0) - own_kg)
            tubs = min(tubs, round(np.ceil(tubs * others_kg / max(rooms[key], 1e-9))))
        leaf_kg = leaf.get(key, 0.0) * tubs * problem.sizes[one.size].leaf_kg / max(rooms[key], 1e-9)
        placed = Placed(leaf_kg=leaf_kg, tubs=((one.size, one.steep),) * tubs, kept_frac=1.0, jar=0)
        search.room.take(left, one.kind, fill, placed)
    return left


def _missing(search: Search, left: Left, ways: Ways, best: int) -> Reason | None:
    """Which limit keeps a cut from its best day; None if it would find room there."""
    day, kg = int(ways.on[best]), float(ways.leaf_kg[best]) / ways.parts
    if _fits(search, left, ways.kind, day, kg):
        return None
    found: list[Reason] = ["tubs", "hours", "drying"]
    loose: list[Left] = [
        replace(left, tubs=[[PLENTY] * len(row) for row in left.tubs]),
        replace(left, hours=[PLENTY if hours > 0 or k == day else hours for k, hours in enumerate(left.hours)]),
        replace(left, room=None),
    ]
    for reason, more in zip(found, loose, strict=True):
        if _fits(search, more, ways.kind, day, kg):
            return reason
    return "tubs"


def _fits(search: Search, left: Left, kind: int, day: int, leaf_kg: float) -> bool:
    placed = search.room.place(left, kind, day, leaf_kg)
    return placed is not None and placed.leaf_kg >= MOST_OF_IT * leaf_kg


def alone_g(problem: Problem) -> float:
    """Blue that the beds would give if each were cut at its best and tubs, hours and places had no limits."""
    return sum(best_chain(bed)[0] for bed in problem.beds)


def worth_of_more(made: Model) -> tuple[float, dict[Limit, float]]:
    """No plan is worth more than the first; what one more of each limit would be worth, in grams that come in time.

    One tub more of a size, an hour more on each day that has any, room for one more of the largest tubs' blue. Found
    from the program with columns that need not be whole: its worth with the limit loosened, less its worth as it
    stands.
    """
    problem, program = made.problem, made.program
    loosened: list[dict[int, float]] = []
    for (name, _number), rows in made.limits.items():
        by = max(problem.drying.needed, default=1.0) if name == "drying" else 1.0
        loosened.append(
            {row: program.upper[row] + by for day, row in enumerate(rows) if name != "hours" or problem.free_h[day] > 0}
        )
    base, *more = program.relaxed(loosened)
    return base, {limit: max(0.0, worth - base) for limit, worth in zip(made.limits, more, strict=True)}
