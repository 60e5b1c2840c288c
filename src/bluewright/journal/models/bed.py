"""Beds."""

from __future__ import annotations

from django.db import models

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept

PLANTS = [("woad", "woad"), ("japanese_indigo", "Japanese indigo"), ("indigofera", "Indigofera")]


class Bed(Kept):
    """A bed of one plant."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="beds")
    name = models.CharField(max_length=60)
    plant = models.CharField(max_length=20, choices=PLANTS)
    origin = models.CharField(
        max_length=12,
        choices=[("sown", "sown"), ("transplanted", "transplanted"), ("self_sown", "self-sown")],
        default="sown",
    )
    area_m2 = models.FloatField(null=True, blank=True)
    area_typed = models.CharField(max_length=30, blank=True)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name
