"""Whether anything that the outlook of a bed rests on was written since: found in a few small reads, for all beds."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime, time, timedelta
from typing import Any, Final, TypeAlias
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db.models import Count, Max

from bluewright.journal.models import AirTemp, Bed, BedLook, Garden, Intake, PickedFrom, RainDay, WaterNote

Stamp: TypeAlias = tuple[Any, ...]
"""Something that differs once anything was written, changed, taken out or brought back."""
TYPED_BACK: Final = timedelta(days=14)
"""Weather is typed for days so near; older days change only with a logger's file."""
PICKED_BACK: Final = timedelta(days=430)
"""Pickings of this season and the one before."""


def of_the_garden(garden: Garden, *, today: date) -> Stamp:
    """Of what all beds share: the garden itself and its weather."""
    since = _begins(today - TYPED_BACK, garden)
    near = {"garden": garden, "intake": None, "time__gte": since}
    return (
        garden.changed_at,
        *_latest(AirTemp.everything.filter(**near)),
        *_latest(RainDay.everything.filter(garden=garden, day__gte=since.date())),
        *_latest(Intake.everything.filter(garden=garden)),
    )


def of_beds(garden: Garden, *, today: date) -> Mapping[UUID, Stamp]:
    """Of each bed: itself, its pickings, its looks, and the notes of its water."""
    picked = {"picking__garden": garden, "picking__picked_at__gte": _begins(today - PICKED_BACK, garden)}
    beside = [
        _by_bed(PickedFrom.objects.filter(**picked), "picking__changed_at"),
        _by_bed(BedLook.everything.filter(bed__garden=garden), "changed_at"),
        _by_bed(WaterNote.everything.filter(bed__garden=garden), "changed_at"),
    ]
    own = Bed.objects.filter(garden=garden).values_list("pk", "changed_at")
    return {pk: (changed, *(one.get(pk) for one in beside)) for pk, changed in own}


def _begins(day: date, garden: Garden) -> datetime:
    """The first moment of a day by the garden's clock."""
    return datetime.combine(day, time(), ZoneInfo(garden.time_zone))


def _latest(rows: Any) -> tuple[int, datetime | None]:
    found = rows.order_by().aggregate(many=Count("pk"), latest=Max("changed_at"))
    return found["many"], found["latest"]


def _by_bed(rows: Any, changed: str) -> dict[UUID, tuple[int, datetime]]:
    told = rows.order_by().values_list("bed_id").annotate(many=Count("pk"), latest=Max(changed))
    return {bed: (many, latest) for bed, many, latest in told}
