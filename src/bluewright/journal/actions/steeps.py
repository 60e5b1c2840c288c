"""What one does with a tub: begin it, look at it, strain it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.db import transaction
from django.db.models import QuerySet

from bluewright.journal.actions.keeping import correct, delete, keep, restore
from bluewright.journal.models import Picking, Poured, Reading, Steep, SteepLeaf, Strain
from bluewright.science.base.errors import InputError


@dataclass(frozen=True, slots=True, kw_only=True)
class LeafIn:
    """Leaf of one picking that goes into a tub, as typed and in kilograms."""

    picking: Picking
    leaf_kg: float
    leaf_typed: str


def begin_steep(steep: Steep, *, leaf: Sequence[LeafIn], by: Any) -> Steep:
    """Write a tub with the leaf that went into it."""
    with transaction.atomic():
        keep(steep, by=by)
        _put_in(steep, leaf)
    return steep


def change_steep(steep: Steep, *, leaf: Sequence[LeafIn] | None, by: Any) -> Steep:
    """Write a corrected tub; with `leaf`, that is what went in, and what was written of it before gives way.

    Raises InputError, and writes nothing, if it would have begun after a look at it or its straining.
    """
    with transaction.atomic():
        looks = [row.taken_at for row in Reading.objects.filter(steep=steep, taken_at__lt=steep.started_at)]
        ends = [row.strained_at for row in Strain.objects.filter(steep=steep, strained_at__lt=steep.started_at)]
        if looks or ends:
            what = f"{steep.name} was {'looked at' if looks else 'strained'} before that"
            raise InputError(where="started_at", what=what, right="correct or take out that entry first")
        before = [part.source() for part in steep.leaf.select_related("picking")]
        correct(steep, by=by, beside=None if leaf is None else {"leaf": before})
        if leaf is not None:
            steep.leaf.all().delete()
            _put_in(steep, leaf)
    return steep


def delete_steep(steep: Steep, *, by: Any) -> None:
    """Take a tub out of sight; raises InputError while a batch holds its liquor."""
    with transaction.atomic():
        _not_poured(Strain.objects.filter(steep=steep))
        delete(steep, by=by)


def delete_strain(straining: Strain, *, by: Any) -> None:
    """Take a straining back; raises InputError while a batch holds its liquor."""
    with transaction.atomic():
        _not_poured(Strain.objects.filter(pk=straining.pk))
        delete(straining, by=by)


def restore_steep(steep: Steep, *, by: Any) -> bool:
    """Bring a tub back; raises InputError while a picking that it holds is out of sight itself."""
    gone = [part.picking for part in steep.leaf.select_related("picking") if part.picking.deleted_at is not None]
    if gone:
        raise InputError(
            where="leaf", what=f"its leaf, {gone[0]}, is taken out too", right="bring the picking back first"
        )
    return restore(steep, by=by)


def add_reading(reading: Reading, *, by: Any) -> Reading:
    """Write a look at a tub."""
    return keep(reading, by=by)


def change_reading(reading: Reading, *, by: Any) -> Reading:
    """Write a corrected look."""
    return correct(reading, by=by)


def change_strain(straining: Strain, *, by: Any) -> Strain:
    """Write a corrected straining."""
    return correct(straining, by=by)


def strain(straining: Strain, *, by: Any) -> Strain:
    """Write the straining of a tub."""
    return keep(straining, by=by)


def _put_in(steep: Steep, leaf: Sequence[LeafIn]) -> None:
    for part in leaf:
        SteepLeaf.objects.create(steep=steep, picking=part.picking, leaf_kg=part.leaf_kg, leaf_typed=part.leaf_typed)


def _not_poured(strainings: QuerySet[Strain]) -> None:
    poured = Poured.objects.filter(strain__in=strainings, into__deleted_at=None).select_related("into").first()
    if poured is not None:
        what = f"its liquor is in {poured.into.name}"
        raise InputError(where="steep", what=what, right="take the batch out first")
