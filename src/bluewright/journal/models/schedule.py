"""The plan of a season: the limits of the work, days away, and schedules as they were reckoned."""

from __future__ import annotations

from django.db import models

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept


class Limits(Kept):
    """What the work of a garden is limited by; the latest row counts."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="limits")
    last_day = models.DateField()
    """The last day that is planned."""
    tubs = models.JSONField(default=list, blank=True)
    """Sizes: `volume_l`, as `typed`, and `count`."""
    free_h = models.JSONField(default=list, blank=True)
    """Hours free on each day of the week, Monday first."""
    extra_h = models.FloatField(default=0.0)
    """Hours a day beyond those, where it pays."""
    places = models.FloatField(null=True, blank=True)
    """How many tubs' blue can dry at once; empty for as many as you like."""
    drying_d = models.PositiveSmallIntegerField(null=True, blank=True)
    """Days that drying takes."""

    class Meta:
        ordering = ["-made_at"]

    def __str__(self) -> str:
        return f"limits until {self.last_day}"


class DaysAway(Kept):
    """Days on which nothing can be done."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="days_away")
    first = models.DateField()
    last = models.DateField()

    class Meta:
        ordering = ["first"]

    def __str__(self) -> str:
        return f"{self.first} to {self.last}"


class Schedule(Kept):
    """A schedule as it was reckoned."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="schedules")
    reckoned_at = models.DateTimeField()
    rests_on = models.JSONField(default=dict, blank=True)
    """What it was reckoned from, by kind: a mark that differs once anything of it was changed."""
    because = models.JSONField(default=list, blank=True)
    """Kinds of what it rests on that were changed since the one before; empty where somebody asked for it."""
    gone = models.JSONField(default=list, blank=True)
    """Work that earlier schedules had and this one has not, for calendars that took it over: `key`, `on`, `kind` and
    `of`."""
    beds = models.JSONField(default=dict, blank=True)
    """Keys of beds by the names that the schedule has for them."""
    answer = models.JSONField(default=dict, blank=True)
    """The answer as the command gives it; empty where there is none."""
    settled = models.BooleanField(default=True)
    """False for a first answer while a better one is sought."""
    trouble = models.CharField(max_length=400, blank=True)
    """Why there is none."""

    class Meta:
        ordering = ["-reckoned_at", "-made_at"]

    def __str__(self) -> str:
        return f"schedule of {self.reckoned_at:%Y-%m-%d}"
