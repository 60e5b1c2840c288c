"""What bears on the growth of a bed: its pickings with the leaf that each took from it, and looks at it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from zoneinfo import ZoneInfo

from bluewright.journal.models import Bed, BedLook, BedPast


def looks(bed: Bed) -> Sequence[BedLook]:
    """Every look at a bed, in order of days."""
    return list(bed.looks.order_by("day", "made_at"))


def past(bed: Bed) -> Sequence[BedPast]:
    """What was written of the years of a bed, the latest first."""
    return list(BedPast.objects.filter(bed=bed))


def picked(bed: Bed) -> list[tuple[date, float | None, str]]:
    """Day, leaf and timing of each picking, in order.

    Of leaf from several beds it is this one's share by area, if all areas are known.
    """
    zone, found = ZoneInfo(bed.garden.time_zone), list[tuple[date, float | None, str]]()
    rows = bed.pickings.filter(deleted_at=None).order_by("picked_at").prefetch_related("sources__bed")
    for picking in rows:
        areas = [source.bed.area_m2 for source in picking.sources.all()]
        known = [area for area in areas if area]
        share = (bed.area_m2 or 0.0) / sum(known) if len(known) == len(areas) else 1.0 if len(areas) == 1 else None
        leaf_kg = None if share is None else picking.leaf_kg * share
        found.append((picking.picked_at.astimezone(zone).date(), leaf_kg, picking.timing))
    return found
