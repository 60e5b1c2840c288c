"""What is left of tubs, hours and places to dry, and the tubs that give the most for leaf cut on a day."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bluewright.science.plan.schedule_model import ready_lag_d, taken
from bluewright.science.plan.schedule_problem import Problem

SLACK: Final = 1e-9
LEAST_KG: Final = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """Leaf of a cut in tubs: how much, in which, at what loss."""

    leaf_kg: float
    tubs: tuple[tuple[int, int], ...]
    """Size and steep of each."""
    kept_frac: float
    """Mean of the tubs, by what they take, of what the best steep that day gives."""
    jar: int
    """Day on which the last of its blue is in the jar."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """A steep that may begin on a day."""

    steep: int
    strain: int
    kept_frac: float
    """Of what the best one gives."""


@dataclass(slots=True)
class Left:
    """What is left of the limits on each day: plain lists, for short stretches of them are read very often."""

    tubs: list[list[float]]
    """Tubs by size and day."""
    hours: list[float]
    room: list[float] | None

    def copy(self) -> Left:
        """The same, apart."""
        room = None if self.room is None else self.room.copy()
        return Left(tubs=[one.copy() for one in self.tubs], hours=self.hours.copy(), room=room)


class Room:
    """How leaf finds its tubs in one problem."""

    def __init__(self, problem: Problem) -> None:
        self.problem = problem
        self.strained: list[int] = []
        """Which of its days each running tub is strained on, once `empty` was asked for."""
        self._free = [hours > 0 for hours in problem.free_h.tolist()]
        self._large_first = sorted(range(len(problem.sizes)), key=lambda size: -problem.sizes[size].leaf_kg)
        self._options = [self._of_kind(kind) for kind in range(len(problem.steeps))]
        self._ends = {
            (kind, option.steep, size): taken(problem, kind, option.steep, size)[1]
            for kind, days in enumerate(self._options)
            for options in days.values()
            for option in options
            for size in range(len(problem.sizes))
        }

    def _of_kind(self, kind: int) -> dict[int, list[Option]]:
        """The steeps that may begin on each day, the one that keeps the most first."""
        steeps, found = self.problem.steeps[kind], dict[int, list[Option]]()
        rows = zip(steeps.fill.tolist(), steeps.strain.tolist(), steeps.kept_frac.tolist(), strict=True)
        for steep, (fill, strain, kept) in enumerate(rows):
            found.setdefault(fill, []).append(Option(steep=steep, strain=strain, kept_frac=kept))
        return {
            day: [
                Option(steep=one.steep, strain=one.strain, kept_frac=one.kept_frac / max(o.kept_frac for o in options))
                for one in sorted(options, key=lambda one: -one.kept_frac)
            ]
            for day, options in found.items()
        }

    def empty(self) -> Left:
        """What is left beside tubs that steep already: each is strained on the best of its days that has hours."""
        problem = self.problem
        left = Left(
            tubs=[[float(size.count)] * problem.days for size in problem.sizes],
            hours=(problem.free_h + problem.extra_h).tolist(),
            room=None if problem.drying.room is None else problem.drying.room.tolist(),
        )
        self.strained = []
        for tub in problem.running:
            able = [k for k, day in enumerate(tub.strain.tolist()) if left.hours[day] >= problem.hours.strain_h]
            best = max(able or range(len(tub.strain)), key=lambda k: tub.kept_frac[k])
            self.strained.append(best)
            day = int(tub.strain[best])
            end = min(max(day, int(tub.busy_until[best])) + problem.sizes[tub.size].rest_d, problem.days)
            _less(left.tubs[tub.size], 0, end, 1)
            self._work(left, fill=-1, strain=day, tubs=1)
            self._dry(left, strain=day, size=tub.size, tubs=1)
        return left

    def place(self, left: Left, kind: int, day: int, leaf_kg: float) -> Placed | None:
        """The tubs for leaf cut on a day, each with the best steep that is left to it; None if none of it finds
        room."""
        hours, options = self.problem.hours, self._options[kind].get(day)
        if not options:
            return None
        if hours.cut_h_per_kg:
            leaf_kg = min(leaf_kg, (left.hours[day] - hours.fill_h) / hours.cut_h_per_kg)
        if leaf_kg < LEAST_KG:
            return None
        tried = Left(tubs=left.tubs, hours=left.hours.copy(), room=left.room)
        tried.hours[day] -= hours.cut_h_per_kg * leaf_kg
        chosen, rest_kg = list[tuple[int, Option]](), leaf_kg
        while rest_kg > LEAST_KG:
            one = self._next_tub(tried, kind, day, rest_kg, chosen)
            if one is None:
                break
            chosen.append(one)
            rest_kg -= self.problem.sizes[one[0]].leaf_kg
        if not chosen:
            return None
        takes = [self.problem.sizes[size].leaf_kg for size, _option in chosen]
        kept = sum(kg * option.kept_frac for kg, (_size, option) in zip(takes, chosen, strict=True)) / sum(takes)
        return Placed(
            leaf_kg=min(leaf_kg, sum(takes)), tubs=tuple((size, option.steep) for size, option in chosen),
            kept_frac=kept, jar=max(option.strain for _size, option in chosen) + ready_lag_d(self.problem),
        )  # fmt: skip

    def _next_tub(
        self, tried: Left, kind: int, day: int, rest_kg: float, chosen: Sequence[tuple[int, Option]]
    ) -> tuple[int, Option] | None:
        """One tub more beside those chosen, and its steep; its work is taken from the hours that are tried."""
        sizes = self.problem.sizes
        fits = [size for size in reversed(self._large_first) if sizes[size].leaf_kg >= rest_kg]
        order = [*fits, *(size for size in self._large_first if size not in fits)]
        for option in self._options[kind][day]:
            for size in order:
                used = sum(other == size for other, _option in chosen)
                if min(tried.tubs[size][day : self._ends[kind, option.steep, size]]) - used < 1 - SLACK:
                    continue
                if not self._dries(tried, option, size, chosen):
                    continue
                before = tried.hours.copy()
                self._work(tried, fill=day, strain=option.strain, tubs=1)
                if min(tried.hours[day : option.strain + 2 + self.problem.hours.wait_d]) >= -SLACK:
                    return size, option
                tried.hours = before
        return None

    def _dries(self, left: Left, option: Option, size: int, chosen: Sequence[tuple[int, Option]]) -> bool:
        """Whether a tub's blue finds room to dry beside that of those chosen."""
        drying = self.problem.drying
        if left.room is None:
            return True
        first = option.strain + drying.wash_d
        needed = drying.needed[size] + sum(drying.needed[other] for other, _option in chosen)
        return min(left.room[first : first + drying.dry_d], default=math.inf) >= needed - SLACK

    def take(self, left: Left, kind: int, day: int, placed: Placed) -> None:
        """Take a cut from what is left."""
        left.hours[day] -= self.problem.hours.cut_h_per_kg * placed.leaf_kg
        for size, steep in placed.tubs:
            strain = int(self.problem.steeps[kind].strain[steep])
            _less(left.tubs[size], day, self._ends[kind, steep, size], 1)
            self._dry(left, strain=strain, size=size, tubs=1)
            self._work(left, fill=day, strain=strain, tubs=1)

    def _work(self, left: Left, *, fill: int, strain: int, tubs: int) -> None:
        """Filling, looks, straining on their days; washing on the first days after that have hours left.

        Washing that finds none stands below 0 on the last of its days, which shows that it cannot be.
        """
        hours, days = self.problem.hours, self.problem.days
        if fill >= 0:
            left.hours[fill] -= hours.fill_h * tubs
        for day in range(fill + 1, min(strain, days)):
            if self._free[day]:
                left.hours[day] -= hours.look_h * tubs
        if strain < days:
            left.hours[strain] -= hours.strain_h * tubs
        due_h, end = hours.wash_h * tubs, strain + 1 + hours.wait_d
        for day in range(strain + 1, min(end, days)):
            done_h = min(due_h, max(0.0, left.hours[day]))
            left.hours[day] -= done_h
            due_h -= done_h
        if end <= days and due_h > SLACK:
            left.hours[end - 1] -= due_h

    def _dry(self, left: Left, *, strain: int, size: int, tubs: int) -> None:
        drying = self.problem.drying
        if left.room is not None:
            end = min(strain + drying.wash_d + drying.dry_d, self.problem.days)
            _less(left.room, strain + drying.wash_d, end, drying.needed[size] * tubs)


def _less(row: list[float], first: int, end: int, by: float) -> None:
    for day in range(first, end):
        row[day] -= by
