"""Looks at a bed: plants counted in a frame, leaves measured and scored, and the days on which its seasons began."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.bed import Bed
from bluewright.journal.models.kept import Kept

STARTS = [
    ("sown", _("it was sown")), ("planted", _("it was planted out")),
    ("overwintered", _("it grows again after winter")),
]  # fmt: skip
CAUSES = [
    ("powdery_mildew", _("powdery mildew")), ("white_rust", _("white rust")), ("downy_mildew", _("downy mildew")),
    ("black_spot", _("black spot")), ("clubroot", _("clubroot")), ("flea_beetle", _("flea beetle")),
    ("caterpillars", _("caterpillars")), ("slugs", _("slugs or snails")),
]  # fmt: skip


class BedLook(Kept):
    """What was counted, scored or begun at a bed on a day; at least one of them. Lists are numbers with spaces."""

    bed = models.ForeignKey(Bed, models.CASCADE, related_name="looks")
    day = models.DateField()
    began = models.CharField(max_length=12, choices=STARTS, blank=True)
    """How a season began on that day."""
    frame_m2 = models.FloatField(null=True, blank=True)
    frame_typed = models.CharField(max_length=30, blank=True)
    counts = models.CharField(max_length=1500, blank=True)
    """Plants in each frame."""
    bolting = models.PositiveIntegerField(null=True, blank=True)
    """Of all those, with a flower stem."""
    longest_mm = models.CharField(max_length=1500, blank=True)
    """Of each marked plant the longest leaf, or the longest shoot since the cut."""
    longest_typed = models.CharField(max_length=300, blank=True)
    spotted = models.CharField(max_length=1500, blank=True)
    """Percent of each leaf."""
    eaten = models.CharField(max_length=1500, blank=True)
    """Percent of each leaf."""
    cause = models.CharField(max_length=16, choices=CAUSES, blank=True)

    class Meta:
        ordering = ["day", "made_at"]

    def __str__(self) -> str:
        return f"{self.bed} on {self.day:%Y-%m-%d}"
