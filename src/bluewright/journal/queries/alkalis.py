"""The cupboard: which alkalis there are, and what each went into."""

from __future__ import annotations

from collections.abc import Iterable
from uuid import UUID

from django.db.models import Count, Q, QuerySet

from bluewright.journal.models import Alkali, AlkaliPart, Batch, Garden, JarTest


def alkalis(of: Garden) -> QuerySet[Alkali]:
    """The alkalis of a garden, those at hand first, each with `part_count` and `jar_count`."""
    found: QuerySet[Alkali] = (
        Alkali.objects.filter(garden=of)
        .annotate(
            part_count=Count("parts", filter=Q(parts__deleted_at=None), distinct=True),
            jar_count=Count("jar_tests", filter=Q(jar_tests__deleted_at=None), distinct=True),
        )
        .order_by("used_up", "name")
    )
    return found


def alkali(key: str | UUID, *, of: Garden) -> Alkali | None:
    """The alkali of that key in a garden; None if there is none, or the key is no key."""
    try:
        return alkalis(of).filter(pk=UUID(str(key))).first()
    except ValueError:
        return None


def in_use(alkali: Alkali) -> bool:
    """Whether a batch or a jar titration rests on it."""
    return AlkaliPart.objects.filter(alkali=alkali).exists() or JarTest.objects.filter(alkali=alkali).exists()


def parts_of(batches: Iterable[Batch]) -> list[AlkaliPart]:
    """What went into these batches, each with its alkali."""
    return list(AlkaliPart.objects.filter(batch__in=list(batches)).select_related("alkali"))


def for_batch(batch: Batch) -> list[Alkali]:
    """What a whole batch may be dosed with: what is at hand, and what is in it already; the likeliest first.

    The likeliest is the alkali of its last part, then of its latest jar titration, then what the garden used last.
    """
    own = [part.alkali for part in reversed(batch.alkali_parts.all())]
    own += [test.alkali for test in batch.jar_tests.all()]
    last = AlkaliPart.objects.filter(batch__garden=batch.garden).order_by("-added_at").values_list("alkali", flat=True)
    used = [*(one.pk for one in own), *last[:1]]
    known = Q(used_up=False) | Q(pk__in=[one.pk for one in own])
    found = list(Alkali.objects.filter(known, garden=batch.garden).order_by("name"))
    return sorted(found, key=lambda one: used.index(one.pk) if one.pk in used else len(used))
