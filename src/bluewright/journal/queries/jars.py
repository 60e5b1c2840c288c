"""Jars with what went in and what was taken out, in a fixed number of statements."""

from __future__ import annotations

from uuid import UUID

from django.db.models import Prefetch, QuerySet

from bluewright.journal.models import Garden, Jar, JarFrom
from bluewright.journal.queries import batches


def jars(of: Garden) -> QuerySet[Jar]:
    """The jars of a garden, the newest first, with their pigment and what was taken."""
    return _with_stock(Jar.objects.filter(garden=of))


def jar(key: UUID, *, of: Garden) -> Jar | None:
    """One jar of a garden, its batches whole; None if there is none of that key."""
    found = _with_stock(Jar.objects.filter(garden=of, pk=key)).first()
    if found is not None:
        whole = {one.pk: one for one in batches.batches(of).filter(jarred__jar=found)}
        for part in found.came_from.all():
            part.batch = whole.get(part.batch_id, part.batch)
    return found


def left_g(found: Jar) -> float:
    """What stands in a jar: what went in less what was taken out."""
    put_in = sum(part.pigment_g for part in found.came_from.all())
    return float(put_in - sum(row.taken_g for row in found.taken.all()))


def _with_stock(found: QuerySet[Jar]) -> QuerySet[Jar]:
    parts = JarFrom.objects.filter(batch__deleted_at=None).select_related("batch")
    return found.select_related("garden").prefetch_related(Prefetch("came_from", queryset=parts), "taken")
