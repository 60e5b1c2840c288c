"""Beds."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept

SOILS = [
    ("unknown", _("not known")), ("sand", _("sand")), ("loamy_sand", _("loamy sand")),
    ("sandy_loam", _("sandy loam")), ("loam", _("loam")), ("silt_loam", _("silt loam")),
    ("clay_loam", _("clay loam")), ("clay", _("clay")),
]  # fmt: skip
WAYS = [("can", _("a can, or a hose held low")), ("hose", _("a sprinkler")), ("drip", _("a drip hose"))]
SHADES = [
    ("", _("not said")), ("sun", _("sun all day")), ("half", _("sun half of the day")),
    ("shade", _("shade most of the day")),
]  # fmt: skip
PLANTS = [("woad", _("woad")), ("japanese_indigo", _("Japanese indigo")), ("indigofera", _("Indigofera"))]


class Bed(Kept):
    """A bed of one plant."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="beds")
    name = models.CharField(max_length=60)
    plant = models.CharField(max_length=20, choices=PLANTS)
    origin = models.CharField(
        max_length=12,
        choices=[("sown", _("sown")), ("transplanted", _("transplanted")), ("self_sown", _("self-sown"))],
        default="sown",
    )
    area_m2 = models.FloatField(null=True, blank=True)
    area_typed = models.CharField(max_length=30, blank=True)
    soil = models.CharField(max_length=12, choices=SOILS, default="unknown")
    shade = models.CharField(max_length=5, choices=SHADES, blank=True)
    watered_by = models.CharField(max_length=4, choices=WAYS, default="can")

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name
