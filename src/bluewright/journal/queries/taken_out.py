"""What was taken out of a garden and can still be brought back."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from django.utils import timezone

from bluewright.journal.models import (
    Assay,
    Batch,
    Bed,
    BedLook,
    BedPast,
    Card,
    CardRegistration,
    Change,
    DaysAway,
    Dip,
    Garden,
    HomeTest,
    Intake,
    Jar,
    JarTaken,
    Kept,
    KitItem,
    Ladder,
    LadderRung,
    LawCheck,
    LeftOut,
    OthersTaught,
    Photo,
    Picking,
    Piece,
    Reading,
    Steep,
    Strain,
    Supply,
    Swatch,
    Trial,
    Vat,
    VatAddition,
    VatPoured,
    VatReading,
    Want,
    WaterNote,
    WorkNote,
)
from bluewright.journal.models.kept import KEPT_AFTER_DELETE

WAYS: Final[Mapping[type[Kept], tuple[str, str]]] = {
    Bed: ("garden", ""),
    LawCheck: ("garden", ""),
    LeftOut: ("garden", "steep"),
    OthersTaught: ("garden", ""),
    Picking: ("garden", ""),
    Steep: ("garden", ""),
    Reading: ("steep__garden", "steep"),
    Strain: ("steep__garden", "steep"),
    Batch: ("garden", ""),
    Jar: ("garden", ""),
    JarTaken: ("jar__garden", "jar"),
    Assay: ("jar__garden", "jar"),
    Piece: ("garden", ""),
    Dip: ("piece__garden", "piece"),
    HomeTest: ("piece__garden", "piece"),
    Swatch: ("garden", ""),
    Ladder: ("garden", ""),
    LadderRung: ("ladder__garden", "ladder"),
    Vat: ("garden", ""),
    VatAddition: ("vat__garden", "vat"),
    VatPoured: ("vat__garden", "vat"),
    VatReading: ("vat__garden", "vat"),
    Photo: ("garden", ""),
    Intake: ("garden", ""),
    Trial: ("garden", ""),
    Want: ("garden", ""),
    WaterNote: ("bed__garden", "bed"),
    BedLook: ("bed__garden", "bed"),
    BedPast: ("bed__garden", "bed"),
    WorkNote: ("garden", ""),
    KitItem: ("garden", ""),
    Supply: ("garden", ""),
    DaysAway: ("garden", ""),
    Card: ("garden", ""),
    CardRegistration: ("card__garden", "card"),
}
"""Each kind that a person takes out, its path to the garden, and the row that must stand for it to come back."""


def taken_out(of: Garden) -> list[Kept]:
    """All rows that were taken out in the last thirty days and could stand again, the newest first."""
    since = timezone.now() - KEPT_AFTER_DELETE
    found: list[Kept] = []
    for model, (path, owner) in WAYS.items():
        standing = {f"{owner}__deleted_at": None} if owner else {}
        rows = model.everything.filter(**{path: of}, deleted_at__gte=since, **standing)
        if model is JarTaken:  # what went into a vat comes back with that
            rows = rows.filter(**{"into_vat": None})
        if model is VatPoured:  # what came out of another vat goes back into it as that goes on
            rows = rows.filter(**{"source": None})
        found += rows.select_related(*filter(None, [owner, "changed_by"]))
    return sorted(found, key=lambda row: row.deleted_at or since, reverse=True)


def taken_out_lately() -> bool:
    """Whether anything at all was taken out in the last thirty days, of whichever garden: asked of every list."""
    return Change.objects.filter(verb="delete", at__gte=timezone.now() - KEPT_AFTER_DELETE).exists()
