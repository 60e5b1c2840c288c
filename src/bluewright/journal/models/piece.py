"""Pieces of cloth and yarn: scoured, dipped, aired, finished, and tried at home."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.journal.models.vat import Vat
from bluewright.words.cloth import AFTER_DIPS, BASES, BODIES, FIBRES, FINISHES, HOME_TESTS, SCOURS


def axis() -> models.FloatField[float | None, float | None]:
    """a* or b* of a colour that need not be known."""
    return models.FloatField(null=True, blank=True, validators=[MinValueValidator(-130), MaxValueValidator(130)])


class Piece(Kept):
    """One piece, or several that are dyed as one."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="pieces")
    name = models.CharField(max_length=80)
    fibre = models.CharField(max_length=16, choices=[(k, _(v)) for k, v in FIBRES.items()])
    body = models.CharField(max_length=8, choices=[(k, _(v)) for k, v in BODIES.items()], default="yarn")
    thickness_mm = models.FloatField(null=True, blank=True)
    """From side to side of yarn or ball, or through the sheet; empty: as usual for a yarn of the fibre."""
    thickness_typed = models.CharField(max_length=30, blank=True)
    mass_g = models.FloatField()
    """Before the vat."""
    mass_typed = models.CharField(max_length=30)
    basis = models.CharField(max_length=12, choices=[(k, _(v)) for k, v in BASES.items()], default="conditioned")
    """How it was weighed, before and after."""
    scale_sd_g = models.FloatField(null=True, blank=True, validators=[MinValueValidator(0.00001)])
    """How far each weighing may be off; empty: as usual for a kitchen scale."""
    begun_at = models.DateTimeField()
    """When it came into the book."""
    ground_l_star = models.FloatField(null=True, blank=True, validators=[MinValueValidator(0), MaxValueValidator(100)])
    """The undyed cloth, where its colour was measured; all three or none."""
    ground_a_star = axis()
    ground_b_star = axis()
    scour = models.CharField(max_length=10, choices=[(k, _(v)) for k, v in SCOURS.items()], blank=True)
    """How it was cleaned before the vat; empty: not yet, or not told."""
    scoured_at = models.DateTimeField(null=True, blank=True)
    after_dip = models.CharField(max_length=8, choices=[(k, _(v)) for k, v in AFTER_DIPS.items()], default="squeezed")
    """What is done with it when it comes out of the vat."""
    wanted_dips = models.PositiveSmallIntegerField(
        null=True, blank=True, validators=[MinValueValidator(1), MaxValueValidator(60)]
    )
    """How many dips it is to get."""
    dip_min = models.FloatField(default=5.0)
    """How long each is to be; the timer counts to it."""
    air_min = models.FloatField(default=15.0)
    """How long it is to hang in the air between them."""
    like_key = models.UUIDField(null=True, blank=True)
    """Key of the swatch whose colour it is to get; that may be gone."""
    finish = models.CharField(max_length=8, choices=[(k, _(v)) for k, v in FINISHES.items()], blank=True)
    finished_at = models.DateTimeField(null=True, blank=True)
    after_g = models.FloatField(null=True, blank=True)
    """Its mass once it is finished and dry."""
    after_typed = models.CharField(max_length=30, blank=True)
    seed = models.PositiveIntegerField(default=1)

    class Meta:
        ordering = ["-begun_at"]

    def __str__(self) -> str:
        return self.name


class Dip(Kept):
    """One dip of a piece in a vat; without an end it is in the vat now."""

    piece = models.ForeignKey(Piece, models.CASCADE, related_name="dips")
    vat = models.ForeignKey(Vat, models.PROTECT, related_name="dips")
    began_at = models.DateTimeField()
    ended_at = models.DateTimeField(null=True, blank=True)
    """When it came out; from then on it airs until its next dip or its finish."""

    class Meta:
        ordering = ["began_at"]
        indexes = [models.Index(fields=["vat", "began_at"])]

    def __str__(self) -> str:
        return f"{self.piece} in {self.vat} at {self.began_at:%d %b %H:%M}"


class HomeTest(Kept):
    """A test of fastness at home; its grade is a home grade, not that of a laboratory."""

    piece = models.ForeignKey(Piece, models.CASCADE, related_name="home_tests")
    kind = models.CharField(max_length=10, choices=[(k, _(v)) for k, v in HOME_TESTS.items()])
    done_at = models.DateTimeField()
    how = models.CharField(max_length=160, blank=True)
    """Strokes, minutes, degrees, days in the sun."""
    grade = models.FloatField(null=True, blank=True, validators=[MinValueValidator(1), MaxValueValidator(5)])
    """5 no change or no blue on the rag, 1 very much; in halves by eye, finer from a photo."""
    grade_sd = models.FloatField(null=True, blank=True)
    off_de = models.FloatField(null=True, blank=True)
    """Difference of colour that the grade was read from, where a photo told it."""
    measured_key = models.UUIDField(null=True, blank=True)
    """Key of the row of `Measured` that told it; that may be gone."""

    class Meta:
        ordering = ["done_at"]

    def __str__(self) -> str:
        return f"{self.kind} of {self.piece}"
