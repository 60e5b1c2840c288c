"""What a weather station's file says of a day beside its temperatures."""

from __future__ import annotations

from django.db import models

from bluewright.journal.models.intake import Intake


class StationDay(models.Model):
    """One day of a station's file: rain, humidity, wind, sun. It stands as long as its intake does."""

    intake = models.ForeignKey(Intake, models.CASCADE, related_name="station_days")
    day = models.DateField()
    rain_mm = models.FloatField(null=True, blank=True)
    humidity_frac = models.FloatField(null=True, blank=True)
    humidity_low_frac = models.FloatField(null=True, blank=True)
    humidity_high_frac = models.FloatField(null=True, blank=True)
    wind_m_per_s = models.FloatField(null=True, blank=True)
    """Mean of the day, brought down to 2 m above the ground."""
    sunshine_h = models.FloatField(null=True, blank=True)
    radiation_mj_per_m2 = models.FloatField(null=True, blank=True)

    class Meta:
        ordering = ["day"]
        constraints = [models.UniqueConstraint(fields=["intake", "day"], name="a_day_once_an_intake")]
        indexes = [models.Index(fields=["day"])]

    def __str__(self) -> str:
        return f"{self.intake} on {self.day:%Y-%m-%d}"
