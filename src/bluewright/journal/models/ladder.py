"""Ladders of dips: strips of one cloth from one vat, each with another number of dips, to learn what a dip gives."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.journal.models.piece import axis
from bluewright.journal.models.swatch import HOWS, Swatch, spread
from bluewright.journal.models.vat import Vat
from bluewright.words.cloth import AFTER_DIPS, BASES, BODIES, FIBRES, FINISHES, RUNS


class Ladder(Kept):
    """One ladder, from its plan until its strips are dry and measured."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="ladders")
    name = models.CharField(max_length=80)
    vat = models.ForeignKey(Vat, models.SET_NULL, null=True, blank=True, related_name="ladders")
    """The vat it is dyed in; empty where it is not in the book."""
    fibre = models.CharField(max_length=16, choices=[(k, _(v)) for k, v in FIBRES.items()])
    body = models.CharField(max_length=8, choices=[(k, _(v)) for k, v in BODIES.items()], default="yarn")
    thickness_mm = models.FloatField(null=True, blank=True)
    """From side to side of yarn or ball, or through the sheet; empty: as usual for a yarn of the fibre."""
    thickness_typed = models.CharField(max_length=30, blank=True)
    basis = models.CharField(max_length=12, choices=[(k, _(v)) for k, v in BASES.items()], default="conditioned")
    """How the strips are weighed, before and after."""
    strip_g = models.FloatField()
    """About so much weighs each strip."""
    strip_typed = models.CharField(max_length=30)
    scale_sd_g = models.FloatField(default=0.01)
    """How far each weighing of a strip may be off."""
    ground_l_star = models.FloatField(null=True, blank=True, validators=[MinValueValidator(0), MaxValueValidator(100)])
    """The undyed cloth, where its colour was measured; all three or none."""
    ground_a_star = axis()
    ground_b_star = axis()
    bath_l = models.FloatField()
    """Liquor in the vat."""
    bath_typed = models.CharField(max_length=30)
    active_g_per_l = models.FloatField()
    """Pure indigo reduced and dissolved, before the first dip: as the vat was reckoned then, or as it was typed."""
    active_sd_frac = models.FloatField(null=True, blank=True)
    """How far that may be off, as a share of it; empty: as usual for a strength that was judged."""
    reckoned = models.BooleanField(default=False)
    """Whether the strength was reckoned from what was written down of the vat."""
    run = models.CharField(max_length=12, choices=[(k, _(v)) for k, v in RUNS.items()], default="well_run")
    ph = models.FloatField(null=True, blank=True, validators=[MinValueValidator(7), MaxValueValidator(13.9)])
    temp_c = models.FloatField(null=True, blank=True)
    temp_typed = models.CharField(max_length=30, blank=True)
    dip_min = models.FloatField(default=5.0)
    """How long each dip is to be; the timer counts to it."""
    air_min = models.FloatField(default=15.0)
    after_dip = models.CharField(max_length=8, choices=[(k, _(v)) for k, v in AFTER_DIPS.items()], default="squeezed")
    finish = models.CharField(max_length=8, choices=[(k, _(v)) for k, v in FINISHES.items()], default="soaped")
    """What the strips get once they are blue."""
    how = models.CharField(max_length=12, choices=HOWS, default="card")
    """How colours were measured that were typed."""
    begun_at = models.DateTimeField()
    """When it was planned."""
    done_at = models.DateTimeField(null=True, blank=True)
    """When its strips were dry and measured; from then on forecasts learn from it."""
    seed = models.PositiveIntegerField(default=1)

    class Meta:
        ordering = ["-begun_at"]

    def __str__(self) -> str:
        return self.name


class LadderRung(Kept):
    """One strip: how many dips it gets, what it weighs, and its colour once it is dry."""

    ladder = models.ForeignKey(Ladder, models.CASCADE, related_name="rungs")
    dips = models.PositiveSmallIntegerField(validators=[MinValueValidator(1), MaxValueValidator(40)])
    before_g = models.FloatField(null=True, blank=True)
    """Its mass before the vat."""
    before_typed = models.CharField(max_length=30, blank=True)
    after_g = models.FloatField(null=True, blank=True)
    """The same once it is finished and dry."""
    after_typed = models.CharField(max_length=30, blank=True)
    swatch = models.ForeignKey(Swatch, models.SET_NULL, null=True, blank=True, related_name="rungs")
    """The swatch that its colour was measured as; goes before a colour that was typed."""
    l_star = models.FloatField(null=True, blank=True, validators=[MinValueValidator(0), MaxValueValidator(100)])
    """Its colour where it was typed; all three or none."""
    a_star = axis()
    b_star = axis()
    l_sd = spread()
    a_sd = spread()
    b_sd = spread()
    k_over_s = models.FloatField(null=True, blank=True, validators=[MinValueValidator(0.01), MaxValueValidator(120)])
    """Its depth at 660 nm, where an instrument told it."""

    class Meta:
        ordering = ["dips", "made_at"]

    def __str__(self) -> str:
        return f"{self.dips} dips of {self.ladder}"


class LadderDip(Kept):
    """One dip of a ladder: every strip that still wants one was in. Without an end they are in the vat now."""

    ladder = models.ForeignKey(Ladder, models.CASCADE, related_name="dips")
    began_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["began_at"]

    def __str__(self) -> str:
        return f"dip of {self.ladder} at {self.began_at:%d %b %H:%M}"
