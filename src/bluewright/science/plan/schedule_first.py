"""A good schedule at once: beds one after the other, each by its best chain of cuts through what is left; then again.

Each bed takes the best chain of cuts for which tubs, hours and places are left (dynamic programming over its days).
Then a few beds at a time give back what they took and choose anew in another order, as long as the whole is no worse.
The solver begins with the result; nothing rests on it but speed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from bluewright.science.plan.schedule_left import Left, Placed, Room
from bluewright.science.plan.schedule_model import Model
from bluewright.science.plan.schedule_problem import START, Problem

AGAIN: Final = 100
"""How often a few beds choose anew."""
AT_ONCE: Final = 3
SLACK: Final = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class Taken:
    """One cut as it is placed."""

    bed: int
    way: int
    placed: Placed


@dataclass(frozen=True)
class Search:
    """The search for a first schedule."""

    problem: Problem

    @cached_property
    def room(self) -> Room:
        """How leaf finds its tubs."""
        return Room(self.problem)

    @cached_property
    def _ways(self) -> list[list[tuple[int, int, int, float, float]]]:
        """Ways of each bed in order of their days: number, day before, day, leaf, grams in a kilogram."""
        found = []
        for bed in self.problem.beds:
            rows = zip(
                bed.since.tolist(), bed.on.tolist(), bed.leaf_kg.tolist(), bed.blue_g_per_kg.tolist(), strict=True
            )
            numbered = [(way, *row) for way, row in enumerate(rows)]
            found.append(sorted(numbered, key=lambda one: one[2]))
        return found

    @cached_property
    def _most_kg(self) -> list[dict[int, float]]:
        """The most leaf that each bed may give on each of its days."""
        return [
            {int(day): float(np.max(bed.leaf_kg[bed.on == day])) for day in np.unique(bed.on)}
            for bed in self.problem.beds
        ]

    def found(self, *, rng: np.random.Generator, again: int = AGAIN) -> list[Taken]:
        """The best that the rounds come to."""
        beds = list(range(len(self.problem.beds)))
        order = sorted(beds, key=lambda bed: -max((kg * grams for *_, kg, grams in self._ways[bed]), default=0.0))
        empty = self.room.empty()
        best = self._filled(empty.copy(), [], order)
        worth = self.worth(best)
        for _ in range(again if len(beds) > 1 else 0):
            some = set(rng.choice(beds, size=min(AT_ONCE, len(beds)), replace=False).tolist())
            kept = [one for one in best if one.bed not in some]
            left = empty.copy()
            for one in kept:
                self._take(left, one)
            tried = self._filled(left, kept, rng.permutation(sorted(some)).tolist())
            tried_worth = self.worth(tried)
            if tried_worth >= worth - SLACK:
                best, worth = tried, tried_worth
        return best

    def _filled(self, left: Left, kept: list[Taken], order: Sequence[int]) -> list[Taken]:
        """The kept cuts, and the best chain of each bed in order through what is left."""
        found = list(kept)
        for bed in order:
            ways = self.problem.beds[bed]
            for way in self._chain(left, bed):
                placed = self.room.place(left, ways.kind, int(ways.on[way]), float(ways.leaf_kg[way]))
                if placed is not None:
                    found.append(Taken(bed=bed, way=way, placed=placed))
                    self._take(left, found[-1])
        return found

    def _take(self, left: Left, one: Taken) -> None:
        ways = self.problem.beds[one.bed]
        self.room.take(left, ways.kind, int(ways.on[one.way]), one.placed)

    def _chain(self, left: Left, bed: int) -> tuple[int, ...]:
        """The best chain of ways of a bed, by what each is worth alone."""
        ways = self.problem.beds[bed]
        placed = {day: self.room.place(left, ways.kind, day, kg) for day, kg in self._most_kg[bed].items()}
        best: dict[tuple[int, int], tuple[float, tuple[int, ...]]] = {(START, 0): (0.0, ())}
        for way, since, on, leaf_kg, blue_g_per_kg in self._ways[bed]:
            here = placed[on]
            if here is None:
                continue
            grams = min(leaf_kg, here.leaf_kg) * blue_g_per_kg * here.kept_frac
            worth = grams * self._factor(here) - self._moved(bed, since, on, grams)
            for cuts in range(ways.most_cuts):
                before = best.get((since, cuts))
                if before is not None:
                    after = best.get((on, cuts + 1))
                    if after is None or before[0] + worth > after[0]:
                        best[on, cuts + 1] = (before[0] + worth, (*before[1], way))
        return max(best.values(), key=lambda one: one[0])[1]

    def _moved(self, bed: int, since: int, on: int, grams: float) -> float:
        kept = self.problem.kept_days.get(bed)
        if kept is None or since != START:
            return 0.0
        return self.problem.prices.move_frac_per_d * min(abs(on - kept), 7) * grams

    def _factor(self, placed: Placed) -> float:
        """What a gram is worth: whole while a want may still get it, else as what comes late."""
        wants = self.problem.wants
        return 1.0 if not wants or wants[-1].day >= placed.jar else self.problem.prices.late_frac

    def worth(self, taken: Sequence[Taken]) -> float:
        """The objective of a set of cuts, without prices of hours."""
        problem, jar, moved = self.problem, list[tuple[int, float]](), 0.0
        for one in taken:
            ways = problem.beds[one.bed]
            grams = one.placed.leaf_kg * one.placed.kept_frac * float(ways.blue_g_per_kg[one.way])
            moved += problem.prices.tub_g * len(one.placed.tubs)
            moved += self._moved(one.bed, int(ways.since[one.way]), int(ways.on[one.way]), grams)
            jar.append((one.placed.jar, grams))
        total = sum(grams for _day, grams in jar)
        if not problem.wants:
            return total - moved
        met, late = 0.0, problem.prices.late_frac
        for want in problem.wants:
            there = problem.ready_g + sum(grams for day, grams in jar if day <= want.day)
            met += max(0.0, min(want.blue_g, there - met))
        return late * total + (1 - late) * met - moved


def first_values(made: Model, *, rng: np.random.Generator) -> tuple[dict[int, float], float]:
    """Values of the columns that must be whole, by column: a schedule that is possible; and what it is worth."""
    search = Search(made.problem)
    found = search.found(rng=rng)
    values = {column: 0.0 for column, whole in enumerate(made.program.whole) if whole}
    for columns, chosen in zip(made.strained, search.room.strained, strict=True):
        values[columns[chosen]] = 1.0
    for one in found:
        ways = made.problem.beds[one.bed]
        values[made.way[one.bed][one.way]] = float(ways.parts)
        for size, steep in one.placed.tubs:
            values[made.fill[size, ways.kind, steep]] += 1.0
    return values, search.worth(found)
