"""What grew in the ground of a bed in a year, before it or between its own seasons."""

from __future__ import annotations

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.bed import Bed
from bluewright.journal.models.kept import Kept

FAMILIES = [
    ("cabbage", _("the cabbage family")),
    ("other", _("another family, or nothing")),
]
FIRST_YEAR, LAST_YEAR = 1900, 2200


class BedPast(Kept):
    """What grew in a bed in one year."""

    bed = models.ForeignKey(Bed, models.CASCADE, related_name="past")
    year = models.PositiveSmallIntegerField(validators=[MinValueValidator(FIRST_YEAR), MaxValueValidator(LAST_YEAR)])
    crop = models.CharField(max_length=80, blank=True)
    """In the grower's own words."""
    family = models.CharField(max_length=8, choices=FAMILIES)
    clubroot = models.BooleanField(default=False)
    """Whether roots were found swollen."""

    class Meta:
        ordering = ["-year", "made_at"]

    def __str__(self) -> str:
        return f"{self.bed} in {self.year}"
