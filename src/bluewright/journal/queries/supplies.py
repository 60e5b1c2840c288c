"""What was bought for vats, what a gram of it cost last, and what is left by the book."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, time
from typing import Final, NamedTuple
from zoneinfo import ZoneInfo

from bluewright.journal.models import Garden, Supply, VatAddition

MOST: Final = 200


class Pack(NamedTuple):
    """A pack and its price."""

    pack_g: float
    pack_money: float


class Left(NamedTuple):
    """What is left of one kind, by the book."""

    kind: str
    left_g: float
    """Below 0 where more went into vats than was bought."""
    bought_g: float


def supplies(of: Garden) -> list[Supply]:
    """All packs, by kind, the newest first."""
    return list(Supply.objects.filter(garden=of)[:MOST])


def last_packs(of: Garden) -> dict[str, Pack]:
    """Of each kind the pack that was bought last: its price is what the next gram costs."""
    rows = reversed(supplies(of))
    return {row.kind: Pack(row.pack_g, row.pack_money) for row in rows}


def left(of: Garden) -> list[Left]:
    """Of each kind what its packs at hand held, less what went into vats since the first of them was bought."""
    packs: dict[str, list[Supply]] = {}
    for row in supplies(of):
        if not row.used_up:
            packs.setdefault(row.kind, []).append(row)
    zone = ZoneInfo(of.time_zone)
    since = {kind: _morning(min(row.bought_on for row in rows), zone) for kind, rows in packs.items()}
    used_g = _used_g(of, since)
    bought_g = {kind: sum(row.pack_g for row in rows) for kind, rows in packs.items()}
    return [Left(kind=kind, left_g=all_g - used_g[kind], bought_g=all_g) for kind, all_g in bought_g.items()]


def _used_g(of: Garden, since: Mapping[str, datetime]) -> dict[str, float]:
    """What went into vats of each kind since a moment of its own, in one read."""
    found = dict.fromkeys(since, 0.0)
    if not since:
        return found
    rows = VatAddition.objects.filter(
        vat__garden=of, vat__deleted_at=None, what__in=list(since), added_at__gte=min(since.values())
    )
    for what, at, grams in rows.values_list("what", "added_at", "mass_g"):
        found[what] += grams if at >= since[what] else 0.0
    return found


def _morning(day: date, zone: ZoneInfo) -> datetime:
    return datetime.combine(day, time(), zone)
