"""Tubs with all that their pages need, in a fixed number of statements."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime, timedelta
from typing import Any, Final
from uuid import UUID

from django.db.models import Avg, CharField, Exists, Max, Min, OuterRef, Prefetch, Q, QuerySet
from django.db.models.functions import Cast, Substr

from bluewright.journal.models import AirTemp, CallSeen, Garden, Poured, Reading, Steep, SteepLeaf, Strain, TubTemp
from bluewright.journal.models.steep import SIGN_FIELDS
from bluewright.journal.queries.ordered import with_keys

AIR_BEFORE: Final = timedelta(days=2)
AIR_AFTER: Final = timedelta(days=30)
MOST_CALLS: Final = 60
"""Of the calls that were seen, the latest."""


def tubs(of: Garden) -> QuerySet[Steep]:
    """The tubs of a garden, those that steep first, then the newest, with leaf, straining and the looks with a sign."""
    strained = Exists(Strain.objects.filter(steep=OuterRef("pk")))
    seen = Q(*((f"{sign}__isnull", False) for sign in SIGN_FIELDS), _connector=Q.OR)
    return (
        Steep.objects.filter(garden=of)
        .order_by(strained, "-started_at")
        .select_related("garden")
        .prefetch_related(
            "leaf",
            Prefetch("readings", queryset=Reading.objects.filter(seen).order_by("taken_at")),
            Prefetch("strains", queryset=Strain.objects.order_by("-strained_at")),
        )
    )


def in_order(of: Garden) -> QuerySet[Any, UUID]:
    """The keys of `tubs`."""
    return tubs(of).select_related(None).prefetch_related(None).values_list("pk", flat=True)


def these(of: Garden, keys: Sequence[UUID]) -> list[Steep]:
    """The tubs with these keys, in their order, as `tubs` gives them."""
    return with_keys(tubs(of), keys)


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
    """The air from two days before a steep to a month after its start, in order of time.

    What a person wrote down is there as it stands; a logger's readings as their means by the hour.
    """
    return air_by_tub(of, [around])[around.pk]


def air_by_tub(of: Garden, steeps: Iterable[Steep]) -> dict[UUID, list[AirTemp]]:
    """For each of several tubs the air that `air` gives, in one read."""
    known = list(steeps)
    if not known:
        return {}
    starts = [steep.started_at for steep in known]
    found = AirTemp.objects.filter(garden=of, time__gte=min(starts) - AIR_BEFORE, time__lte=max(starts) + AIR_AFTER)
    hours = [
        AirTemp(garden=of, time=_middle(hour), temp_c=hour["mean_c"]) for hour in _by_hour(found.exclude(intake=None))
    ]
    rows = sorted([*found.filter(intake=None), *hours], key=lambda row: row.time)
    return {
        steep.pk: [row for row in rows if steep.started_at - AIR_BEFORE <= row.time <= steep.started_at + AIR_AFTER]
        for steep in known
    }


def logged(steep: Steep) -> list[TubTemp]:
    """What loggers read in a tub, as means by the hour in order of time."""
    return logged_by_tub([steep])[steep.pk]


def logged_by_tub(steeps: Iterable[Steep]) -> dict[UUID, list[TubTemp]]:
    """For each of several tubs what `logged` gives, in one read."""
    found: dict[UUID, list[TubTemp]] = {steep.pk: [] for steep in steeps}
    rows = TubTemp.objects.filter(steep__in=list(found), intake__deleted_at=None) if found else TubTemp.objects.none()
    for hour in _by_hour(rows, "steep_id"):
        row = TubTemp(steep_id=hour["steep_id"], time=_middle(hour), temp_c=hour["mean_c"])
        found[row.steep_id].append(row)
    return found


def _whole(steeps: QuerySet[Steep]) -> QuerySet[Steep]:
    went = Prefetch("went_into", queryset=Poured.objects.filter(into__deleted_at=None).select_related("into"))
    return steeps.select_related("garden", "made_by").prefetch_related(
        Prefetch("leaf", queryset=SteepLeaf.objects.select_related("picking")),
        Prefetch("readings", queryset=Reading.objects.order_by("taken_at")),
        Prefetch("strains", queryset=Strain.objects.order_by("-strained_at").prefetch_related(went)),
    )


def _by_hour(rows: QuerySet[Any], *beside: str) -> QuerySet[Any, dict[str, Any]]:
    """For each hour the mean, and the first and the last time that it rests on."""
    hour = Substr(Cast("time", CharField()), 1, len("2026-07-01 18"))
    found: QuerySet[Any, dict[str, Any]] = (
        rows.annotate(hour=hour)
        .values("hour", *beside)
        .annotate(first=Min("time"), last=Max("time"), mean_c=Avg("temp_c"))
        .order_by("first")
    )
    return found


def _middle(hour: Mapping[str, Any]) -> datetime:
    first: datetime = hour["first"]
    last: datetime = hour["last"]
    return first + (last - first) / 2
