"""Supplies: what a vat uses up beside powder and alkali; bought by the pack."""

from __future__ import annotations

from typing import Any, Final

from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.alkali import KINDS
from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.words.vat import SUBSTANCES

SUPPLIES: Final[list[tuple[str, Any]]] = [
    (kind, _(said)) for kind, said in SUBSTANCES.items() if kind not in {"powder", *dict(KINDS)}
]
"""What goes into vats and stands in no jar and in no alkali cupboard."""


class Supply(Kept):
    """A pack of something that vats use up, with what was paid for it in the garden's money."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="supplies")
    kind = models.CharField(max_length=18, choices=SUPPLIES)
    pack_g = models.FloatField()
    """What it held when it was new."""
    pack_typed = models.CharField(max_length=30)
    pack_money = models.FloatField()
    bought_on = models.DateField()
    used_up = models.BooleanField(default=False)

    class Meta:
        ordering = ["kind", "-bought_on", "-made_at"]

    def __str__(self) -> str:
        return f"{self.pack_typed} of {self.get_kind_display()}"
