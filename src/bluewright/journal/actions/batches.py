"""What one does with liquor: begin a batch from it, join batches, fill a jar.

A row that stands for itself (a look, a part of alkali, an airing, a weighing) is written by `keeping.keep`.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.db import transaction

from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.models import Batch, Jar, JarFrom, Poured, Strain


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
    """Write a corrected jar with what went into it; what it said before is kept as a change."""
    with transaction.atomic():
        parts = list(JarFrom.objects.filter(jar=jar).select_related("batch"))
        same = {(one.batch_id, one.pigment_g) for one in parts} == {(one.batch.pk, one.pigment_g) for one in pigment}
        told = [f"{one.pigment_typed} of {one.batch}" for one in parts]
        correct(jar, by=by, beside=None if same else {"pigment": told})
        if not same:
            JarFrom.objects.filter(jar=jar).delete()
            _put_in(jar, pigment)
    return jar


def _put_in(jar: Jar, pigment: Sequence[PigmentIn]) -> None:
    for part in pigment:
        JarFrom.objects.create(jar=jar, batch=part.batch, pigment_g=part.pigment_g, pigment_typed=part.pigment_typed)
