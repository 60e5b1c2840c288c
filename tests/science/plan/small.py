"""Small seasons, and every schedule of one tried by itself: arithmetic that shares nothing with the program."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import product
from typing import Any

import numpy as np
from scipy.optimize import linprog

from bluewright.science.plan.schedule_problem import (
    START,
    Drying,
    Hours,
    Prices,
    Problem,
    Size,
    Steeps,
    Ways,
)

NO_WORK = Hours(cut_h_per_kg=0.0, fill_h=0.0, look_h=0.0, strain_h=0.0, wash_h=0.0, wait_d=7)
WORK = Hours(cut_h_per_kg=0.1, fill_h=0.5, look_h=0.1, strain_h=1.5, wash_h=1.0, wait_d=3)
PRICES = Prices(late_frac=0.5, extra_g_per_h=0.2, held_frac=(0.1,), move_frac_per_d=0.02)


def ways(*rows: tuple[int, int, float, float], most_cuts: int = 2, parts: int = 1, kind: int = 0) -> Ways:
    """Rows of day before, day, leaf, grams in a kilogram."""
    since, on, leaf, grams = zip(*rows, strict=True)
    return Ways(
        kind=kind, parts=parts, most_cuts=most_cuts, since=np.array(since), on=np.array(on),
        leaf_kg=np.array(leaf, dtype=float), blue_g_per_kg=np.array(grams, dtype=float),
    )  # fmt: skip


def steeps(days: int, *, long_d: int = 2, kept: tuple[float, ...] = (1.0, 0.9)) -> Steeps:
    """Every day may begin one of a few steeps."""
    rows = [
        (day, day + long_d + late, share)
        for day in range(days)
        for late, share in enumerate(kept)
        if day + long_d + late < days
    ]
    fill, strain, share = zip(*rows, strict=True)
    return Steeps(fill=np.array(fill), strain=np.array(strain), busy_until=np.array(strain), kept_frac=np.array(share))


def season(days: int, beds: tuple[Ways, ...], **other: Any) -> Problem:
    """A season with one tub and nothing else that limits, but what is said otherwise."""
    free = other.pop("free_h", 99.0)
    made: dict[str, Any] = {
        "days": days, "free_h": np.broadcast_to(np.asarray(free, dtype=float), (days,)).copy(),
        "extra_h": np.zeros(days), "beds": beds, "sizes": (Size(count=1, leaf_kg=10.0, rest_d=0),),
        "steeps": (steeps(days),), "hours": NO_WORK, "drying": Drying(wash_d=1, dry_d=2), "prices": PRICES,
    }  # fmt: skip
    return Problem(**(made | other))


def best_worth(problem: Problem) -> float:
    """The worth of the best schedule: every choice of cuts and fillings tried, leaf and washing settled by SciPy."""
    best = -np.inf
    chains = [list(_chains(bed)) for bed in problem.beds]
    fillings = list(_fillings(problem))
    for cuts in product(*chains):
        for filled in fillings:
            worth = _worth(problem, cuts, filled)
            best = max(best, worth)
    return best


def _chains(bed: Ways, since: int = START, left: int | None = None) -> Iterator[tuple[int, ...]]:
    """Every chain of ways, the empty one too."""
    left = bed.most_cuts if left is None else left
    yield ()
    for way in range(len(bed.on)):
        if left and bed.since[way] == since:
            for rest in _chains(bed, int(bed.on[way]), left - 1):
                yield (way, *rest)


def _fillings(problem: Problem) -> Iterator[tuple[tuple[int, int, int], ...]]:
    """Every choice of numbers of tubs by size, kind and steep that the tubs there are allow."""
    keys = [
        (size, kind, steep)
        for size in range(len(problem.sizes))
        for kind, one in enumerate(problem.steeps)
        for steep in range(len(one.fill))
        if any(abs(one.fill[steep] - day) in {0, 1} and one.fill[steep] >= day for b in problem.beds for day in b.on)
    ]
    for counts in product(*(range(problem.sizes[size].count + 1) for size, _k, _s in keys)):
        if _tubs_suffice(problem, keys, counts):
            yield tuple((*key, n) for key, n in zip(keys, counts, strict=True) if n)  # type: ignore[misc]


def _tubs_suffice(problem: Problem, keys: list[tuple[int, int, int]], counts: tuple[int, ...]) -> bool:
    taken = np.zeros((len(problem.sizes), problem.days))
    for (size, kind, steep), n in zip(keys, counts, strict=True):
        one = problem.steeps[kind]
        end = max(one.strain[steep], one.busy_until[steep]) + problem.sizes[size].rest_d
        taken[size, one.fill[steep] : max(end, one.fill[steep] + 1)] += n
    return all(taken[size].max() <= one.count for size, one in enumerate(problem.sizes))


def _worth(problem: Problem, cuts: tuple[tuple[int, ...], ...], filled: tuple[Any, ...]) -> float:
    """The worth of one choice; minus infinity where it cannot be. One kind of leaf, no tubs that steep already.

    Free are: leaf standing by bed and day, leaf that waits by day, washing by day, extra hours by day, grams of wants.
    """
    days, hours, late = problem.days, problem.hours, problem.prices.late_frac if problem.wants else 1.0
    rich, leaf, grams, room = np.zeros(days), np.zeros(days), np.zeros(days), np.zeros(days)
    for bed in problem.beds:
        for on, blue in zip(bed.on, bed.blue_g_per_kg, strict=True):
            rich[on] = max(rich[on], blue)
    standing = []
    for bed, chain in zip(problem.beds, cuts, strict=True):
        for way in chain:
            on = int(bed.on[way])
            leaf[on] += bed.leaf_kg[way]
            grams[on] += bed.leaf_kg[way] * bed.blue_g_per_kg[way]
            standing.append(
                (on, float(bed.leaf_kg[way]), max(b for o, b in zip(bed.on, bed.blue_g_per_kg, strict=True) if o == on))
            )
    steep, fixed, strained = problem.steeps[0], np.zeros(days), np.zeros(days)
    jar, space, penalty = np.zeros(days + 99), np.zeros(days + 99), 0.0
    lag = problem.drying.wash_d + problem.drying.dry_d
    for size, _kind, place, n in filled:
        fill, strain = int(steep.fill[place]), int(steep.strain[place])
        best = max(k for f, k in zip(steep.fill, steep.kept_frac, strict=True) if f == fill)
        capacity, richest = n * problem.sizes[size].leaf_kg, max(rich[fill], rich[fill - 1] if fill else 0.0)
        room[fill] += capacity
        penalty += n * problem.prices.tub_g / late
        lost = capacity * richest * (1 - steep.kept_frac[place] / best)
        penalty += lost
        jar[min(strain + lag, days)] -= lost
        fixed[fill] += n * hours.fill_h
        fixed[strain] += n * hours.strain_h
        for day in range(fill + 1, strain):
            fixed[day] += n * hours.look_h * (problem.free_h[day] > 0)
        strained[strain] += n
        if problem.drying.room is not None:
            space[strain + problem.drying.wash_d : strain + lag] += n * problem.drying.needed[size]
    if problem.drying.room is not None and np.any(space[:days] > problem.drying.room + 1e-9):
        return -np.inf
    for on in range(days):
        jar[_jar_day(problem, on)] += grams[on]
    return late * (float(grams.sum()) - penalty) + _rest(
        problem, leaf, room, rich, standing, fixed + hours.cut_h_per_kg * leaf, strained, jar, late
    )


def _jar_day(problem: Problem, on: int) -> int:
    steep = problem.steeps[0]
    able = [(k, -s) for f, s, k in zip(steep.fill, steep.strain, steep.kept_frac, strict=True) if f == on]
    if not able:
        return problem.days
    return int(-max(able, key=lambda one: one[0])[1]) + problem.drying.wash_d + problem.drying.dry_d


def _rest(
    problem: Problem, leaf: Any, room: Any, rich: Any, standing: Any, fixed: Any, strained: Any, jar: Any, late: float
) -> float:
    """What the free amounts are worth at best (a linear program by SciPy)."""
    days, hours, wants = problem.days, problem.hours, problem.wants
    u, h, w, o, m = len(standing), days, days, days, len(wants)
    size = u + h + w + o + m
    at = {"u": 0, "h": u, "w": u + h, "o": u + h + w, "m": u + h + w + o}
    worth = np.zeros(size)
    upper = np.full(size, np.inf)
    rows: list[Any] = []
    limits: list[float] = []

    def row(limit: float, **parts: list[tuple[int, float]]) -> None:
        made = np.zeros(size)
        for name, entries in parts.items():
            for place, value in entries:
                made[at[name] + place] += value
        rows.append(made)
        limits.append(limit)

    for k, (_on, kg, blue) in enumerate(standing):
        worth[k], upper[k] = -late * blue, kg
    for day in range(days):
        able = any(rich[day : day + 1]) and day + 1 < days
        worth[at["h"] + day] = -rich[day] * problem.prices.held_frac[0]
        upper[at["h"] + day] = np.inf if able else 0.0
        upper[at["o"] + day] = problem.extra_h[day]
        worth[at["o"] + day] = -problem.prices.extra_g_per_h
        mine = [(k, -1.0) for k, one in enumerate(standing) if one[0] == day]
        waited = [(day, -1.0), *([(day - 1, 1.0)] if day else [])]
        row(room[day] - leaf[day], u=mine, h=waited)
        row(leaf[day], u=[(k, 1.0) for k, _ in mine], h=[(day, 1.0)])
        saved = [(k, -hours.cut_h_per_kg) for k, _ in mine]
        row(problem.free_h[day] - fixed[day], u=saved, w=[(day, 1.0)], o=[(day, -1.0)])
        due = hours.wash_h * strained[:day].sum()
        old = hours.wash_h * strained[: max(0, day - hours.wait_d)].sum()
        done = [(k, 1.0) for k in range(day + 1)]
        row(due, w=done)
        row(-old, w=[(k, -1.0) for k in range(day + 1)])
    for k, want in enumerate(wants):
        worth[at["m"] + k], upper[at["m"] + k] = 1 - late, want.blue_g
        gone = [(j, blue) for j, (on, _kg, blue) in enumerate(standing) if _jar_day(problem, on) <= want.day]
        row(problem.ready_g + jar[: want.day + 1].sum(), m=[(j, 1.0) for j in range(k + 1)], u=gone)
    found = linprog(-worth, A_ub=np.array(rows), b_ub=limits, bounds=[(0.0, one) for one in upper])
    return -float(found.fun) if found.status == 0 else -np.inf
