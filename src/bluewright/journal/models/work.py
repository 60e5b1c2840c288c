"""Work: how long it took, of which kind, for what; a note without minutes is a clock that still runs."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.batch import Batch
from bluewright.journal.models.bed import Bed
from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.journal.models.piece import Piece
from bluewright.journal.models.steep import Steep
from bluewright.journal.models.vat import Vat
from bluewright.words.cost import DYEING, WORK

KINDS = [(kind, _(said)) for kind, said in (*WORK.items(), *DYEING.items())]


class WorkNote(Kept):
    """Minutes of one person, for at most one of batch, tub, bed, vat and piece; with none, for the whole season."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="work_notes")
    kind = models.CharField(max_length=12, choices=KINDS)
    began_at = models.DateTimeField()
    spent_min = models.FloatField(null=True, blank=True)
    """Empty while the clock runs."""
    spent_typed = models.CharField(max_length=30, blank=True)
    """Empty where the clock told it."""
    batch = models.ForeignKey(Batch, models.SET_NULL, null=True, blank=True, related_name="work_notes")
    steep = models.ForeignKey(Steep, models.SET_NULL, null=True, blank=True, related_name="work_notes")
    bed = models.ForeignKey(Bed, models.SET_NULL, null=True, blank=True, related_name="work_notes")
    vat = models.ForeignKey(Vat, models.SET_NULL, null=True, blank=True, related_name="work_notes")
    piece = models.ForeignKey(Piece, models.SET_NULL, null=True, blank=True, related_name="work_notes")

    class Meta:
        ordering = ["-began_at"]
        indexes = [models.Index(fields=["garden", "-began_at"])]

    def __str__(self) -> str:
        return f"{self.kind} at {self.began_at:%Y-%m-%d %H:%M}"

    @property
    def what(self) -> str:
        """The kind of work in words."""
        return str(self.get_kind_display())

    @property
    def about(self) -> str:
        """What it was for, by name; empty where it was for the whole season."""
        return str(self.batch or self.steep or self.bed or self.vat or self.piece or "")
