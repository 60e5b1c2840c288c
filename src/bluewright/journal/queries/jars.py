"""Jars with what went in and what was taken out, in a fixed number of statements."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, Final
from uuid import UUID

from django.db.models import Case, Exists, OuterRef, Prefetch, Q, QuerySet, Subquery, Sum, When
from django.db.models.functions import Coalesce

from bluewright.journal.models import Batch, Garden, Jar, JarFrom, JarTaken, Poured, YieldSeen
from bluewright.journal.queries import batches

NOTHING_G: Final = 5e-7
"""What is left of grams that cancel, in floating point."""


def jars(of: Garden) -> QuerySet[Jar]:
    """The jars of a garden, the newest first, with their pigment, what was taken, and what was last said of each.

    `seen_pure_g` is the band of pure blue that a page told last, as a dict, and `seen_at` when; None where none did.
    """
    return _with_said(Jar.objects.filter(garden=of))


def known(of: Garden) -> QuerySet[Jar]:
    """As `jars`, with those that were taken out of sight: what went out of one before is still somewhere."""
    return _with_said(Jar.everything.filter(garden=of))


def in_stock(of: Garden, *, holding: Iterable[UUID]) -> QuerySet[Any, UUID]:
    """The keys of the jars of a garden, those that still hold something (`holding`) first, then the newest."""
    last = Case(When(pk__in=list(holding), then=0), default=1)
    return Jar.objects.filter(garden=of).order_by(last, "-filled_at").values_list("pk", flat=True)


def holding(of: Garden) -> list[UUID]:
    """The keys of the jars that still hold something, the newest first."""
    put_in = JarFrom.objects.filter(jar=OuterRef("pk"), batch__deleted_at=None).order_by().values("jar")
    taken = JarTaken.objects.filter(jar=OuterRef("pk")).order_by().values("jar")
    in_g = Coalesce(Subquery(put_in.annotate(all_g=Sum("pigment_g")).values("all_g")), 0.0)
    out_g = Coalesce(Subquery(taken.annotate(all_g=Sum("taken_g")).values("all_g")), 0.0)
    held = Jar.objects.filter(garden=of).alias(left_g=in_g - out_g).filter(left_g__gt=NOTHING_G)
    return list(held.order_by("-filled_at").values_list("pk", flat=True))


def these(of: Garden, keys: Iterable[UUID]) -> list[Jar]:
    """The jars with these keys, in their order, as `jars` gives them."""
    found = {row.pk: row for row in jars(of).filter(pk__in=list(keys))}
    return [found[key] for key in keys if key in found]


def jar(key: UUID, *, of: Garden) -> Jar | None:
    """One jar of a garden, its batches whole; None if there is none of that key."""
    return next(iter(whole(of, [key])), None)


def whole(of: Garden, keys: Iterable[UUID]) -> list[Jar]:
    """The jars of a garden with these keys, the newest first, their batches whole."""
    found = list(_with_stock(Jar.objects.filter(garden=of, pk__in=list(keys)).order_by("-filled_at")))
    if found:
        known = {one.pk: one for one in batches.batches(of).filter(jarred__jar__in=found)}
        for part in (part for one in found for part in one.came_from.all()):
            part.batch = known.get(part.batch_id, part.batch)
    return found


def fillable(of: Garden, *, also: Iterable[UUID] = ()) -> QuerySet[Batch]:
    """Batches whose pigment can go into a jar, the newest first: those that wait for one, and what else is named."""
    jarred = JarFrom.objects.filter(batch=OuterRef("pk"), jar__deleted_at=None)
    joined = Poured.objects.filter(batch=OuterRef("pk"), into__deleted_at=None)
    waits = Q(~Exists(jarred), ~Exists(joined), ended_at=None)
    return Batch.objects.filter(waits | Q(pk__in=list(also)), garden=of)


def left_g(found: Jar) -> float:
    """What stands in a jar: what went in less what was taken out."""
    return round(put_in_g(found) - sum(row.taken_g for row in found.taken.all()), 6)


def put_in_g(found: Jar) -> float:
    """What went into a jar, all batches together."""
    return float(sum(part.pigment_g for part in found.came_from.all()))


def _with_said(found: QuerySet[Jar]) -> QuerySet[Jar]:
    last = YieldSeen.objects.filter(jar=OuterRef("pk")).order_by("-seen_at")
    return _with_stock(found).annotate(
        seen_pure_g=Subquery(last.values("answer__pure_g")[:1]), seen_at=Subquery(last.values("seen_at")[:1])
    )


def _with_stock(found: QuerySet[Jar]) -> QuerySet[Jar]:
    parts = JarFrom.objects.filter(batch__deleted_at=None).select_related("batch")
    return found.select_related("garden").prefetch_related(Prefetch("came_from", queryset=parts), "taken", "assays")
