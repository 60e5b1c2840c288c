"""Readings brought in from a logger's file."""

from __future__ import annotations

from django.db import models

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.journal.models.steep import Steep


class Intake(Kept):
    """One file of a logger: it owns the temperatures that came with it, of a tub or of the air of its garden."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="intakes")
    steep = models.ForeignKey(Steep, models.CASCADE, null=True, blank=True, related_name="intakes")
    """The tub that the logger lay in; empty for the air of the garden."""
    file_name = models.CharField(max_length=120)
    signature = models.CharField(max_length=64)
    """Of the file's head: files of the same logger share it, and are read in the same way."""
    columns = models.JSONField()
    """How the file was read, as a person confirmed it."""
    report = models.JSONField()
    """What was written, skipped and not understood."""

    class Meta:
        ordering = ["-made_at"]
        indexes = [models.Index(fields=["garden", "signature"])]

    def __str__(self) -> str:
        return self.file_name


class TubTemp(models.Model):
    """The liquor of a tub at a time, from a logger. It stands as long as its intake does."""

    steep = models.ForeignKey(Steep, models.CASCADE, related_name="logged")
    intake = models.ForeignKey(Intake, models.CASCADE, related_name="tub_temps")
    time = models.DateTimeField()
    temp_c = models.FloatField()

    class Meta:
        indexes = [models.Index(fields=["steep", "time"])]
        constraints = [models.UniqueConstraint(fields=["intake", "time"], name="a_time_once_an_intake")]

    def __str__(self) -> str:
        return f"{self.temp_c:g} C at {self.time:%Y-%m-%d %H:%M}"
