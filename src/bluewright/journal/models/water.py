"""Rain, and the water of a bed: what fell, what was given, how the soil felt, how much of the ground is shaded."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.bed import Bed
from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept

FEELS = [
    ("wet", _("wet: water shines")), ("moist", _("moist: a ball holds")), ("dry", _("dry: it crumbles")),
    ("dusty", _("dusty: it runs through the fingers")),
]  # fmt: skip
STAGES = [
    ("bare", _("nothing: bare")), ("small", _("under a quarter")), ("half_cover", _("about half")),
    ("full_cover", _("all of it")), ("cut", _("just cut")),
]  # fmt: skip


class RainDay(Kept):
    """The rain of a day, read or forecast; 0 is a dry day, and no row is one that is not known."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="rain_days")
    day = models.DateField()
    rain_mm = models.FloatField()
    rain_typed = models.CharField(max_length=30)
    forecast = models.BooleanField(default=False)

    class Meta:
        ordering = ["day"]
        indexes = [models.Index(fields=["garden", "day"])]

    def __str__(self) -> str:
        return f"{self.rain_typed} on {self.day:%Y-%m-%d}"


class WaterNote(Kept):
    """What was given to a bed or seen of it on a day; at least one of the three."""

    bed = models.ForeignKey(Bed, models.CASCADE, related_name="water_notes")
    day = models.DateField()
    water_l = models.FloatField(null=True, blank=True)
    """For the whole bed."""
    water_typed = models.CharField(max_length=30, blank=True)
    felt = models.CharField(max_length=8, choices=FEELS, blank=True)
    """A handful from a hand's depth."""
    stage = models.CharField(max_length=12, choices=STAGES, blank=True)
    """How much of the ground leaves shade from that day on."""

    class Meta:
        ordering = ["day", "made_at"]

    def __str__(self) -> str:
        return f"{self.bed} on {self.day:%Y-%m-%d}"
