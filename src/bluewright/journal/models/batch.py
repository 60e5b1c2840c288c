"""Batches: strained liquor that is worked together, whatever tubs it came from."""

from __future__ import annotations

from django.db import models

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.journal.models.steep import Strain, level


class Batch(Kept):
    """Liquor worked together, from the alkali to the jar. Tubs may join in one batch, and one tub feed several."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="batches")
    name = models.CharField(max_length=60)
    begun_at = models.DateTimeField()
    target_ph = models.FloatField(default=9.5)
    ph_sd = models.FloatField(default=0.2)
    """Of a pH reading: a calibrated meter 0.1, a cheap pen 0.2, strips 0.3."""
    room_m3 = models.FloatField(null=True, blank=True)
    """The room in which alkali goes in; empty outdoors."""
    room_typed = models.CharField(max_length=30, blank=True)
    air_changes_per_h = models.FloatField(null=True, blank=True)
    """How often an hour the air of that room is renewed."""
    ended_at = models.DateTimeField(null=True, blank=True)
    """When it was given up (spoilt, spilt, thrown away); a batch that reached its jar needs none."""
    ended_why = models.CharField(max_length=120, blank=True)
    seed = models.PositiveIntegerField(default=1)
    """Of the random draws of its answers."""

    class Meta:
        ordering = ["-begun_at"]
        indexes = [models.Index(fields=["garden", "-begun_at"])]

    def __str__(self) -> str:
        return self.name


class Poured(models.Model):
    """Liquor that went into a batch: from a straining, or from another batch that was joined to it."""

    into = models.ForeignKey(Batch, models.CASCADE, related_name="came_from")
    strain = models.ForeignKey(Strain, models.PROTECT, null=True, blank=True, related_name="went_into")
    batch = models.ForeignKey(Batch, models.PROTECT, null=True, blank=True, related_name="went_into")
    liquor_l = models.FloatField(null=True, blank=True)
    """Left out: all of it."""
    liquor_typed = models.CharField(max_length=30, blank=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=models.Q(strain=None) ^ models.Q(batch=None), name="poured_from_a_straining_or_a_batch"
            ),
            models.UniqueConstraint(fields=["into", "strain"], name="a_straining_once_a_batch"),
            models.UniqueConstraint(fields=["into", "batch"], name="a_batch_once_a_batch"),
        ]

    def __str__(self) -> str:
        return f"{self.liquor_typed or 'all'} of {self.strain or self.batch} in {self.into}"


class LiquorLook(Kept):
    """One look at the liquor of a batch: before and between the parts of alkali, and while it is aired."""

    batch = models.ForeignKey(Batch, models.CASCADE, related_name="looks")
    taken_at = models.DateTimeField()
    ph = models.FloatField(null=True, blank=True)
    temp_c = models.FloatField(null=True, blank=True)
    temp_typed = models.CharField(max_length=30, blank=True)
    dissolved_oxygen_mg_l = models.FloatField(null=True, blank=True)
    dye_index = models.FloatField(null=True, blank=True)
    """Of a jar, for each centimetre, undiluted (`science.photo.jar`)."""
    dye_index_sd = models.FloatField(null=True, blank=True)
    foam = level()
    liquor = level()
    after_pours = models.PositiveIntegerField(null=True, blank=True)
    """Pours of the airing before this look; empty where it was not taken while airing."""
    after_min = models.FloatField(null=True, blank=True)
    """Minutes of the airing before this look."""

    class Meta:
        ordering = ["taken_at"]
        indexes = [models.Index(fields=["batch", "taken_at"])]

    def __str__(self) -> str:
        return f"{self.batch} at {self.taken_at:%d %b %H:%M}"
