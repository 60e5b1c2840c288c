"""Airings: how a batch was brought into contact with air, and for how long."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.batch import Batch
from bluewright.journal.models.kept import Kept

WAYS = [
    ("pour", _("poured from vessel to vessel")),
    ("whisk", _("whisked")),
    ("bubble", _("bubbled with a pump")),
    ("paddle", _("beaten with a paddle")),
]
TOOLS = [("hand", _("by hand")), ("powered", _("powered"))]
BUBBLES = [("fine", _("fine (an air stone)")), ("coarse", _("coarse (an open hose)"))]


class Airing(Kept):
    """One way of airing a batch, with the pours and minutes so far. What was not measured stays empty."""

    batch = models.ForeignKey(Batch, models.CASCADE, related_name="airings")
    started_at = models.DateTimeField()
    way = models.CharField(max_length=6, choices=WAYS, default="pour")
    done_pours = models.PositiveIntegerField(null=True, blank=True)
    done_min = models.FloatField(null=True, blank=True)
    ended_at = models.DateTimeField(null=True, blank=True)
    pour_l = models.FloatField(null=True, blank=True)
    pour_typed = models.CharField(max_length=30, blank=True)
    height_m = models.FloatField(null=True, blank=True)
    height_typed = models.CharField(max_length=30, blank=True)
    vessel_diameter_m = models.FloatField(null=True, blank=True)
    vessel_typed = models.CharField(max_length=30, blank=True)
    tool = models.CharField(max_length=7, choices=TOOLS, default="hand")
    air_l_per_min = models.FloatField(null=True, blank=True)
    bubbles = models.CharField(max_length=6, choices=BUBBLES, default="coarse")

    class Meta:
        ordering = ["-started_at"]

    def __str__(self) -> str:
        return f"{self.batch} {self.get_way_display()}"
