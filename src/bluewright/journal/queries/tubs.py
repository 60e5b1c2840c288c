"""Tubs with all that their pages need, in a fixed number of statements."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import timedelta
from typing import Final
from uuid import UUID

from django.db.models import Exists, OuterRef, Prefetch, QuerySet

from bluewright.journal.models import AirTemp, CallSeen, Garden, Poured, Reading, Steep, SteepLeaf, Strain

AIR_BEFORE: Final = timedelta(days=2)
AIR_AFTER: Final = timedelta(days=30)
MOST_CALLS: Final = 60
"""Of the calls that were seen, the latest."""


def tubs(of: Garden) -> QuerySet[Steep]:
    """The tubs of a garden, the newest first, whole."""
    return _whole(Steep.objects.filter(garden=of))


def steeping(of: Garden) -> QuerySet[Steep]:
    """The tubs of a garden that are not strained yet, the newest first, whole."""
    strained = Strain.objects.filter(steep=OuterRef("pk"))
    return _whole(Steep.objects.filter(~Exists(strained), garden=of))


def tub(key: UUID, *, of: Garden) -> Steep | None:
    """One tub of a garden, whole; None if there is none of that key."""
    return _whole(Steep.objects.filter(garden=of, pk=key)).first()


def calls_seen(steep: Steep) -> list[CallSeen]:
    """The latest calls that were seen of a tub, the newest first."""
    return list(CallSeen.objects.filter(steep=steep).order_by("-seen_at")[:MOST_CALLS])


def air(of: Garden, *, around: Steep) -> list[AirTemp]:
    """The air from two days before a steep to a month after its start, in order of time."""
    return list(
        AirTemp.objects.filter(
            garden=of, time__gte=around.started_at - AIR_BEFORE, time__lte=around.started_at + AIR_AFTER
        ).order_by("time")
    )


def air_by_tub(of: Garden, steeps: Iterable[Steep]) -> dict[UUID, list[AirTemp]]:
    """For each of several tubs the air that `air` gives, in one read."""
    known = list(steeps)
    if not known:
        return {}
    starts = [steep.started_at for steep in known]
    rows = list(
        AirTemp.objects.filter(
            garden=of, time__gte=min(starts) - AIR_BEFORE, time__lte=max(starts) + AIR_AFTER
        ).order_by("time")
    )
    return {
        steep.pk: [row for row in rows if steep.started_at - AIR_BEFORE <= row.time <= steep.started_at + AIR_AFTER]
        for steep in known
    }


def _whole(steeps: QuerySet[Steep]) -> QuerySet[Steep]:
    went = Prefetch("went_into", queryset=Poured.objects.filter(into__deleted_at=None).select_related("into"))
    return steeps.select_related("garden", "made_by").prefetch_related(
        Prefetch("leaf", queryset=SteepLeaf.objects.select_related("picking")),
        Prefetch("readings", queryset=Reading.objects.order_by("taken_at")),
        Prefetch("strains", queryset=Strain.objects.order_by("-strained_at").prefetch_related(went)),
    )
