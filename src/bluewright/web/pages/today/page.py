"""What the start page shows."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from django.utils.translation import ngettext

from bluewright.words.numbers import moment


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """Something to press: words and address."""

    says: str
    href: str
    writes: bool = True
    """Whether it leads to writing: an onlooker is not shown it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Matter:
    """One thing that wants doing."""

    urgency_h: float
    """Hours until it wants doing; below zero it should have been done."""
    key: str
    """Key of the thing."""
    what: str
    why: str
    do: Step
    """Its one next action."""
    also: Step | None = None
    keeps: bool = False
    """Whether it takes no harm when it waits: however long it has been due, what spoils comes before it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TodayPage:
    """The start page."""

    now: str
    matters: tuple[Matter, ...]
    """What wants doing within a day and a half, the most urgent first."""
    later: tuple[Matter, ...]
    later_said: str
    """How many can wait, in words."""
    bare: bool
    """Whether no bed is written down yet: then that comes first."""


SOON_H = 36.0
"""What can wait longer than this stands below, folded."""
CALM_H = 1.0
"""What keeps is never more urgent than something that is due in so long."""


def today_page(matters: Iterable[Matter], *, now: datetime, bare: bool) -> TodayPage:
    """The page: the most urgent first; `bare` where the garden has no bed yet."""
    found = sorted(matters, key=_order)
    later = tuple(m for m in found if m.urgency_h > SOON_H)
    said = ngettext("%(n)d thing can wait", "%(n)d things can wait", len(later)) % {"n": len(later)}
    return TodayPage(
        now=moment(now),
        matters=tuple(m for m in found if m.urgency_h <= SOON_H),
        later=later,
        later_said=said,
        bare=bare,
    )


def _order(matter: Matter) -> tuple[float, float]:
    due_h = matter.urgency_h
    return (max(due_h, CALM_H) if matter.keeps else due_h), due_h
