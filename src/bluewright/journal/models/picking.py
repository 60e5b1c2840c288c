"""Pickings: leaf taken from one or several beds."""

from __future__ import annotations

from django.db import models
from django.utils import timezone
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.bed import PLANTS, Bed
from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.words.numbers import day_of_year

TIMINGS = [
    ("", _("not judged")), ("early", _("early: more leaf was to come")), ("right", _("at the right time")),
    ("late", _("late: leaf yellowed, or buds showed")),
]  # fmt: skip


class Picking(Kept):
    """Leaf picked at one time, of one plant."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="pickings")
    picked_at = models.DateTimeField()
    plant = models.CharField(max_length=20, choices=PLANTS)
    leaf_kg = models.FloatField()
    leaf_typed = models.CharField(max_length=30)
    age = models.CharField(
        max_length=6, choices=[("young", _("young")), ("mixed", _("mixed")), ("old", _("old"))], default="mixed"
    )
    timing = models.CharField(max_length=5, choices=TIMINGS, blank=True)
    """Whether the bed was cut early, right or late, as judged then: its growth learns from that."""
    damaged_frac = models.FloatField(default=0.0)
    damaged_typed = models.CharField(max_length=30, blank=True)
    beds = models.ManyToManyField(Bed, through="PickedFrom", related_name="pickings")

    class Meta:
        ordering = ["-picked_at"]

    def __str__(self) -> str:
        return gettext("%(leaf)s on %(day)s") % {
            "leaf": self.leaf_typed,
            "day": day_of_year(timezone.localtime(self.picked_at)),
        }


class PickedFrom(models.Model):
    """A bed that a picking came from."""

    picking = models.ForeignKey(Picking, models.CASCADE, related_name="sources")
    bed = models.ForeignKey(Bed, models.PROTECT, related_name="taken")

    class Meta:
        constraints = [models.UniqueConstraint(fields=["picking", "bed"], name="a_bed_once_a_picking")]

    def __str__(self) -> str:
        return f"{self.picking} from {self.bed}"
