"""What was used of jars and cupboard, in sums."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, NamedTuple
from uuid import UUID

from django.db.models import Count, Sum

from bluewright.journal.models import Alkali, AlkaliPart, Garden, JarStep
from bluewright.journal.written import UntilWritten


class Use(NamedTuple):
    """What went of an alkali, in its own measure."""

    used_amount: float
    """Into batches and jars of liquor."""
    into_batches_amount: float
    batches: int


def at_hand(of: Garden) -> list[Alkali]:
    """The alkalis that stand in the cupboard."""
    return list(Alkali.objects.filter(garden=of, used_up=False).order_by("name"))


_used: Final = UntilWritten[UUID, Mapping[UUID, Use]](4)


def uses(of: Garden) -> Mapping[UUID, Use]:
    """What was used of each alkali of a garden, kept until more is used."""
    return _used.got(of.pk, lambda: _uses(of))


def _uses(of: Garden) -> Mapping[UUID, Use]:
    parts = AlkaliPart.objects.filter(alkali__garden=of, batch__deleted_at=None).order_by().values_list("alkali")
    steps = JarStep.objects.filter(jar_test__alkali__garden=of, jar_test__deleted_at=None).order_by()
    tried = {
        key: (in_g or 0.0) + (in_ml or 0.0)
        for key, in_g, in_ml in steps.values_list("jar_test__alkali").annotate(g=Sum("added_g"), ml=Sum("added_ml"))
    }
    rows = parts.annotate(g=Sum("added_g"), ml=Sum("added_ml"), n=Count("batch", distinct=True))
    found = {
        key: Use(
            used_amount=(in_g or 0.0) + (in_ml or 0.0) + tried.pop(key, 0.0),
            into_batches_amount=(in_g or 0.0) + (in_ml or 0.0), batches=n,
        )
        for key, in_g, in_ml, n in rows
    }  # fmt: skip
    return found | {key: Use(used_amount=used, into_batches_amount=0.0, batches=0) for key, used in tried.items()}
