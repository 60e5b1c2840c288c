"""The season as plain numbers: days counted from 0, beds with their possible cuts, sizes of tubs, hours, places, wants.

Nothing here knows a plant's ways: `season` makes this from growth and steep. Every array is indexed by day where its
comment says (d,). A *way* is one possible cut of a bed: the day of the cut before it, its own day, and what it gives.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Final

import numpy as np
from numpy.typing import NDArray

from bluewright.science.base.sourced import Floats

Ints = NDArray[np.int64]
START: Final = -1
"""The day `since` of a way that begins with the bed as it stands."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """Every possible cut of one bed; arrays of shape (a,)."""

    kind: int
    """Which kind of leaf: leaf of two kinds never shares a tub."""
    parts: int = 1
    """In how many parts the bed may be cut, each on a day of its own."""
    most_cuts: int
    since: Ints
    """Day of the cut before, or `START`."""
    on: Ints
    """Day of this cut, after `since`."""
    leaf_kg: Floats
    """Leaf of the whole bed."""
    blue_g_per_kg: Floats
    """Pure blue expected of a kilogram of it, steeped for its best number of days."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """Tubs of one size."""

    count: int
    leaf_kg: float
    """Leaf that one of them takes."""
    rest_d: int
    """Days that it stays taken after straining."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Steeps:
    """Every possible steep of one kind of leaf; arrays of shape (k,)."""

    fill: Ints
    """Day of filling."""
    strain: Ints
    """Day of straining."""
    busy_until: Ints
    """The tub is kept for it to the evening of the day before this, at least."""
    kept_frac: Floats
    """Of the blue that the best number of days gives."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Running:
    """A tub that steeps already: its days are taken, and its straining may be any of these."""

    size: int
    leaf_kg: float
    blue_g: float
    strain: Ints
    """Days on which it may be strained, (k,)."""
    busy_until: Ints
    kept_frac: Floats


@dataclass(frozen=True, slots=True, kw_only=True)
class Hours:
    """Work in hours."""

    cut_h_per_kg: float
    """Cutting and stripping a kilogram of leaf, on the day of the cut."""
    fill_h: float
    """Filling one tub, on the day."""
    look_h: float
    """Looking at one tub, on each day between on which there are hours."""
    strain_h: float
    """Straining, alkali and air of one tub, on the day."""
    wash_h: float
    """Washing, filtering and weighing of one tub's blue, on any days of the `wait_d` after straining."""
    wait_d: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Drying:
    """Places to dry, and how long a tub's blue takes from straining to the tray and from there to the jar."""

    wash_d: int
    dry_d: int
    needed: tuple[float, ...] = ()
    """Room that one tub's blue takes, by size; the unit is that of `room`: places or square metres."""
    room: Floats | None = None
    """Room left beside what lies there already, (d,); None where it is not limited."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Want:
    """Blue that is wanted by the evening of a day."""

    day: int
    blue_g: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Prices:
    """What is worth how much, in grams of blue that comes in time."""

    late_frac: float
    """A gram that no want gets in time."""
    extra_g_per_h: float
    """An hour beyond those free."""
    held_frac: tuple[float, ...]
    """Share of its blue that leaf of each kind loses when it waits for a tub until the next day."""
    move_frac_per_d: float
    """Share of a cut's blue that moving it by a day costs, when it was planned for the next week."""
    tub_g: float = 0.0
    """Filling one tub."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """One season."""

    days: int
    free_h: Floats
    """Hours free on each day, (d,)."""
    extra_h: Floats
    """Hours that may be worked beyond those, (d,)."""
    beds: tuple[Ways, ...]
    sizes: tuple[Size, ...]
    steeps: tuple[Steeps, ...]
    """By kind of leaf."""
    hours: Hours
    drying: Drying
    prices: Prices
    wants: tuple[Want, ...] = ()
    """In order of days."""
    ready_g: float = 0.0
    """Blue that is made already, or lies drying."""
    running: tuple[Running, ...] = ()
    kept_days: dict[int, int] = field(default_factory=dict)
    """By bed: the day for which its next cut was planned, where that is within the week."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """A part or the whole of a bed, cut."""

    bed: int
    way: int
    parts: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Filling:
    """Tubs of a size filled with one kind of leaf on a day."""

    size: int
    kind: int
    steep: int
    tubs: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Schedule:
    """What is chosen, with what it is worth."""

    cuts: tuple[Cut, ...]
    fillings: tuple[Filling, ...]
    strained: tuple[int, ...]
    """Of each running tub, which of its days."""
    standing_kg: dict[tuple[int, int], float]
    """Leaf that stays uncut, by bed and day."""
    held_kg: dict[tuple[int, int], float]
    """Leaf that waits for the next day, by kind and day."""
    washed_h: Floats
    """Hours of washing on each day, (d,)."""
    extra_h: Floats
    """Hours beyond those free, (d,)."""
    worth_g: float
    """Value of the objective, in grams of blue that comes in time."""
    bound_g: float
    """No schedule is worth more."""

    @property
    def gap_frac(self) -> float:
        """How far it may be from the best, as a share of it."""
        return max(0.0, self.bound_g - self.worth_g) / max(abs(self.bound_g), 1e-9)
