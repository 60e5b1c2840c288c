"""What a schedule gives when leaf, steeps and weather turn out otherwise: the same plan in every draw."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from bluewright.science.base.sourced import Floats
from bluewright.science.plan.schedule_model import ready_lag_d
from bluewright.science.plan.schedule_problem import Problem, Schedule
from bluewright.science.plan.schedule_tubs import Single, into_tubs, leaf_by_day
from bluewright.science.season.beds import Grown
from bluewright.science.season.steeps import Steeping


@dataclass(frozen=True, slots=True, kw_only=True)
class CutDrawn:
    """One cut in every draw, (n,)."""

    leaf_kg: Floats
    """Leaf that the bed or its part gives."""
    blue_g: Floats
    """Blue in the jar of what goes into tubs."""
    taken_frac: float
    """Share of the leaf that is planned into tubs."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """A schedule in every draw."""

    cuts: tuple[CutDrawn, ...]
    jar_g: Floats
    """Blue that comes into the jar by day, those after the season too, shape (days, n)."""

    @property
    def blue_g(self) -> Floats:
        """All of it, (n,)."""
        return np.asarray(self.jar_g.sum(axis=0))

    def in_time_g(self, problem: Problem) -> list[Floats]:
        """What each want gets in time in every draw: earlier ones take theirs first."""
        there = problem.ready_g + np.cumsum(self.jar_g, axis=0)
        given, found = np.zeros(self.jar_g.shape[1]), []
        for want in problem.wants:
            got = np.clip(there[min(want.day, len(there) - 1)] - given, 0.0, want.blue_g)
            given = given + got
            found.append(got)
        return found


def outcome(
    problem: Problem, schedule: Schedule, tubs: Sequence[Single], *, beds: Sequence[Grown], steeps: Sequence[Steeping],
    running_g: Sequence[Floats],
) -> Outcome:  # fmt: skip
    """Every draw of a schedule; `running_g` is what tubs that steep already give.

    Leaf beyond what the tubs of its day take is left. A tub's blue is that of its leaf times the share kept of the
    best, in this draw's weather, over the mean of the best.
    """
    cuts = _drawn(problem, schedule, beds)
    draws = beds[0].degree_d.shape[0]
    jar_g = np.zeros((problem.days + ready_lag_d(problem) + 1, draws))
    by_day = _kept_by_day(problem, tubs, steeps)
    crowd = _crowd(problem, schedule, tubs, cuts)
    leaf = leaf_by_day(problem, schedule)
    found = []
    for cut, (kg, grams, frac) in zip(schedule.cuts, cuts, strict=True):
        ways = problem.beds[cut.bed]
        kind, on = ways.kind, int(ways.on[cut.way])
        held = schedule.held_kg.get((kind, on), 0.0) / max(leaf.get((kind, on), 0.0), 1e-9)
        total = np.zeros(draws)
        for day, share in ((on, 1 - held), (on + 1, held)):
            loss = problem.prices.held_frac[kind] if day > on else 0.0
            for jar, kept in by_day.get((kind, day), ()) if share > 0 else ():
                blue = kg * grams * frac * share * (1 - loss) * crowd.get((kind, day), 1.0) * kept
                jar_g[jar] += blue
                total = total + blue
        found.append(CutDrawn(leaf_kg=kg, blue_g=total, taken_frac=frac))
    for one in tubs:
        if one.running is not None:
            jar_g[one.strain + ready_lag_d(problem)] += running_g[one.running]
    return Outcome(cuts=tuple(found), jar_g=jar_g)


def _drawn(problem: Problem, schedule: Schedule, beds: Sequence[Grown]) -> list[tuple[Floats, Floats, float]]:
    """Leaf, grams in a kilogram, and the share planned into tubs, of each cut."""
    found = []
    for cut in schedule.cuts:
        ways, bed = problem.beds[cut.bed], beds[cut.bed]
        since, on = int(ways.since[cut.way]), int(ways.on[cut.way])
        share = cut.parts / ways.parts
        planned = sum(
            float(problem.beds[cut.bed].leaf_kg[other.way]) * other.parts / ways.parts
            for other in schedule.cuts
            if other.bed == cut.bed and int(ways.on[other.way]) == on
        )
        standing = schedule.standing_kg.get((cut.bed, on), 0.0) / max(planned, 1e-9)
        leaf = share * bed.leaf_kg(since, on, cut=_number(problem, schedule, cut.bed, on))
        found.append((leaf, bed.blue(since, on), 1 - min(standing, 1.0)))
    return found


def _number(problem: Problem, schedule: Schedule, bed: int, on: int) -> int:
    """Which of the coming cuts of a bed the one of a day is, from 0."""
    days = sorted({int(problem.beds[bed].on[cut.way]) for cut in schedule.cuts if cut.bed == bed})
    return days.index(on)


def _kept_by_day(
    problem: Problem, tubs: Sequence[Single], steeps: Sequence[Steeping]
) -> dict[tuple[int, int], list[tuple[int, Floats]]]:
    """By kind and day of filling: when its tubs are in the jar, and the share of the day's blue that comes out of them.

    The best share that can be had from that day on is in what the leaf is said to give; here stands what the draw
    gives more or less than that.
    """
    rooms: dict[tuple[int, int], float] = {}
    for one in tubs:
        if one.running is None:
            key = (one.kind, one.fill)
            rooms[key] = rooms.get(key, 0.0) + problem.sizes[one.size].leaf_kg
    found: dict[tuple[int, int], list[tuple[int, Floats]]] = {}
    for one in tubs:
        if one.running is None:
            key = (one.kind, one.fill)
            part = problem.sizes[one.size].leaf_kg / rooms[key]
            steep = steeps[one.kind]
            kept = steep.kept_frac[one.fill, one.strain - one.fill] / steep.best_frac[one.fill]
            jar = one.strain + ready_lag_d(problem)
            found.setdefault(key, []).append((jar, part * kept))
    return found


def _crowd(
    problem: Problem, schedule: Schedule, tubs: Sequence[Single], cuts: Sequence[tuple[Floats, Floats, float]]
) -> dict[tuple[int, int], Floats]:
    """Share of the leaf for the tubs of a day that finds room in them, by kind and day, (n,)."""
    rooms: dict[tuple[int, int], float] = {}
    for one in tubs:
        if one.running is None:
            key = (one.kind, one.fill)
            rooms[key] = rooms.get(key, 0.0) + problem.sizes[one.size].leaf_kg
    planned = leaf_by_day(problem, schedule)
    inside = into_tubs(problem, schedule)
    more: dict[tuple[int, int], Floats] = {}
    for cut, (kg, _grams, frac) in zip(schedule.cuts, cuts, strict=True):
        ways = problem.beds[cut.bed]
        key = (ways.kind, int(ways.on[cut.way]))
        more[key] = more.get(key, np.zeros(len(kg))) + kg * frac
    found = {}
    for key, room in rooms.items():
        drawn = more[key] / max(planned.get(key, 0.0), 1e-9) if key in more else np.ones(1)
        found[key] = np.minimum(1.0, room / np.maximum(drawn * inside.get(key, 0.0), 1e-9))
    return found


def in_days(problem: Problem, schedule: Schedule, tubs: Sequence[Single]) -> dict[int, tuple[float, float, float]]:
    """Hours by day: cutting and filling, looks and straining, washing; only days with any."""
    hours, rows = problem.hours, np.zeros((problem.days, 3))
    for (_kind, day), kg in leaf_by_day(problem, schedule).items():
        rows[day, 0] += hours.cut_h_per_kg * kg
    for one in tubs:
        if one.fill >= 0:
            rows[one.fill, 0] += hours.fill_h
        for day in range(one.fill + 1, min(one.strain, problem.days)):
            rows[day, 1] += hours.look_h if problem.free_h[day] > 0 else 0.0
        if one.strain < problem.days:
            rows[one.strain, 1] += hours.strain_h
    rows[:, 2] = schedule.washed_h
    return {day: (float(a), float(b), float(c)) for day, (a, b, c) in enumerate(rows) if a + b + c > 1e-6}
