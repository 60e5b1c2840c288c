"""Standings: a vessel left to stand until the blue has sunk, first by itself, then in fresh water."""

from __future__ import annotations

from django.db import models

from bluewright.journal.models.batch import Batch
from bluewright.journal.models.kept import Kept
from bluewright.journal.models.steep import level


class Standing(Kept):
    """A batch left to stand and then decanted: the first settling, or, with fresh water put on, a wash."""

    batch = models.ForeignKey(Batch, models.CASCADE, related_name="standings")
    started_at = models.DateTimeField()
    refill_l = models.FloatField(null=True, blank=True)
    """Fresh water put on; empty for the first settling."""
    refill_typed = models.CharField(max_length=30, blank=True)
    acid = models.BooleanField(default=False)
    """Whether acid was in that water, against lime and chalk."""
    depth_mm = models.FloatField(null=True, blank=True)
    depth_typed = models.CharField(max_length=30, blank=True)
    decanted_at = models.DateTimeField(null=True, blank=True)
    left_l = models.FloatField(null=True, blank=True)
    """Sludge and liquid that stayed when the clear was taken off."""
    left_typed = models.CharField(max_length=30, blank=True)
    blue_in_decant = level()
    ph = models.FloatField(null=True, blank=True)
    conductivity_us_per_cm = models.FloatField(null=True, blank=True)

    class Meta:
        ordering = ["started_at"]

    def __str__(self) -> str:
        return f"{self.batch} {'left to stand' if self.refill_l is None else 'washed'}"


class EdgeReading(Kept):
    """Where the edge between clear and blue stood."""

    standing = models.ForeignKey(Standing, models.CASCADE, related_name="edges")
    taken_at = models.DateTimeField()
    interface_mm = models.FloatField()
    interface_typed = models.CharField(max_length=30)

    class Meta:
        ordering = ["taken_at"]

    def __str__(self) -> str:
        return f"{self.interface_typed} at {self.taken_at:%d %b %H:%M}"
