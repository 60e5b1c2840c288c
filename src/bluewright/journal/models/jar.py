"""Jars of dry pigment: what went in, what was taken out."""

from __future__ import annotations

from django.db import models

from bluewright.journal.models.batch import Batch
from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept


class Jar(Kept):
    """A jar of dry pigment. A batch may fill several jars, a jar hold several batches."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="jars")
    name = models.CharField(max_length=60)
    filled_at = models.DateTimeField()
    stands = models.CharField(max_length=80, blank=True)
    """Where it stands."""
    purity_frac = models.FloatField(null=True, blank=True)
    purity_sd_frac = models.FloatField(null=True, blank=True)
    purity_how = models.CharField(max_length=80, blank=True)
    scale_sd_g = models.FloatField(default=0.5)
    seed = models.PositiveIntegerField(default=1)

    class Meta:
        ordering = ["-filled_at"]

    def __str__(self) -> str:
        return self.name


class JarFrom(models.Model):
    """Dry pigment of a batch that went into a jar, weighed without the jar."""

    jar = models.ForeignKey(Jar, models.CASCADE, related_name="came_from")
    batch = models.ForeignKey(Batch, models.PROTECT, related_name="jarred")
    pigment_g = models.FloatField()
    pigment_typed = models.CharField(max_length=30)

    class Meta:
        constraints = [models.UniqueConstraint(fields=["jar", "batch"], name="a_batch_once_a_jar")]

    def __str__(self) -> str:
        return f"{self.pigment_typed} of {self.batch} in {self.jar}"


class JarTaken(Kept):
    """Pigment taken out of a jar; or what a jar weighed again lacks beside the book (below 0: it has more)."""

    jar = models.ForeignKey(Jar, models.CASCADE, related_name="taken")
    taken_at = models.DateTimeField()
    taken_g = models.FloatField()
    taken_typed = models.CharField(max_length=30, blank=True)
    """Empty where it was weighed again."""
    what_for = models.CharField(max_length=120, blank=True)
    weighed_g = models.FloatField(null=True, blank=True)
    """What was in it when it was weighed again; empty where something was taken out."""
    weighed_typed = models.CharField(max_length=30, blank=True)

    class Meta:
        ordering = ["-taken_at"]

    def __str__(self) -> str:
        return f"{self.taken_typed} out of {self.jar}"


class YieldSeen(models.Model):
    """What a jar was reckoned to hold, as a person saw it: so that it can be explained, and told again cheaply."""

    jar = models.ForeignKey(Jar, models.CASCADE, related_name="yields")
    seen_at = models.DateTimeField()
    program = models.CharField(max_length=20)
    answer = models.JSONField()

    class Meta:
        ordering = ["-seen_at"]
        indexes = [models.Index(fields=["jar", "-seen_at"])]

    def __str__(self) -> str:
        return f"{self.jar} reckoned at {self.seen_at:%d %b %H:%M}"
