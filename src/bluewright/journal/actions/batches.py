"""What one does with liquor: begin a batch from it, join batches, fill a jar.

A row that stands for itself (a look, a part of alkali, an airing, a weighing) is written by `keeping.keep`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.db import transaction

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Batch, Change, Jar, JarFrom, Poured, Strain


@dataclass(frozen=True, slots=True, kw_only=True)
class LiquorIn:
    """Liquor of one straining or of one batch that goes into a batch; without a volume all of it."""

    source: Strain | Batch
    liquor_l: float | None = None
    liquor_typed: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PigmentIn:
    """Dry pigment of one batch that goes into a jar."""

    batch: Batch
    pigment_g: float
    pigment_typed: str


def begin_batch(batch: Batch, *, liquor: Sequence[LiquorIn], by: Any) -> Batch:
    """Write a batch with the liquor that went into it."""
    with transaction.atomic():
        keep(batch, by=by)
        for part in liquor:
            strain = part.source if isinstance(part.source, Strain) else None
            other = part.source if isinstance(part.source, Batch) else None
            Poured.objects.create(
                into=batch, strain=strain, batch=other, liquor_l=part.liquor_l, liquor_typed=part.liquor_typed
            )
    return batch


def fill_jar(jar: Jar, *, pigment: Sequence[PigmentIn], by: Any) -> Jar:
    """Write a jar with the pigment that went into it."""
    with transaction.atomic():
        keep(jar, by=by)
        _put_in(jar, pigment)
    return jar


def change_jar(jar: Jar, *, pigment: Sequence[PigmentIn], by: Any) -> Jar:
    """Write a jar as it is now, with what went into it; what went in before is kept as a change."""
    with transaction.atomic():
        keep(jar, by=by)
        before = {str(part.batch_id): part.pigment_typed for part in JarFrom.objects.filter(jar=jar)}
        now = {str(part.batch.pk): part.pigment_typed for part in pigment}
        if now != before:
            Change.objects.create(
                kind="jar_came_from", row_id=jar.pk, verb="change", before=before, at=jar.changed_at, by=by
            )
            JarFrom.objects.filter(jar=jar).delete()
            _put_in(jar, pigment)
    return jar


def _put_in(jar: Jar, pigment: Sequence[PigmentIn]) -> None:
    for part in pigment:
        JarFrom.objects.create(jar=jar, batch=part.batch, pigment_g=part.pigment_g, pigment_typed=part.pigment_typed)
