"""What bears on the growth of a bed: its pickings with the leaf that each took from it, and looks at it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final, TypeAlias
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db.models import Count, Q, Sum

from bluewright.journal.models import Bed, BedLook, BedPast, PickedFrom
from bluewright.journal.written import UntilWritten

Taken: TypeAlias = tuple[date, float | None, str]
"""Day, leaf in kilograms and timing of a picking."""
MOST_BEDS: Final = 64
_picked: Final = UntilWritten[tuple[UUID, float | None, str], Sequence[Taken]](MOST_BEDS)


def looks(bed: Bed) -> Sequence[BedLook]:
    """Every look at a bed, in order of days."""
    return list(bed.looks.order_by("day", "made_at"))


def past(bed: Bed) -> Sequence[BedPast]:
    """What was written of the years of a bed, the latest first."""
    return list(BedPast.objects.filter(bed=bed))


def picked(bed: Bed) -> Sequence[Taken]:
    """Each picking in order, kept until one is written.

    Of leaf from several beds it is this one's share by area, if all areas are known.
    """
    return _picked.got((bed.pk, bed.area_m2, bed.garden.time_zone), lambda: _read_picked(bed))


def _read_picked(bed: Bed) -> Sequence[Taken]:
    zone, area = ZoneInfo(bed.garden.time_zone), Q(picking__sources__bed__area_m2__gt=0)
    rows = PickedFrom.objects.filter(bed=bed, picking__deleted_at=None).order_by("picking__picked_at")
    beds = {
        "all": Count("picking__sources"), "known": Count("picking__sources", filter=area),
        "area_m2": Sum("picking__sources__bed__area_m2", filter=area),
    }  # fmt: skip
    found = list[Taken]()
    for _pk, at, leaf_kg, timing, all_, known, area_m2 in rows.values_list(
        "pk", "picking__picked_at", "picking__leaf_kg", "picking__timing"
    ).annotate(**beds):
        share = (bed.area_m2 or 0.0) / area_m2 if known == all_ else 1.0 if all_ == 1 else None
        found.append((at.astimezone(zone).date(), None if share is None else leaf_kg * share, timing))
    return found
