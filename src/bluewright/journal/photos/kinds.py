"""What a photo can be of."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final
from uuid import UUID

from django.db import models

from bluewright.journal.models import (
    Batch,
    Bed,
    Card,
    Garden,
    Jar,
    Kept,
    Ladder,
    LiquorLook,
    Picking,
    Piece,
    Reading,
    Steep,
    Swatch,
    Vat,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A kind of row that photos can be of."""

    model: type[Kept]
    noun: str
    """Under which noun its page is found: `tubs`."""
    garden: str = "garden"
    """The path from the row to its garden."""
    part_of: str = ""
    """The column that points at the row on whose page it is shown; empty for a row with a page of its own."""

    def row(self, key: UUID, *, of: Garden) -> Kept | None:
        """The standing row of that key in a garden, or None."""
        found: Kept | None = self.standing(of).filter(pk=key).first()
        return found

    def standing(self, of: Garden) -> models.QuerySet[Any]:
        """The rows of a garden that are not deleted, nor what they are part of."""
        rows: models.QuerySet[Any] = self.model.objects.filter(**{self.garden: of})
        if not self.part_of:
            return rows
        return rows.select_related(self.part_of).filter(**{f"{self.part_of}__deleted_at": None})


KINDS: Final[dict[str, Kind]] = {
    "bed": Kind(model=Bed, noun="beds"),
    "picking": Kind(model=Picking, noun="pickings"),
    "tub": Kind(model=Steep, noun="tubs"),
    "look": Kind(model=Reading, noun="tubs", garden="steep__garden", part_of="steep"),
    "batch": Kind(model=Batch, noun="batches"),
    "liquor": Kind(model=LiquorLook, noun="batches", garden="batch__garden", part_of="batch"),
    "jar": Kind(model=Jar, noun="jars"),
    "card": Kind(model=Card, noun="cards"),
    "piece": Kind(model=Piece, noun="cloth"),
    "swatch": Kind(model=Swatch, noun="swatches"),
    "ladder": Kind(model=Ladder, noun="ladders"),
    "vat": Kind(model=Vat, noun="vats"),
}
"""Every kind by the word that stands in the row of a photo and in addresses. A further kind is one line here."""
