"""What the start page shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from bluewright.journal.models import Picking, Steep
from bluewright.science.steep.answer import SteepAnswer
from bluewright.words.numbers import moment, sentence
from bluewright.words.steep import advice, now_gives


@dataclass(frozen=True, slots=True, kw_only=True)
class Matter:
    """One thing that wants doing."""

    urgency: float
    """Hours until it wants doing; below zero it should have been done."""
    what: str
    why: str
    do: str
    """The words on its button."""
    at: str
    """Name of the page that does it."""
    key: str
    """Key of the thing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TodayPage:
    """The start page."""

    now: str
    matters: tuple[Matter, ...]


def today_page(matters: Sequence[Matter], *, waiting: Sequence[Picking], now: datetime) -> TodayPage:
    """The page: tubs and leaf that waits, the most urgent first."""
    leaf = [
        Matter(
            urgency=0.5,
            what=f"{p.leaf_typed} of {p.get_plant_display()} leaf waits",
            why=f"picked {moment(p.picked_at.astimezone(now.tzinfo))}; it loses blue by the hour",
            do="Put it in a tub",
            at="tubs.begin",
            key=str(p.pk),
        )
        for p in waiting
    ]
    return TodayPage(now=moment(now), matters=tuple(sorted([*matters, *leaf], key=lambda m: m.urgency)))


def tub_matter(steep: Steep, answer: SteepAnswer | None, *, trouble: str) -> Matter:
    """What a tub wants: to be strained, or to be looked at."""
    if answer is None:
        return Matter(
            urgency=24.0, what=steep.name, why=f"no forecast: {trouble}", do="Look at it", at="tubs.show",
            key=str(steep.pk),
        )  # fmt: skip
    until_h = (answer.look_again_at - answer.inputs.now).total_seconds() / 3600
    waits = answer.advice == "wait"
    return Matter(
        urgency=until_h if waits else -1.0,
        what=f"{steep.name}: look again {moment(answer.look_again_at)}" if waits else f"{steep.name}: {advice(answer)}",
        why=f"{sentence(advice(answer))}. {now_gives(answer)}" if waits else now_gives(answer),
        do="Open",
        at="tubs.show",
        key=str(steep.pk),
    )
