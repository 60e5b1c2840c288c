"""Colours measured in photos: the boxes as they were drawn, and what was found then."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.batch import Batch, LiquorLook
from bluewright.journal.models.card import Card
from bluewright.journal.models.kept import Kept
from bluewright.journal.models.photo import Photo
from bluewright.journal.models.steep import Reading, Steep

STOOD = [("settled", _("settled or filtered")), ("shaken", _("just shaken"))]


class Measured(Kept):
    """What was measured in a photo. The answer is a dated copy: another version of the program may find another."""

    photo = models.ForeignKey(Photo, models.CASCADE, related_name="measured")
    name = models.CharField(max_length=60, blank=True)
    """What it is."""
    measured_at = models.DateTimeField()
    roles = models.JSONField(default=list)
    """What each sample of the record is, in its order: `sample`, or of a jar `jar`, `water`, `over_black`, `foam`."""
    record = models.JSONField()
    """The `PhotoRecord` as it was entered."""
    answer = models.JSONField()
    """The `PhotoAnswer` to it, without the record."""
    card = models.ForeignKey(Card, models.SET_NULL, null=True, blank=True, related_name="measured")
    """The printed card that it was measured against."""
    card_off_de00 = models.FloatField(null=True, blank=True)
    """How far that card's patches came out from what they were registered as, on average."""
    program = models.CharField(max_length=20)
    """The version that answered."""

    class Meta:
        ordering = ["-measured_at"]

    def __str__(self) -> str:
        return self.name or f"measured {self.measured_at:%d %b %H:%M}"


class JarLook(Kept):
    """One look of a jar test: the colours are those of the measured photo."""

    measured = models.ForeignKey(Measured, models.CASCADE, related_name="jar_looks")
    steep = models.ForeignKey(Steep, models.CASCADE, null=True, blank=True, related_name="jar_looks")
    batch = models.ForeignKey(Batch, models.CASCADE, null=True, blank=True, related_name="jar_looks")
    seen_at = models.DateTimeField()
    after_min = models.FloatField()
    """Minutes since the alkali went in; 0 before it."""
    stood = models.CharField(max_length=7, choices=STOOD, default="settled")
    path_cm = models.FloatField()
    path_typed = models.CharField(max_length=30)
    dilution_factor = models.FloatField(default=1.0)
    foam_blue_frac = models.FloatField(null=True, blank=True)
    reading = models.ForeignKey(Reading, models.SET_NULL, null=True, blank=True, related_name="jar_looks")
    """The look at the tub that the strain call reads."""
    liquor_look = models.ForeignKey(LiquorLook, models.SET_NULL, null=True, blank=True, related_name="jar_looks")
    """The look at the liquor that the airing reads."""

    class Meta:
        ordering = ["seen_at"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(steep=None) ^ models.Q(batch=None), name="a_jar_of_a_tub_or_of_a_batch"
            )
        ]

    def __str__(self) -> str:
        return f"jar of {self.steep or self.batch} at {self.seen_at:%d %b %H:%M}"
