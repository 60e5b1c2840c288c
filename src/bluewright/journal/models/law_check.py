"""That somebody asked whether a plant may be grown where the garden lies."""

from __future__ import annotations

from django.db import models

from bluewright.journal.models.bed import PLANTS
from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept


class LawCheck(Kept):
    """`I checked, on this day, with these`: the journal keeps it and judges nothing."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="law_checks")
    plant = models.CharField(max_length=20, choices=PLANTS)
    day = models.DateField()
    whom = models.CharField(max_length=120)
    """Whom they asked: an office, its page, a law."""

    class Meta:
        ordering = ["-day", "-made_at"]

    def __str__(self) -> str:
        return f"{self.plant} with {self.whom} on {self.day:%Y-%m-%d}"
