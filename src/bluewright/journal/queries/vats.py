"""Vats with what went in, what was seen and what was dyed in them, in a fixed number of statements."""

from __future__ import annotations

from collections.abc import Collection
from uuid import UUID

from django.db.models import Prefetch, QuerySet

from bluewright.journal.models import Dip, Garden, Vat, VatAddition, VatPoured, VatReading
from bluewright.journal.queries import jars


def vats(of: Garden) -> QuerySet[Vat]:
    """The vats of a garden whole, the newest first."""
    return _whole(Vat.objects.filter(garden=of), of)


def standing(of: Garden) -> QuerySet[Vat]:
    """Those that were not ended, whole, the newest first."""
    return _whole(Vat.objects.filter(garden=of, ended_at=None), of)


def ended(of: Garden) -> QuerySet[Vat]:
    """Those that are no more, bare, those that were ended last first."""
    return Vat.objects.filter(garden=of).exclude(ended_at=None).order_by("-ended_at")


def vat(key: UUID, *, of: Garden) -> Vat | None:
    """One vat of a garden, whole; None if there is none of that key."""
    return vats(of).filter(pk=key).first()


def with_sources(of: Garden, keys: Collection[UUID]) -> dict[UUID, Vat]:
    """These vats and all from which anything came into them, however far back, whole; in a fixed number of reads."""
    poured = VatPoured.objects.filter(vat__garden=of, source__isnull=False).values_list("vat", "source")
    sources: dict[UUID, set[UUID]] = {}
    for vat, source in poured:
        sources.setdefault(vat, set()).add(source)
    found, coming = set[UUID](), set(keys)
    while coming:
        found |= coming
        coming = {source for key in coming for source in sources.get(key, ())} - found
    return {vat.pk: vat for vat in vats(of).filter(pk__in=found)}


def _whole(found: QuerySet[Vat], of: Garden) -> QuerySet[Vat]:
    dips = Dip.objects.filter(piece__deleted_at=None).select_related("piece").order_by("began_at")
    additions = VatAddition.objects.select_related("taken").order_by("added_at", "made_at")
    return found.select_related("garden", "made_by").prefetch_related(
        Prefetch("additions", queryset=additions),
        Prefetch("additions__taken__jar", queryset=jars.known(of)),
        Prefetch("poured", queryset=VatPoured.objects.select_related("source").order_by("poured_at")),
        Prefetch("readings", queryset=VatReading.objects.order_by("taken_at")),
        Prefetch("dips", queryset=dips),
    )
