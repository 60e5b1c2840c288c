"""Wants: cloth to be dyed and pigment to be handed on, each by a day or some time."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.words.cloth import BASES, DEPTHS, FIBRES

WHATS = [("cloth", _("cloth to dye")), ("pigment", _("pigment to sell or give"))]
STATES = [("open", _("wanted")), ("done", _("done")), ("dropped", _("dropped"))]


class Want(Kept):
    """Something wanted of the season: cloth of a fibre at a depth, or pigment."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="wants")
    what = models.CharField(max_length=8, choices=WHATS)
    name = models.CharField(max_length=80)
    """What it is for: two shawls, a jar for the market."""
    mass_g = models.FloatField()
    """Of the cloth; or of the powder, where its purity is given, else of pure indigo."""
    mass_typed = models.CharField(max_length=30)
    fibre = models.CharField(max_length=16, choices=[(k, _(v)) for k, v in FIBRES.items()], blank=True)
    basis = models.CharField(max_length=12, choices=[(k, _(v)) for k, v in BASES.items()], default="conditioned")
    """How the cloth was weighed."""
    depth = models.CharField(max_length=10, choices=[(k, _(v)) for k, v in DEPTHS.items()], blank=True)
    fixed_frac = models.FloatField(null=True, blank=True)
    """Pure indigo to be fixed, as a share of the dry fibre; goes before the depth."""
    fixed_typed = models.CharField(max_length=30, blank=True)
    purity_frac = models.FloatField(null=True, blank=True)
    """Pure indigo in the powder that is wanted, as a share of its mass."""
    purity_typed = models.CharField(max_length=30, blank=True)
    by_day = models.DateField(null=True, blank=True)
    """On which it must be ready; empty for some time."""
    state = models.CharField(max_length=8, choices=STATES, default="open")

    class Meta:
        ordering = ["by_day", "made_at"]

    def __str__(self) -> str:
        return self.name
