"""Kit: tubs, sieves, a meter, a press; paid once, used for years."""

from __future__ import annotations

from django.db import models

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept


class KitItem(Kept):
    """Something that was bought for years, with what was paid for it in the garden's money."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="kit")
    name = models.CharField(max_length=80)
    paid_money = models.FloatField()
    left_money = models.FloatField(default=0.0)
    """What it will still be worth in the end."""
    lasts_years = models.PositiveSmallIntegerField(null=True, blank=True)
    """Years that it is expected to last; one of the two is given."""
    lasts_batches = models.PositiveIntegerField(null=True, blank=True)

    class Meta:
        ordering = ["name", "made_at"]

    def __str__(self) -> str:
        return self.name
