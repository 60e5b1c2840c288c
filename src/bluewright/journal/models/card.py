"""Printed cards for photos, and what each was registered as."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept
from bluewright.science.base.errors import InputError
from bluewright.science.base.records import read
from bluewright.science.photo.card import LAYOUT, MOST_CARDS
from bluewright.science.photo.card_record import RegisteredCard

PAPERS = [
    ("a5", _("A5")),
    ("a4", _("A4, cut to A5")),
    ("us-statement", _("half Letter (Statement)")),
    ("us-letter", _("US Letter, cut in half")),
]


def is_registered_card(value: Any) -> None:
    """Raise ValidationError for what the science does not read as a registered card."""
    try:
        read(RegisteredCard, value)
    except InputError as error:
        raise ValidationError(str(error)) from None


class Card(Kept):
    """A printed card of a garden. Its number is printed on it, in words and as a corner mark."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="cards")
    number = models.PositiveSmallIntegerField(validators=[MinValueValidator(1), MaxValueValidator(MOST_CARDS)])
    layout = models.PositiveSmallIntegerField(default=LAYOUT)
    """Version of the layout by which it is read."""
    paper = models.CharField(max_length=16, choices=PAPERS)
    printed_at = models.DateTimeField()

    class Meta:
        ordering = ["-number"]
        constraints = [models.UniqueConstraint(fields=["garden", "number"], name="a_number_once_a_garden")]

    def __str__(self) -> str:
        return _("Card %(number)d") % {"number": self.number}


class CardRegistration(Kept):
    """What a card was found to be, from several photos of one day. The latest that stands counts."""

    card = models.ForeignKey(Card, models.CASCADE, related_name="registrations")
    registered_at = models.DateTimeField()
    spread_de00 = models.FloatField()
    """How far one of its photos is from the card's values."""
    found = models.JSONField(validators=[is_registered_card])
    """A `RegisteredCard`; its photos are named by the checksums of their files."""
    program = models.CharField(max_length=20)
    """Version of the program that read the photos."""

    class Meta:
        ordering = ["-registered_at"]

    def __str__(self) -> str:
        return f"{self.card} registered {self.registered_at:%d %b %Y}"
