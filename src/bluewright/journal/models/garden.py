"""A garden and the air over it."""

from __future__ import annotations

from datetime import time
from typing import Final

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.kept import Kept

LOWEST_AT: Final = time(6)
HIGHEST_AT: Final = time(15)
"""Hours at which a day's lowest and highest are written down (common practice)."""


class Garden(Kept):
    """One garden: everything else belongs to one."""

    name = models.CharField(max_length=80)
    time_zone = models.CharField(max_length=60, default="UTC")
    hemisphere = models.CharField(max_length=5, choices=[("north", _("north")), ("south", _("south"))], default="north")
    system = models.CharField(
        max_length=6, choices=[("metric", _("metric")), ("us", _("US customary"))], default="metric"
    )
    latitude_deg = models.FloatField(null=True, blank=True)
    """Degrees north of the equator; south of it below 0."""
    climate = models.JSONField(default=list, blank=True)
    """Twelve months from January on, or none: mean coldest and warmest in C, rain in mm if known, and each as typed."""
    altitude_m = models.FloatField(null=True, blank=True)
    altitude_typed = models.CharField(max_length=30, blank=True)
    water_alkalinity_mg_caco3_l = models.FloatField(null=True, blank=True)
    """Of the water that goes into the tubs, as mg of CaCO3 in a litre."""
    water_alkalinity_typed = models.CharField(max_length=30, blank=True)
    water_hardness_mg_caco3_l = models.FloatField(null=True, blank=True)
    """Total hardness of that water, as mg of CaCO3 in a litre."""
    water_hardness_typed = models.CharField(max_length=30, blank=True)
    tap_ph = models.FloatField(null=True, blank=True)
    tap_conductivity_us_per_cm = models.FloatField(null=True, blank=True)
    currency = models.CharField(max_length=8, blank=True)
    """How the garden's money is called; nothing is exchanged."""
    money_decimals = models.PositiveSmallIntegerField(default=2)
    wage_money_per_h = models.FloatField(null=True, blank=True)
    """What an hour of work is to be paid; empty: hours are not counted as money."""
    water_money_per_m3 = models.FloatField(null=True, blank=True)
    price_money_per_g = models.FloatField(null=True, blank=True)
    """What is asked for a gram of pure blue."""
    margin_frac = models.FloatField(default=0.0)
    """Share of a price that is to be left over."""
    allowance_frac = models.FloatField(default=0.1)
    """Share of the blue that is never sold."""
    invented = models.BooleanField(default=False)
    """True for the demo garden: none of it ever happened, and every page says so."""

    def __str__(self) -> str:
        return self.name


class AirTemp(Kept):
    """The air in the shade at a time, read or forecast."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="air_temps")
    time = models.DateTimeField()
    temp_c = models.FloatField()
    temp_typed = models.CharField(max_length=30)
    forecast = models.BooleanField(default=False)
    intake = models.ForeignKey("Intake", models.CASCADE, null=True, blank=True, related_name="air_temps")
    """The logger's file that it came with; empty where a person wrote it down."""

    class Meta:
        ordering = ["time"]
        indexes = [models.Index(fields=["garden", "time"])]

    def __str__(self) -> str:
        return f"{self.temp_c:g} C at {self.time:%Y-%m-%d %H:%M}"
