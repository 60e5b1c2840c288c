"""How a garden works, as far as a plan depends on it."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.bed import PLANTS
from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept

VAT_KINDS = [("quick", _("quick, with a reducer")), ("ferment", _("fermented"))]
STEEP_KINDS = [("cold", _("cold")), ("hot", _("hot"))]


class PlanBasis(Kept):
    """What a plan is reckoned with; one of them stands for a garden."""

    garden = models.OneToOneField(Garden, models.CASCADE, related_name="plan_basis")
    plant = models.CharField(max_length=20, choices=PLANTS, default="woad")
    """What is to be sown."""
    vat_l = models.FloatField(null=True, blank=True)
    """Litres of the vat; empty where what stands in it is not to be counted."""
    vat_typed = models.CharField(max_length=30, blank=True)
    vat_kind = models.CharField(max_length=8, choices=VAT_KINDS, default="quick")
    in_it_g = models.FloatField(default=0.0)
    """Reduced pure indigo that stands in it."""
    in_it_typed = models.CharField(max_length=30, blank=True)
    steep_kind = models.CharField(max_length=4, choices=STEEP_KINDS, default="cold")
    tub_l = models.FloatField(null=True, blank=True)
    """Water in a tub."""
    tub_typed = models.CharField(max_length=30, blank=True)
    width_m = models.FloatField(null=True, blank=True)
    """Of the beds."""
    width_typed = models.CharField(max_length=30, blank=True)
    chance = models.FloatField(default=0.8, choices=[(0.5, _("even")), (0.8, _("4 in 5")), (0.9, _("9 in 10"))])
    """How sure it shall be."""

    def __str__(self) -> str:
        return f"plan of {self.garden}"
