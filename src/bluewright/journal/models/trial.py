"""Trials: a question with its lots, laid down before the first tub; each lot stays sealed until its tub is full."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.journal.models.steep import Steep
from bluewright.words.compare import ASSIGNED, DIFFERS, OUTCOMES

MEASURED = ("pure_blue", "powder")
"""Outcomes that the journal counts by itself, from the jars back to the tubs."""


class Trial(Kept):
    """What was laid down: question, ways, outcome, how many, what makes a tub spoilt, and the seal of the lots."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="trials")
    name = models.CharField(max_length=60)
    question = models.CharField(max_length=200)
    ways = models.JSONField(default=list)
    """Names of what is compared, the usual way first."""
    differs = models.CharField(max_length=8, choices=[(k, _(v)) for k, v in DIFFERS.items()], default="other")
    assigned = models.CharField(max_length=6, choices=[(k, _(v)) for k, v in ASSIGNED.items()], default="lot")
    outcome = models.CharField(
        max_length=10, choices=[(k, _(v)) for k, v in OUTCOMES.items() if k in MEASURED], default="pure_blue"
    )
    tubs = models.PositiveSmallIntegerField(validators=[MinValueValidator(1), MaxValueValidator(24)])
    """Tubs that are filled on one day."""
    days = models.PositiveSmallIntegerField(validators=[MinValueValidator(1), MaxValueValidator(60)])
    vessels_differ = models.BooleanField(default=False)
    worth_finding_frac = models.FloatField(default=0.2, validators=[MinValueValidator(0.01), MaxValueValidator(10)])
    leaf_kg = models.FloatField(null=True, blank=True)
    """Leaf for a tub."""
    leaf_typed = models.CharField(max_length=30, blank=True)
    work_h = models.JSONField(default=list, blank=True)
    """Hours of work for a tub of each way, in their order; empty where that is not asked."""
    least_gain_frac = models.FloatField(default=0.0, validators=[MinValueValidator(-0.95), MaxValueValidator(10)])
    """How much more than the usual way it must give to be worth it."""
    least_g_per_h = models.FloatField(null=True, blank=True, validators=[MinValueValidator(1e-6)])
    """Pure blue that an hour of work must bring."""
    spoilt_if = models.CharField(max_length=300, blank=True)
    """What makes a tub spoilt, as it was said beforehand."""
    laid_down_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True, blank=True)
    looks = models.PositiveSmallIntegerField(default=0)
    """How often the result was looked at before the end."""
    seed = models.PositiveIntegerField(default=1)
    """What the lots were drawn from."""
    seal = models.CharField(max_length=16)
    """The fingerprint of the lots."""

    class Meta:
        ordering = ["-laid_down_at"]

    def __str__(self) -> str:
        return self.name


class TrialTub(Kept):
    """One lot: sealed until it is opened; then the tub that it became, and what came of it."""

    trial = models.ForeignKey(Trial, models.CASCADE, related_name="lots")
    number = models.PositiveSmallIntegerField()
    block = models.CharField(max_length=60)
    """The picking that it shares with its rivals."""
    vessel = models.PositiveSmallIntegerField()
    way = models.CharField(max_length=60)
    """What it gets; no page tells it before the lot is opened."""
    opened_at = models.DateTimeField(null=True, blank=True)
    steep = models.ForeignKey(Steep, models.SET_NULL, null=True, blank=True, related_name="lots")
    got_g_per_kg = models.FloatField(null=True, blank=True, validators=[MinValueValidator(1e-6)])
    """What it gave, weighed by hand, where the journal cannot count it."""
    got_typed = models.CharField(max_length=30, blank=True)
    spoilt = models.CharField(max_length=200, blank=True)
    """Why it does not count."""

    class Meta:
        ordering = ["number"]
        constraints = [models.UniqueConstraint(fields=["trial", "number"], name="an_envelope_once_a_trial")]

    def __str__(self) -> str:
        return f"envelope {self.number} of {self.trial}"
