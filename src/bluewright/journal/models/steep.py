"""Steeps: a tub with leaf in it, each look at it, and its straining."""

from __future__ import annotations

from typing import Final

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.bed import PLANTS
from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.journal.models.picking import Picking

SIGN_FIELDS: Final = ("bubbles", "scum", "blue_cast", "limpness", "darkness", "smell", "alkali_green")


class Steep(Kept):
    """One tub of leaf and water."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="steeps")
    name = models.CharField(max_length=60)
    plant = models.CharField(max_length=20, choices=PLANTS)
    method = models.CharField(
        max_length=4, choices=[("cold", _("cold")), ("warm", _("warm")), ("hot", _("hot"))], default="cold"
    )
    started_at = models.DateTimeField()
    water_l = models.FloatField()
    water_typed = models.CharField(max_length=30)
    cut = models.CharField(
        max_length=8,
        choices=[("whole", _("whole")), ("torn", _("torn")), ("cut", _("cut")), ("shredded", _("shredded"))],
        default="whole",
    )
    covered = models.BooleanField(default=True)
    insulated = models.BooleanField(default=False)
    sun = models.CharField(
        max_length=5,
        choices=[("shade", _("shade")), ("part", _("part of the day")), ("full", _("all day"))],
        default="part",
    )
    can_strain = models.CharField(max_length=120, blank=True)
    """Times of day at which somebody can strain, `08:00 18:00`; empty for any hour from 6 to 22."""
    seed = models.PositiveIntegerField(default=1)
    """Of the forecast's random draws: a page read again shows the same figures."""

    class Meta:
        ordering = ["-started_at"]

    def __str__(self) -> str:
        return self.name


class SteepLeaf(models.Model):
    """Leaf that went into a tub from a picking; one picking may go into several tubs, a tub hold several pickings."""

    steep = models.ForeignKey(Steep, models.CASCADE, related_name="leaf")
    picking = models.ForeignKey(Picking, models.PROTECT, related_name="went_into")
    leaf_kg = models.FloatField()
    leaf_typed = models.CharField(max_length=30)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["steep", "picking"], name="a_picking_once_a_tub")]

    def __str__(self) -> str:
        return f"{self.leaf_typed} in {self.steep}"

    def source(self) -> str:
        """How much, and of which picking: `3 kg picked 5 Jul`."""
        return f"{self.leaf_typed} picked {self.picking.picked_at.day} {self.picking.picked_at:%b}"


def level() -> models.PositiveSmallIntegerField[int | None, int | None]:
    """A sign on its scale of 0 to 3; empty where nobody looked."""
    return models.PositiveSmallIntegerField(null=True, blank=True)


class Reading(Kept):
    """One look at a tub: what eye, nose, hand and instruments said."""

    steep = models.ForeignKey(Steep, models.CASCADE, related_name="readings")
    taken_at = models.DateTimeField()
    bubbles = level()
    scum = level()
    blue_cast = level()
    limpness = level()
    darkness = level()
    smell = level()
    alkali_green = level()
    ph = models.FloatField(null=True, blank=True)
    temp_c = models.FloatField(null=True, blank=True)
    temp_typed = models.CharField(max_length=30, blank=True)
    dissolved_oxygen_mg_l = models.FloatField(null=True, blank=True)
    dye_index = models.FloatField(null=True, blank=True)
    """Of a jar, for each centimetre, undiluted (`science.photo.jar`)."""
    dye_index_sd = models.FloatField(null=True, blank=True)

    class Meta:
        ordering = ["taken_at"]
        indexes = [models.Index(fields=["steep", "taken_at"])]

    def __str__(self) -> str:
        return f"{self.steep} at {self.taken_at:%d %b %H:%M}"


class Strain(Kept):
    """The straining of a tub: it ends the steep."""

    steep = models.ForeignKey(Steep, models.CASCADE, related_name="strains")
    strained_at = models.DateTimeField()
    squeeze = models.CharField(
        max_length=8,
        choices=[("drained", _("drained")), ("hand", _("wrung by hand")), ("press", _("pressed"))],
        default="drained",
    )
    liquor_out_l = models.FloatField(null=True, blank=True)
    liquor_typed = models.CharField(max_length=30, blank=True)
    rinse_l = models.FloatField(default=0.0)
    rinse_typed = models.CharField(max_length=30, blank=True)

    class Meta:
        ordering = ["-strained_at"]

    def __str__(self) -> str:
        return f"{self.steep} strained at {self.strained_at:%d %b %H:%M}"


class CallSeen(models.Model):
    """A strain call as a person saw it, so that a decision can be explained later."""

    steep = models.ForeignKey(Steep, models.CASCADE, related_name="calls")
    seen_at = models.DateTimeField()
    program = models.CharField(max_length=20)
    answer = models.JSONField()

    class Meta:
        ordering = ["-seen_at"]

    def __str__(self) -> str:
        return f"{self.steep}: {self.answer.get('advice')} at {self.seen_at:%d %b %H:%M}"
