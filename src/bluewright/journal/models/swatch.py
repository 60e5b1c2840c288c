"""Swatches: pieces of dyed cloth and other blue things whose colour was measured, with where they came from."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.jar import Jar
from bluewright.journal.models.kept import Kept
from bluewright.journal.models.piece import Piece, axis

OF = [
    ("cloth", _("dyed cloth or yarn")), ("pigment", _("dry pigment")), ("ground", _("undyed cloth")),
    ("other", _("something else")),
]  # fmt: skip
FIBRES = [
    ("wool", _("wool")), ("silk", _("silk")), ("linen", _("linen")), ("cotton", _("cotton")), ("hemp", _("hemp")),
    ("viscose", _("viscose")), ("mixed", _("mixed")), ("other", _("another fibre")),
]  # fmt: skip
HOWS = [
    ("card", _("photo with a registered card")), ("photo", _("photo without one")),
    ("instrument", _("spectrometer or colour meter")), ("typed", _("told by somebody else")),
]  # fmt: skip


def _axis() -> models.FloatField[float, float]:
    return models.FloatField(validators=[MinValueValidator(-130), MaxValueValidator(130)])


def spread() -> models.FloatField[float | None, float | None]:
    """Standard deviation of an axis of a colour, where it is known."""
    return models.FloatField(null=True, blank=True, validators=[MinValueValidator(0), MaxValueValidator(30)])


class Swatch(Kept):
    """One swatch. Its colour is CIELAB under D65 for the 2 degree observer."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="swatches")
    jar = models.ForeignKey(Jar, models.PROTECT, null=True, blank=True, related_name="swatches")
    """The pigment it was dyed with, or is; what came before the jar is on the jar's thread."""
    piece = models.ForeignKey(Piece, models.SET_NULL, null=True, blank=True, related_name="swatches")
    """The piece of cloth that it was cut from, or is."""
    name = models.CharField(max_length=80)
    of = models.CharField(max_length=10, choices=OF)
    fibre = models.CharField(max_length=10, choices=FIBRES, blank=True)
    dips = models.PositiveSmallIntegerField(
        null=True, blank=True, validators=[MinValueValidator(1), MaxValueValidator(200)]
    )
    recipe = models.TextField(blank=True)
    """How it was dyed, in free words."""
    measured_at = models.DateTimeField()
    how = models.CharField(max_length=12, choices=HOWS)
    """How its colour was measured."""
    l_star = models.FloatField(validators=[MinValueValidator(0), MaxValueValidator(100)])
    a_star = _axis()
    b_star = _axis()
    l_sd = spread()
    """Standard deviation of each, where it is known."""
    a_sd = spread()
    b_sd = spread()
    k_over_s = models.FloatField(null=True, blank=True, validators=[MinValueValidator(0), MaxValueValidator(200)])
    """K/S at 660 nm, where an instrument read a spectrum."""
    ground_l_star = models.FloatField(null=True, blank=True, validators=[MinValueValidator(0), MaxValueValidator(100)])
    """The same cloth undyed, where its colour was measured; all three or none."""
    ground_a_star = axis()
    ground_b_star = axis()
    measured_key = models.UUIDField(null=True, blank=True)
    """Key of the row of `Measured` that its colour was taken from; that may be gone."""
    measured_sample = models.PositiveSmallIntegerField(null=True, blank=True)
    """Which of its samples, from 0."""

    class Meta:
        ordering = ["-measured_at", "-made_at"]
        indexes = [models.Index(fields=["garden", "-measured_at"])]

    def __str__(self) -> str:
        return self.name
