"""What a plan rests on: wants, how the garden works, and its jars whose indigo was measured."""

from __future__ import annotations

from collections.abc import Sequence
from uuid import UUID

from django.db.models import Exists, F, OuterRef, Q

from bluewright.journal.models import Assay, Bed, Garden, Jar, PlanBasis, Want

MOST_WANTS = 50
MOST_OWN = 100


def wants(of: Garden) -> Sequence[Want]:
    """Every want of a garden: by day, those for some time last."""
    return list(Want.objects.filter(garden=of).order_by(F("by_day").asc(nulls_last=True), "made_at"))


def want(key: UUID, *, of: Garden) -> Want | None:
    """One want of a garden; None if there is none of that key."""
    found: Want | None = Want.objects.filter(garden=of, pk=key).select_related("garden", "made_by").first()
    return found


def basis(of: Garden) -> PlanBasis:
    """How the garden works; unsaved, with the plant of its largest beds, where nobody has said."""
    found: PlanBasis | None = PlanBasis.objects.filter(garden=of).select_related("made_by").first()
    if found is not None:
        return found
    areas: dict[str, float] = {}
    for plant, area_m2 in Bed.objects.filter(garden=of).values_list("plant", "area_m2"):
        areas[plant] = areas.get(plant, 0.0) + (area_m2 or 0.0)
    return PlanBasis(garden=of, plant=max(areas, key=lambda plant: areas[plant], default="woad"))


def measured_jars(of: Garden) -> list[UUID]:
    """The keys of the jars whose indigo was measured, the newest first."""
    assayed = Q(Exists(Assay.objects.filter(jar=OuterRef("pk")))) | Q(purity_frac__isnull=False)
    return list(Jar.objects.filter(assayed, garden=of).order_by("-filled_at").values_list("pk", flat=True)[:MOST_OWN])
