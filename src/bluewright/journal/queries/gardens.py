"""Which gardens there are, and what is in one."""

from __future__ import annotations

from datetime import datetime
from uuid import UUID

from django.db.models import Exists, Max, OuterRef, Prefetch, Q, QuerySet

from bluewright.journal.models import Bed, Garden, PickedFrom, Picking, SteepLeaf


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
    """The beds of a garden, with their pickings."""
    return Bed.objects.filter(garden=of).prefetch_related(
        Prefetch("pickings", queryset=Picking.objects.order_by("-picked_at"))
    )


def pickings(of: Garden) -> QuerySet[Picking]:
    """The pickings of a garden, the newest first, with their sources and the tubs they went into.

    A bed that was taken out is still the source of what was picked from it.
    """
    return _threaded(Picking.objects.filter(garden=of))


def waiting_pickings(of: Garden, *, since: datetime) -> QuerySet[Picking]:
    """Leaf that was picked since then and is in no tub, the newest first."""
    used = SteepLeaf.objects.filter(picking=OuterRef("pk"), steep__deleted_at=None)
    return Picking.objects.filter(~Exists(used), garden=of, picked_at__gte=since)


def last_picked(of: Garden) -> list[tuple[Bed, datetime]]:
    """Each bed that was ever picked, with the time of its last picking."""
    latest = Max("pickings__picked_at", filter=Q(pickings__deleted_at=None))
    found = Bed.objects.filter(garden=of).annotate(last_picked_at=latest).exclude(last_picked_at=None)
    return [(bed, bed.last_picked_at) for bed in found]


def bed(key: UUID, *, of: Garden) -> Bed | None:
    """One bed of a garden with its pickings, each with its sources and tubs; None if there is none."""
    pickings = _threaded(Picking.objects.order_by("-picked_at"))
    return (
        Bed.objects.filter(garden=of, pk=key)
        .select_related("garden", "made_by")
        .prefetch_related(Prefetch("pickings", queryset=pickings))
        .first()
    )


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
