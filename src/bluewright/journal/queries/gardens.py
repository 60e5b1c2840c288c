"""Which gardens there are, and what is in one."""

from __future__ import annotations

from uuid import UUID

from django.db.models import Prefetch, QuerySet

from bluewright.journal.models import Bed, Garden, Picking, SteepLeaf


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
    """The pickings of a garden, the newest first, with their beds and the tubs they went into."""
    return Picking.objects.filter(garden=of).prefetch_related(
        "beds", Prefetch("went_into", queryset=SteepLeaf.objects.filter(steep__deleted_at=None).select_related("steep"))
    )


def picking(key: str, *, of: Garden) -> Picking | None:
    """The picking of that key in a garden; None if there is none, or the key is no key."""
    try:
        return Picking.objects.filter(garden=of, pk=UUID(key)).first()
    except ValueError:
        return None
