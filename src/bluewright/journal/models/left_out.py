"""A tub from which the garden's memory is not to learn, and why."""

from __future__ import annotations

from django.db import models

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.journal.models.steep import Steep


class LeftOut(Kept):
    """`Half of it was spilt`: the tub stays in the journal, and the garden learns nothing from it."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="left_out")
    steep = models.ForeignKey(Steep, models.CASCADE, related_name="left_out")
    why = models.CharField(max_length=200)

    class Meta:
        ordering = ["-made_at"]

    def __str__(self) -> str:
        return f"{self.steep}: {self.why}"
