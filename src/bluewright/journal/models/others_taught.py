"""What other gardens have taught, taken in by this one."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import MinValueValidator
from django.db import models

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.memory.pool_record import Prepared


def a_prior(told: Any) -> None:
    """Refuse what no pool can have written: it comes from strangers."""
    try:
        read(Prepared, told)
    except InputError as error:
        raise ValidationError(str(error)) from None


class OthersTaught(Kept):
    """`Three gardens of the valley`: the garden's memory begins from the latest that was taken in."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="others_taught")
    name = models.CharField(max_length=100)
    gardens = models.PositiveSmallIntegerField(validators=[MinValueValidator(1)])
    told = models.JSONField(validators=[a_prior])

    class Meta:
        ordering = ["-made_at"]

    def __str__(self) -> str:
        return self.name

    @property
    def prior(self) -> Prepared:
        """As the memory takes it."""
        return read(Prepared, self.told)
