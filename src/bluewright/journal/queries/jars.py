"""Jars with what went in and what was taken out, in a fixed number of statements."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import islice
from typing import Any, Final, NamedTuple
from uuid import UUID

from django.db.models import Case, Exists, OuterRef, Prefetch, Q, QuerySet, Subquery, Sum, When
from django.db.models.functions import Coalesce

from bluewright.journal.courtesy import give_way
from bluewright.journal.models import (
    AlkaliPart,
    Assay,
    Batch,
    Garden,
    Jar,
    JarFrom,
    JarTaken,
    Poured,
    Standing,
    YieldSeen,
)
from bluewright.journal.queries import batches
from bluewright.journal.queries.ordered import with_keys
from bluewright.journal.written import UntilWritten
from bluewright.science.media.purity import Make

AT_ONCE: Final = 100
"""So many jars are read whole in one go: SQLite takes no statement that names a thousand rows that are read along, and
pages can go first in between."""
NOTHING_G: Final = 5e-7
"""What is left of grams that cancel, in floating point."""
_holding: Final = UntilWritten[UUID, tuple[UUID, ...]](4)


def jars(of: Garden) -> QuerySet[Jar]:
    """The jars of a garden, the newest first, with their pigment, what was taken, and what was last said of each.

    `seen_pure_g` is the band of pure blue that a page told last, as a dict, and `seen_at` when; None where none did.
    What its pigment is by plant and making is told by `plant` and `make`.
    """
    return _with_said(Jar.objects.filter(garden=of))


def known(of: Garden) -> QuerySet[Jar]:
    """As `jars`, with those that were taken out of sight: what went out of one before is still somewhere."""
    return _with_said(Jar.everything.filter(garden=of))


def untold(of: Garden) -> QuerySet[Jar]:
    """As `jars`, without what was said of them or can be told of their making: of a thread's jars nobody asks it."""
    return _with_stock(Jar.objects.filter(garden=of))


def in_stock(of: Garden, *, holding: Iterable[UUID]) -> QuerySet[Any, UUID]:
    """The keys of the jars of a garden, those that still hold something (`holding`) first, then the newest."""
    last = Case(When(pk__in=list(holding), then=0), default=1)
    return Jar.objects.filter(garden=of).order_by(last, "-filled_at").values_list("pk", flat=True)


def holding(of: Garden) -> list[UUID]:
    """The keys of the jars that still hold something, the newest first; kept until a jar is filled or taken from."""
    keys = _by_content(of, emptied=False).order_by("-filled_at").values_list("pk", flat=True)
    return list(_holding.got(of.pk, lambda: tuple(keys)))


class Spent(NamedTuple):
    """What was taken out once of a jar that holds nothing any more, and what tells the blue in it."""

    jar: UUID
    what_for: str
    taken_g: float
    put_in_g: float
    purity_frac: float | None
    purity_sd_frac: float | None
    scale_sd_g: float
    seed: int
    seen_pure_g: dict[str, float] | None
    """The band of pure blue that a page told since the jar was changed last."""
    assayed: bool


def spent(of: Garden) -> list[Spent]:
    """All that was taken out of emptied jars, in one statement: of thousands of jars over the years."""
    last = YieldSeen.objects.filter(jar=OuterRef("jar"), seen_at__gte=OuterRef("jar__changed_at")).order_by("-seen_at")
    emptied = _by_content(of, emptied=True)
    rows = JarTaken.objects.filter(jar__in=emptied.values("pk"), weighed_g=None).annotate(
        in_g=_put_in_g("jar"), seen_pure_g=Subquery(last.values("answer__pure_g")[:1]),
        assayed=Exists(Assay.objects.filter(jar=OuterRef("jar"))),
    )  # fmt: skip
    told = rows.values_list(
        "jar", "what_for", "taken_g", "in_g", "jar__purity_frac", "jar__purity_sd_frac", "jar__scale_sd_g",
        "jar__seed", "seen_pure_g", "assayed",
    )  # fmt: skip
    return [Spent(*row) for row in told.order_by("jar__filled_at")]


def weighed_empty(of: Garden) -> list[JarTaken]:
    """The times that emptied jars were weighed again, each with its jar."""
    emptied = _by_content(of, emptied=True)
    again = JarTaken.objects.filter(jar__in=emptied.values("pk")).exclude(weighed_g=None)
    return list(again.select_related("jar"))


