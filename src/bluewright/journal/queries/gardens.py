"""Which gardens there are, and what is in one."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime, timedelta
from typing import Final
from uuid import UUID

from django.db.models import Count, Exists, Max, OuterRef, Prefetch, Q, QuerySet
from django.db.models.functions import Greatest

from bluewright.journal.models import Bed, Garden, PickedFrom, Picking, SteepLeaf
from bluewright.journal.queries.ordered import with_keys

LATEST: Final = 4
"""So many pickings of each bed stand in the list of beds."""
CHOICES: Final = 60
"""So many pickings are offered for a tub at most."""
STILL_NEAR: Final = timedelta(days=30)
"""Leaf that was picked so long ago and went into a tub is offered for another one no more."""


def gardens() -> list[Garden]:
    """All gardens, the oldest first."""
    return list(Garden.objects.order_by("made_at"))


def garden(key: str | UUID | None) -> Garden | None:
    """The garden of that key, or the oldest."""
    found = Garden.objects.filter(pk=key).first() if key else None
    return found or Garden.objects.order_by("made_at").first()


def invented() -> Garden | None:
    """The invented garden, if it has been filled in."""
    return Garden.objects.filter(invented=True).order_by("made_at").first()


def beds(of: Garden) -> QuerySet[Bed]:
    """The beds of a garden, each with its `latest` pickings, and as `pickings_before` how many came before those."""
    standing = Q(pickings__deleted_at=None)
    found: QuerySet[Bed] = (
        Bed.objects.filter(garden=of)
        .annotate(pickings_before=Greatest(Count("pickings", filter=standing) - LATEST, 0))
        .prefetch_related(
            Prefetch("pickings", queryset=Picking.objects.order_by("-picked_at")[:LATEST], to_attr="latest")
        )
    )
    return found


def pickings(of: Garden) -> QuerySet[Picking]:
    """The pickings of a garden, the newest first, with their sources and the tubs they went into.

    A bed that was taken out is still the source of what was picked from it.
    """
    return _threaded(Picking.objects.filter(garden=of))


def these_pickings(of: Garden, keys: Iterable[UUID]) -> list[Picking]:
    """The pickings with these keys, in their order, as `pickings` gives them."""
    return with_keys(pickings(of), keys)


def waiting_pickings(of: Garden, *, since: datetime) -> QuerySet[Picking]:
    """Leaf that was picked since then and is in no tub, the newest first."""
    used = SteepLeaf.objects.filter(picking=OuterRef("pk"), steep__deleted_at=None)
    return Picking.objects.filter(~Exists(used), garden=of, picked_at__gte=since)


def only_waiting(of: Garden, *, now: datetime) -> Picking | None:
    """The picking of the last weeks that is in no tub, where there is just one."""
    found = list(waiting_pickings(of, since=now - STILL_NEAR)[:2])
    return found[0] if len(found) == 1 else None


def choosable(of: Garden, *, now: datetime, also: Iterable[UUID | str] = ()) -> list[Picking]:
    """Pickings that can go into a tub: those of the last weeks, what is in no tub yet, and what is chosen already.

    Of many, the newest; each with the tubs it went into.
    """
    used = SteepLeaf.objects.filter(picking=OuterRef("pk"), steep__deleted_at=None)
    mine = _threaded(Picking.objects.filter(garden=of))
    found = list(mine.filter(~Exists(used) | Q(picked_at__gte=now - STILL_NEAR))[:CHOICES])
    return found + list(mine.filter(pk__in=list(also)).exclude(pk__in=[row.pk for row in found]))


def last_picked(of: Garden, *, since: datetime) -> list[tuple[Bed, datetime]]:
    """Each bed that was picked since then, with the time of its last picking."""
    taken = PickedFrom.objects.filter(
        picking__garden=of, picking__deleted_at=None, picking__picked_at__gte=since
    ).order_by()
    latest = dict(taken.values_list("bed").annotate(last_picked_at=Max("picking__picked_at")))
    return [(bed, latest[bed.pk]) for bed in Bed.objects.filter(garden=of, pk__in=latest)]


def bed(key: UUID, *, of: Garden) -> Bed | None:
    """One bed of a garden; None if there is none of that key."""
    return Bed.objects.filter(garden=of, pk=key).select_related("garden", "made_by").first()


def bed_of(key: str, *, of: Garden) -> Bed | None:
    """The bed of a key that somebody typed or followed; None if there is none, or the key is no key."""
    try:
        return bed(UUID(key), of=of)
    except ValueError:
        return None


def only_bed(of: Garden) -> Bed | None:
    """The garden's bed, where there is just one."""
    found = list(Bed.objects.filter(garden=of)[:2])
    return found[0] if len(found) == 1 else None


def taken_from(found: Bed) -> QuerySet[Picking]:
    """What was picked from a bed, the newest first, each with its sources and tubs."""
    return _threaded(found.pickings.order_by("-picked_at"))


def one_picking(key: UUID, *, of: Garden) -> Picking | None:
    """One picking of a garden with its sources and tubs; None if there is none of that key."""
    return _threaded(Picking.objects.filter(garden=of, pk=key).select_related("garden", "made_by")).first()


def picking(key: str, *, of: Garden) -> Picking | None:
    """The picking of that key in a garden; None if there is none, or the key is no key."""
    try:
        return Picking.objects.filter(garden=of, pk=UUID(key)).first()
    except ValueError:
        return None


def _threaded(pickings: QuerySet[Picking]) -> QuerySet[Picking]:
    return pickings.prefetch_related(
        Prefetch("sources", queryset=PickedFrom.objects.select_related("bed").order_by("bed__name")),
        Prefetch("went_into", queryset=SteepLeaf.objects.filter(steep__deleted_at=None).select_related("steep")),
    )
