"""What one does with a garden, its beds and its pickings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.db import transaction

from bluewright.journal.actions.keeping import correct, delete, keep
from bluewright.journal.models import AirTemp, Bed, BedPast, Garden, PickedFrom, Picking, RainDay, SteepLeaf
from bluewright.science.base.errors import InputError


def begin_garden(garden: Garden, *, by: Any) -> Garden:
    """Write a new garden."""
    return keep(garden, by=by)


def change_garden(garden: Garden, *, by: Any) -> Garden:
    """Write a corrected garden."""
    return correct(garden, by=by)


def change_bed(bed: Bed, *, by: Any) -> Bed:
    """Write a corrected bed."""
    return correct(bed, by=by)


def add_bed(bed: Bed, *, by: Any, past: BedPast | None = None) -> Bed:
    """Write a bed, and what grew in its ground before it where that is known."""
    with transaction.atomic():
        keep(bed, by=by)
        if past is not None:
            keep(past, by=by)
    return bed


def add_picking(picking: Picking, *, beds: Sequence[Bed], by: Any) -> Picking:
    """Write a picking with the beds that it came from."""
    with transaction.atomic():
        keep(picking, by=by)
        for bed in beds:
            PickedFrom.objects.create(picking=picking, bed=bed)
    return picking


def change_picking(picking: Picking, *, beds: Sequence[Bed], by: Any) -> list[SteepLeaf]:
    """Write a corrected picking and its beds; returns the parts in tubs that were corrected along with it.

    A tub that took all of the leaf as it was typed before takes all of it as it is typed now. Raises InputError, and
    writes nothing, if a tub of another plant holds its leaf.
    """
    with transaction.atomic():
        old = Picking.everything.get(pk=picking.pk)
        parts = list(picking.went_into.select_related("steep", "picking"))
        strange = [part.steep for part in parts if part.steep.plant != picking.plant and part.steep.deleted_at is None]
        if strange:
            raise InputError(
                where="plant",
                what=f"its leaf is in {strange[0].name}, a tub of {strange[0].get_plant_display()}",
                right="correct the tub first",
            )
        known = {source.bed_id: source.bed.name for source in picking.sources.select_related("bed")}
        wanted = {bed.pk for bed in beds}
        beside = {"beds": sorted(known.values())} if wanted != set(known) else None
        correct(picking, by=by, beside=beside)
        picking.sources.exclude(bed__in=wanted).delete()
        for bed in beds:
            if bed.pk not in known:
                PickedFrom.objects.create(picking=picking, bed=bed)
        return [part for part in parts if _follow(part, old=old, new=picking, by=by)]


def delete_picking(picking: Picking, *, by: Any) -> None:
    """Take a picking out of sight; raises InputError while a tub holds its leaf."""
    with transaction.atomic():
        tubs = [part.steep.name for part in picking.went_into.select_related("steep") if part.steep.deleted_at is None]
        if tubs:
            raise InputError(
                where="picking",
                what=f"its leaf is in {' and '.join(tubs)}",
                right="take the tub out first, or choose another picking for it",
            )
        delete(picking, by=by)


def add_air(temps: Sequence[AirTemp], *, by: Any) -> None:
    """Write temperatures of the air, read or forecast; what was written for the same time before gives way."""
    with transaction.atomic():
        for temp in temps:
            for older in AirTemp.objects.filter(garden=temp.garden, time=temp.time).exclude(pk=temp.pk):
                delete(older, by=by)
            keep(temp, by=by)


def add_rain(days: Sequence[RainDay], *, by: Any) -> None:
    """Write the rain of days; what was written for the same day before gives way."""
    with transaction.atomic():
        for row in days:
            for older in RainDay.objects.filter(garden=row.garden, day=row.day).exclude(pk=row.pk):
                delete(older, by=by)
            keep(row, by=by)


def _follow(part: SteepLeaf, *, old: Picking, new: Picking, by: Any) -> bool:
    """Correct the leaf of a tub that took all of a picking."""
    if (part.leaf_kg, part.leaf_typed) != (old.leaf_kg, old.leaf_typed) or old.leaf_kg == new.leaf_kg:
        return False
    keep(part.steep, by=by, beside={"leaf": [part.source()]})
    part.leaf_kg, part.leaf_typed = new.leaf_kg, new.leaf_typed
    part.save()
    return True
