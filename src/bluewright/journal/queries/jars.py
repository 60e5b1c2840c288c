"""Jars with what went in and what was taken out, in a fixed number of statements."""

from __future__ import annotations

from collections.abc import Iterable
from uuid import UUID

from django.db.models import Exists, OuterRef, Prefetch, Q, QuerySet, Subquery, Sum

from bluewright.journal.models import Batch, Garden, Jar, JarFrom, JarTaken, Poured, YieldSeen
from bluewright.journal.queries import batches


def jars(of: Garden) -> QuerySet[Jar]:
    """The jars of a garden, the newest first, with their pigment, what was taken, and what was last said of each.

    `seen_pure_g` is the band of pure blue that a page told last, as a dict, and `seen_at` when; None where none did.
    """
    last = YieldSeen.objects.filter(jar=OuterRef("pk")).order_by("-seen_at")
    return _with_stock(Jar.objects.filter(garden=of)).annotate(
        seen_pure_g=Subquery(last.values("answer__pure_g")[:1]), seen_at=Subquery(last.values("seen_at")[:1])
    )


def stock(of: Garden) -> list[tuple[UUID, bool]]:
    """The keys of all jars of a garden and whether each still holds something: those that do first, then the newest."""
    put_in = JarFrom.objects.filter(jar__garden=of, batch__deleted_at=None).order_by()
    taken = JarTaken.objects.filter(jar__garden=of).order_by()
    in_g = dict(put_in.values_list("jar").annotate(all_g=Sum("pigment_g")))
    out_g = dict(taken.values_list("jar").annotate(all_g=Sum("taken_g")))
    keys = Jar.objects.filter(garden=of).values_list("pk", flat=True)
    found = [(key, round(in_g.get(key, 0.0) - out_g.get(key, 0.0), 6) > 0) for key in keys]
    return sorted(found, key=lambda one: not one[1])


def these(of: Garden, keys: Iterable[UUID]) -> list[Jar]:
    """The jars with these keys, in their order, as `jars` gives them."""
    found = {row.pk: row for row in jars(of).filter(pk__in=list(keys))}
    return [found[key] for key in keys if key in found]


def jar(key: UUID, *, of: Garden) -> Jar | None:
    """One jar of a garden, its batches whole; None if there is none of that key."""
    found = _with_stock(Jar.objects.filter(garden=of, pk=key)).first()
    if found is not None:
        whole = {one.pk: one for one in batches.batches(of).filter(jarred__jar=found)}
        for part in found.came_from.all():
            part.batch = whole.get(part.batch_id, part.batch)
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


def _with_stock(found: QuerySet[Jar]) -> QuerySet[Jar]:
    parts = JarFrom.objects.filter(batch__deleted_at=None).select_related("batch")
    return found.select_related("garden").prefetch_related(Prefetch("came_from", queryset=parts), "taken")
