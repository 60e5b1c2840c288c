"""The season as a mixed-integer program, and its answer as a schedule again.

A bed is a flow of parts along its days: each way carries parts from one cut to the next, which keeps the program tight.
Tubs of one size are counted, not named. Leaf cut on a day goes into tubs of that day, waits for the next, or stays
standing. Washing is done on any days of the week after straining. What is chosen is worth the blue that it gives: a
gram in time for a want counts whole, any other `late_frac`; hours beyond those free, leaf that waits, and moved cuts
have their prices.

Rows, for each day: leaf <= room in tubs filled (by kind); tubs taken <= tubs there (by size); hours <= free + extra;
drying <= places; flow in >= flow out (by bed); washing put off <= what was strained within the week.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Final

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.plan.schedule_problem import START, Cut, Filling, Problem, Schedule, Steeps, Ways
from bluewright.science.plan.solver import Found, Program

TINY: Final = 1e-6
NEVER: Final = 10_000
"""A day after every season."""
Limit = tuple[str, int]
"""What limits: `tubs` with the number of the size, `hours`, or `drying`."""


@dataclass(slots=True)
class Model:
    """The program of a problem, with where each thing stands in it."""

    problem: Problem
    program: Program = field(default_factory=Program)
    way: list[list[int]] = field(default_factory=list)
    """Columns of ways, by bed."""
    standing: dict[tuple[int, int], int] = field(default_factory=dict)
    held: dict[tuple[int, int], int] = field(default_factory=dict)
    fill: dict[tuple[int, int, int], int] = field(default_factory=dict)
    """Columns of fillings, by size, kind and steep."""
    strained: list[list[int]] = field(default_factory=list)
    washed: list[int] = field(default_factory=list)
    extra: list[int] = field(default_factory=list)
    blue: dict[int, list[tuple[int, float]]] = field(default_factory=dict)
    """Grams by the day on which they are in the jar: columns, and grams for one of each."""
    limits: dict[Limit, list[int]] = field(default_factory=dict)
    """Rows of each limit."""

    def schedule(self, found: Found) -> Schedule:
        """What the values of the columns mean."""
        values = found.values
        whole = np.rint(values).astype(int)
        return Schedule(
            cuts=tuple(
                Cut(bed=bed, way=way, parts=int(whole[column]))
                for bed, columns in enumerate(self.way)
                for way, column in enumerate(columns)
                if whole[column]
            ),
            fillings=tuple(
                Filling(size=size, kind=kind, steep=steep, tubs=int(whole[column]))
                for (size, kind, steep), column in self.fill.items()
                if whole[column]
            ),
            strained=tuple(int(np.argmax(values[columns])) for columns in self.strained),
            standing_kg={key: float(values[k]) for key, k in self.standing.items() if values[k] > TINY},
            held_kg={key: float(values[k]) for key, k in self.held.items() if values[k] > TINY},
            washed_h=values[self.washed],
            extra_h=values[self.extra],
            worth_g=found.worth,
            bound_g=found.bound,
        )


def model(problem: Problem) -> Model:
    """The program of a problem."""
    made = Model(problem=problem)
    late = problem.prices.late_frac if problem.wants else 1.0
    _beds(made, late)
    _fillings(made, late)
    _running(made, late)
    _leaf_into_tubs(made)
    _tubs(made)
    _drying(made)
    _work(made)
    _wants(made, late)
    return made


def ready_lag_d(problem: Problem) -> int:
    """Days from straining to the jar."""
    return problem.drying.wash_d + problem.drying.dry_d


def best_steep(steeps: Steeps, day: int) -> int | None:
    """The steep that keeps the most of leaf filled on a day; None where none is possible."""
    places = np.flatnonzero(steeps.fill == day)
    return None if not len(places) else int(places[np.argmax(steeps.kept_frac[places])])


def richest(problem: Problem) -> dict[tuple[int, int], float]:
    """Grams in a kilogram of the richest leaf of each kind that may be cut on a day, by kind and day."""
    found: dict[tuple[int, int], float] = {}
    for bed in problem.beds:
        for day, grams in zip(bed.on, bed.blue_g_per_kg, strict=True):
            key = (bed.kind, int(day))
            found[key] = max(found.get(key, 0.0), float(grams))
    return found


def _jar_day(problem: Problem, kind: int, day: int) -> int:
    """The day on which blue of leaf cut on `day` is expected in the jar; long after the season if no tub takes it."""
    steeps = problem.steeps[kind]
    place = best_steep(steeps, day)
    return NEVER if place is None else int(steeps.strain[place]) + ready_lag_d(problem)


def _beds(made: Model, late: float) -> None:
    """Ways, leaf left standing, and the flow of each bed."""
    problem, program = made.problem, made.program
    for number, bed in enumerate(problem.beds):
        columns, flow = [], {int(day): program.row(lower=0.0) for day in np.unique(bed.on)}
        begin, most = program.row(upper=float(bed.parts)), program.row(upper=float(bed.parts * bed.most_cuts))
        kept = problem.kept_days.get(number)
        leaf = {int(day): program.row(upper=0.0) for day in np.unique(bed.on)}
        for way, (since, on) in enumerate(zip(bed.since.tolist(), bed.on.tolist(), strict=True)):
            grams = float(bed.leaf_kg[way] * bed.blue_g_per_kg[way]) / bed.parts
            moved = _moved(problem, since=since, on=on, kept=kept) * grams
            column = program.column(worth=late * grams - moved, most=float(bed.parts), whole=True)
            columns.append(column)
            program.put(begin if since == START else flow[since], column, 1.0 if since == START else -1.0)
            program.put(flow[on], column, 1.0)
            program.put(most, column, 1.0)
            program.put(leaf[on], column, -float(bed.leaf_kg[way]) / bed.parts)
            made.blue.setdefault(_jar_day(problem, bed.kind, on), []).append((column, grams))
        made.way.append(columns)
        _stand(made, number, bed, leaf, late)


def _stand(made: Model, number: int, bed: Ways, leaf: dict[int, int], late: float) -> None:
    """Leaf of a bed that stays uncut: never more than is cut, and charged at the richest that could be."""
    for day, row in leaf.items():
        grams = float(np.max(bed.blue_g_per_kg[bed.on == day]))
        column = made.program.column(worth=-late * grams)
        made.standing[number, day] = column
        made.program.put(row, column, 1.0)
        made.blue[_jar_day(made.problem, bed.kind, day)].append((column, -grams))


def _moved(problem: Problem, *, since: int, on: int, kept: int | None) -> float:
    """Share of its blue that a first cut loses by being moved, of one that was planned for this week."""
    if kept is None or since != START:
        return 0.0
    return problem.prices.move_frac_per_d * min(abs(on - kept), 7)


def _fillings(made: Model, late: float) -> None:
    """Tubs filled, by size, kind and steep: a steep that is not the best one loses blue."""
    rich = richest(made.problem)
    for kind, steeps in enumerate(made.problem.steeps):
        for size, tubs in enumerate(made.problem.sizes):
            for steep, day in enumerate(steeps.fill.tolist()):
                best = best_steep(steeps, day)
                before = rich.get((kind, day - 1), 0.0)
                grams = max(rich.get((kind, day), 0.0), before)
                if not grams or best is None:
                    continue
                kept = float(steeps.kept_frac[steep] / steeps.kept_frac[best])
                lost_g = tubs.leaf_kg * grams * (1 - kept)
                column = made.program.column(
                    worth=-late * lost_g - made.problem.prices.tub_g, most=float(tubs.count), whole=True
                )
                made.fill[size, kind, steep] = column
                jar = int(steeps.strain[steep]) + ready_lag_d(made.problem)
                made.blue.setdefault(jar, []).append((column, -lost_g))


def _running(made: Model, late: float) -> None:
    """Tubs that steep already: one of their days is chosen."""
    for tub in made.problem.running:
        one = made.program.row(lower=1.0, upper=1.0)
        columns = []
        for strain, kept in zip(tub.strain.tolist(), tub.kept_frac.tolist(), strict=True):
            column = made.program.column(worth=late * tub.blue_g * kept, most=1.0, whole=True)
            made.program.put(one, column, 1.0)
            columns.append(column)
            jar = strain + ready_lag_d(made.problem)
            made.blue.setdefault(jar, []).append((column, tub.blue_g * kept))
        made.strained.append(columns)


def _leaf_into_tubs(made: Model) -> None:
    """Leaf cut, less what stands, with what waited from the day before, fits into the tubs filled."""
    problem, program = made.problem, made.program
    rich = richest(problem)
    for kind in range(len(problem.steeps)):
        for day in range(problem.days):
            if (kind, day) in rich and day + 1 < problem.days:
                lost_g = rich[kind, day] * problem.prices.held_frac[kind]
                made.held[kind, day] = program.column(worth=-lost_g)
    rows = {key: program.row(upper=0.0) for key in _days_of_leaf(made)}
    cut = {key: program.row(lower=0.0) for key in made.held}
    for number, bed in enumerate(problem.beds):
        for way, column in enumerate(made.way[number]):
            leaf_kg = float(bed.leaf_kg[way]) / bed.parts
            _both(made, rows, cut, (bed.kind, int(bed.on[way])), column, leaf_kg)
    for (number, day), column in made.standing.items():
        _both(made, rows, cut, (problem.beds[number].kind, day), column, -1.0)
    for (kind, day), column in made.held.items():
        program.put(rows[kind, day], column, -1.0)
        program.put(rows[kind, day + 1], column, 1.0)
        program.put(cut[kind, day], column, -1.0)
    for (size, kind, steep), column in made.fill.items():
        day = int(problem.steeps[kind].fill[steep])
        program.put(rows[kind, day], column, -problem.sizes[size].leaf_kg)


def _both(
    made: Model, rows: dict[tuple[int, int], int], cut: dict[tuple[int, int], int], key: tuple[int, int],
    column: int, leaf_kg: float,
) -> None:  # fmt: skip
    """Leaf counts on its day; only leaf of the day itself may wait for the next."""
    made.program.put(rows[key], column, leaf_kg)
    if key in cut:
        made.program.put(cut[key], column, leaf_kg)


def _days_of_leaf(made: Model) -> list[tuple[int, int]]:
    """Kinds and days on which leaf may arrive, or be left from the day before, or tubs be filled."""
    held = {(kind, day + shift) for kind, day in made.held for shift in (0, 1)}
    filled = {(kind, int(made.problem.steeps[kind].fill[steep])) for _size, kind, steep in made.fill}
    return sorted(held | filled | set(richest(made.problem)))


def _tubs(made: Model) -> None:
    """Tubs of each size that are taken on each day."""
    problem, program = made.problem, made.program
    for size, tubs in enumerate(problem.sizes):
        rows = [program.row(upper=float(tubs.count)) for _ in range(problem.days)]
        made.limits["tubs", size] = rows
        for (of, kind, steep), column in made.fill.items():
            if of == size:
                first, end = taken(problem, kind, steep, size)
                for day in range(first, end):
                    program.put(rows[day], column, 1.0)
        for tub, columns in zip(problem.running, made.strained, strict=True):
            for strain, until, column in zip(tub.strain.tolist(), tub.busy_until.tolist(), columns, strict=True):
                if tub.size == size:
                    for day in range(min(max(strain, until) + tubs.rest_d, problem.days)):
                        program.put(rows[day], column, 1.0)


def taken(problem: Problem, kind: int, steep: int, size: int) -> tuple[int, int]:
    """First day on which a filling takes its tub, and the first on which it does no longer."""
    steeps = problem.steeps[kind]
    end = max(int(steeps.strain[steep]), int(steeps.busy_until[steep])) + problem.sizes[size].rest_d
    return int(steeps.fill[steep]), min(max(end, int(steeps.fill[steep]) + 1), problem.days)


def _drying(made: Model) -> None:
    """Room that drying blue takes on each day."""
    drying, program = made.problem.drying, made.program
    if drying.room is None:
        return
    rows = [program.row(upper=max(0.0, float(room))) for room in drying.room]
    made.limits["drying", 0] = rows
    strained = [
        (int(made.problem.steeps[kind].strain[steep]), size, column)
        for (size, kind, steep), column in made.fill.items()
    ]
    for tub, columns in zip(made.problem.running, made.strained, strict=True):
        strained += [(int(day), tub.size, column) for day, column in zip(tub.strain, columns, strict=True)]
    for strain, size, column in strained:
        for day in range(strain + drying.wash_d, min(strain + drying.wash_d + drying.dry_d, made.problem.days)):
            program.put(rows[day], column, drying.needed[size])


def _work(made: Model) -> None:
    """Hours of each day, and washing that may wait."""
    problem, program, hours = made.problem, made.program, made.problem.hours
    rows = [program.row(upper=float(free)) for free in problem.free_h]
    made.limits["hours", 0] = rows
    for day, row in enumerate(rows):
        made.washed.append(program.column(most=float(problem.free_h[day] + problem.extra_h[day])))
        made.extra.append(program.column(worth=-problem.prices.extra_g_per_h, most=float(problem.extra_h[day])))
        program.put(row, made.washed[-1], 1.0)
        program.put(row, made.extra[-1], -1.0)
    for number, bed in enumerate(problem.beds):
        for way, column in enumerate(made.way[number]):
            program.put(rows[bed.on[way]], column, hours.cut_h_per_kg * float(bed.leaf_kg[way]) / bed.parts)
    for (_number, day), column in made.standing.items():
        program.put(rows[day], column, -hours.cut_h_per_kg)
    strained: list[tuple[int, int, int]] = []
    for (_size, kind, steep), column in made.fill.items():
        first, strain = int(problem.steeps[kind].fill[steep]), int(problem.steeps[kind].strain[steep])
        program.put(rows[first], column, hours.fill_h)
        strained.append((first, strain, column))
    for tub, columns in zip(problem.running, made.strained, strict=True):
        strained += [(-1, int(day), column) for day, column in zip(tub.strain, columns, strict=True)]
    for first, strain, column in strained:
        if strain < problem.days:
            program.put(rows[strain], column, hours.strain_h)
        for day in range(first + 1, min(strain, problem.days)):
            if problem.free_h[day] > 0:
                program.put(rows[day], column, hours.look_h)
    _washing(made, strained)


def _washing(made: Model, strained: list[tuple[int, int, int]]) -> None:
    """Washing put off at the end of each day: what was strained within the week at most, never less than nothing."""
    problem, program, hours = made.problem, made.program, made.problem.hours
    off = [program.column() for _ in range(problem.days)]
    balance = [program.row(lower=0.0, upper=0.0) for _ in range(problem.days)]
    bound = [program.row(upper=0.0) for _ in range(problem.days)]
    for day in range(problem.days):
        program.put(balance[day], off[day], -1.0)
        program.put(balance[day], made.washed[day], -1.0)
        program.put(bound[day], off[day], 1.0)
        if day:
            program.put(balance[day], off[day - 1], 1.0)
    for _first, strain, column in strained:
        if strain + 1 < problem.days:
            program.put(balance[strain + 1], column, hours.wash_h)
        for day in range(strain + 1, min(strain + 1 + hours.wait_d, problem.days)):
            program.put(bound[day], column, -hours.wash_h)


def _wants(made: Model, late: float) -> None:
    """Grams that each want gets in time: together never more than is in the jar by then."""
    problem, program = made.problem, made.program
    met: list[int] = []
    for want in problem.wants:
        met.append(program.column(worth=1.0 - late, most=want.blue_g))
        row = program.row(upper=problem.ready_g)
        for column in met:
            program.put(row, column, 1.0)
        for day, parts in made.blue.items():
            if day <= want.day:
                for column, grams in parts:
                    program.put(row, column, -grams)


def without_needless(made: Model, found: Found) -> Found:
    """The same answer without tubs that no leaf needs: an answer that is good enough may hold some.

    For each kind and day of filling the largest tubs that can be spared go; the rest is settled anew.
    """
    problem, values = made.problem, found.values
    spare: dict[tuple[int, int], float] = {}
    for (size, kind, steep), column in made.fill.items():
        key = (kind, int(problem.steeps[kind].fill[steep]))
        spare[key] = spare.get(key, 0.0) + round(values[column]) * problem.sizes[size].leaf_kg
    for key, kg in _leaf_in_tubs(made, values).items():
        spare[key] = spare.get(key, 0.0) - kg
    fixed = {column: float(round(values[column])) for column, whole in enumerate(made.program.whole) if whole}
    dropped = False
    for (size, kind, steep), column in sorted(made.fill.items(), key=lambda one: -problem.sizes[one[0][0]].leaf_kg):
        key, leaf_kg = (kind, int(problem.steeps[kind].fill[steep])), problem.sizes[size].leaf_kg
        while fixed[column] >= 1 and spare[key] >= leaf_kg - TINY:
            fixed[column] -= 1
            spare[key] -= leaf_kg
            dropped = True
    return replace(made.program.solved(values=fixed), bound=found.bound) if dropped else found


def _leaf_in_tubs(made: Model, values: Floats) -> dict[tuple[int, int], float]:
    """Leaf that goes into tubs, by kind and day."""
    found: dict[tuple[int, int], float] = {}
    for number, bed in enumerate(made.problem.beds):
        for way, column in enumerate(made.way[number]):
            key = (bed.kind, int(bed.on[way]))
            found[key] = found.get(key, 0.0) + float(bed.leaf_kg[way]) / bed.parts * round(values[column])
    for (number, day), column in made.standing.items():
        found[made.problem.beds[number].kind, day] -= float(values[column])
    for (kind, day), column in made.held.items():
        found[kind, day] -= float(values[column])
        found[kind, day + 1] = found.get((kind, day + 1), 0.0) + float(values[column])
    return found
