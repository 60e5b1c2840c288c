"""What one does with a garden, its beds and its pickings."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.db import transaction

from bluewright.journal.actions.keeping import delete, keep
from bluewright.journal.models import AirTemp, Bed, Garden, PickedFrom, Picking


def begin_garden(garden: Garden, *, by: Any) -> Garden:
    """Write a new garden."""
    return keep(garden, by=by)


def add_bed(bed: Bed, *, by: Any) -> Bed:
    """Write a bed."""
    return keep(bed, by=by)


def add_picking(picking: Picking, *, beds: Sequence[Bed], by: Any) -> Picking:
    """Write a picking with the beds that it came from."""
    with transaction.atomic():
        keep(picking, by=by)
        for bed in beds:
            PickedFrom.objects.create(picking=picking, bed=bed)
    return picking


def add_air(temps: Sequence[AirTemp], *, by: Any) -> None:
    """Write temperatures of the air, read or forecast; what was written for the same time before gives way."""
    with transaction.atomic():
        for temp in temps:
            for older in AirTemp.objects.filter(garden=temp.garden, time=temp.time).exclude(pk=temp.pk):
                delete(older, by=by)
            keep(temp, by=by)