def these(of: Garden, keys: Iterable[UUID]) -> list[Jar]:
    """The jars with these keys, in their order, as `jars` gives them."""
    return with_keys(jars(of), keys)


def jar(key: UUID, *, of: Garden) -> Jar | None:
    """One jar of a garden, its batches whole; None if there is none of that key."""
    return next(iter(whole(of, [key])), None)


def whole(of: Garden, keys: Iterable[UUID], *, looks: bool = True, work: bool = True) -> list[Jar]:
    """The jars of a garden with these keys, the newest first, their batches whole, with the looks at tubs and what was
    done to the batches if wanted."""
    waiting, found = iter(keys), list[Jar]()
    while some := list(islice(waiting, AT_ONCE)):
        give_way()
        read = list(_with_stock(Jar.objects.filter(garden=of, pk__in=some)))
        of_these = batches.batches(of, looks=looks, work=work).filter(jarred__jar__in=read)
        known = {one.pk: one for one in of_these} if read else {}
        for part in (part for one in read for part in one.came_from.all()):
            part.batch = known.get(part.batch_id, part.batch)
        found += read
    return sorted(found, key=lambda one: one.filled_at, reverse=True)


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


def _put_in_g(jar: str) -> Coalesce:
    """What went into the jar of a row, all batches together."""
    parts = JarFrom.objects.filter(jar=OuterRef(jar), batch__deleted_at=None).order_by().values("jar")
    return Coalesce(Subquery(parts.annotate(all_g=Sum("pigment_g")).values("all_g")), 0.0)


def _by_content(of: Garden, *, emptied: bool) -> QuerySet[Jar]:
    """The jars of a garden that hold nothing any more; else those that hold something."""
    taken = JarTaken.objects.filter(jar=OuterRef("pk")).order_by().values("jar")
    out_g = Coalesce(Subquery(taken.annotate(all_g=Sum("taken_g")).values("all_g")), 0.0)
    found: QuerySet[Jar] = Jar.objects.filter(garden=of).alias(held_g=_put_in_g("pk") - out_g)
    return found.filter(**{"held_g__lte" if emptied else "held_g__gt": NOTHING_G})


def plant(found: Jar) -> str:
    """The plant of the largest straining that went into a jar's batches; woad where none is known."""
    return getattr(found, "own_plant", None) or "woad"


def make(found: Jar) -> Make:
    """How a jar's pigment was made, as far as its purity goes; lime in any batch of it makes it limed."""
    known: Any = found
    if not known.alkali_known:
        return "unknown"
    return "unlimed" if not known.limed else "acid_washed" if known.washed_with_acid else "limed"


def _with_said(found: QuerySet[Jar]) -> QuerySet[Jar]:
    last = YieldSeen.objects.filter(jar=OuterRef("pk")).order_by("-seen_at")
    strains = Poured.objects.filter(into__jarred__jar=OuterRef("pk"), strain__deleted_at=None).exclude(strain=None)
    return _with_stock(found).annotate(
        own_plant=Subquery(strains.order_by("-strain__steep__water_l").values("strain__steep__plant")[:1]),
        alkali_known=_went_in(AlkaliPart.objects.all()),
        limed=_went_in(AlkaliPart.objects.filter(alkali__kind="slaked_lime")),
        washed_with_acid=_went_in(Standing.objects.filter(acid=True)),
        seen_pure_g=Subquery(last.values("answer__pure_g")[:1]),
        seen_at=Subquery(last.values("seen_at")[:1]),
    )


def _went_in(rows: QuerySet[Any]) -> Q:
    """Whether a batch of a jar has such a row, or one that was poured into it: asked apart, each by its index."""
    own, joined = "batch__jarred__jar", "batch__went_into__into__jarred__jar"
    return Q(Exists(rows.filter(**{own: OuterRef("pk")}))) | Q(Exists(rows.filter(**{joined: OuterRef("pk")})))


def _with_stock(found: QuerySet[Jar]) -> QuerySet[Jar]:
    parts = JarFrom.objects.filter(batch__deleted_at=None).select_related("batch")
    return found.select_related("garden").prefetch_related(Prefetch("came_from", queryset=parts), "taken", "assays")
