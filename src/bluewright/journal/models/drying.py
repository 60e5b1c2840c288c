"""Dryings: dishes of paste, and what they weighed."""

from __future__ import annotations

from django.db import models

from bluewright.journal.models.batch import Batch
from bluewright.journal.models.kept import Kept


class Drying(Kept):
    """A dish of a batch's paste, put to dry."""

    batch = models.ForeignKey(Batch, models.CASCADE, related_name="dryings")
    started_at = models.DateTimeField()
    dish_g = models.FloatField()
    dish_typed = models.CharField(max_length=30)
    scale_sd_g = models.FloatField(default=0.5)
    layer_mm = models.FloatField(null=True, blank=True)
    layer_typed = models.CharField(max_length=30, blank=True)
    temp_c = models.FloatField(null=True, blank=True)
    temp_typed = models.CharField(max_length=30, blank=True)
    humidity_frac = models.FloatField(null=True, blank=True)
    ended_at = models.DateTimeField(null=True, blank=True)
    """When it was taken for dry."""

    class Meta:
        ordering = ["started_at"]

    def __str__(self) -> str:
        return f"{self.batch} drying since {self.started_at:%d %b}"


class Weighing(Kept):
    """What the dish with the paste weighed."""

    drying = models.ForeignKey(Drying, models.CASCADE, related_name="weighings")
    weighed_at = models.DateTimeField()
    total_g = models.FloatField()
    total_typed = models.CharField(max_length=30)

    class Meta:
        ordering = ["weighed_at"]

    def __str__(self) -> str:
        return f"{self.total_typed} at {self.weighed_at:%d %b %H:%M}"
