"""Assays: what was found out about how much of a jar's pigment is indigo."""

from __future__ import annotations

from typing import Any

from django.core.exceptions import ValidationError
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.utils.translation import gettext_lazy as _

from bluewright.journal.models.jar import Jar
from bluewright.journal.models.kept import Kept

METHODS = [
    ("spectrum", _("spectrum")),
    ("led", _("one-lamp meter")),
    ("dyeing", _("test dyeing")),
    ("titration", _("titration or nitrogen")),
    ("ash", _("ash and acid wash")),
    ("powder", _("colour of the powder")),
]


def check_plain(value: Any) -> None:
    """Validator: an object of plain values."""
    if not isinstance(value, dict):
        raise ValidationError(_("This is not an object."))


def check_typed(value: Any) -> None:
    """Validator: texts by name, as a form sends them."""
    if not isinstance(value, dict) or not all(isinstance(text, str) for text in value.values()):
        raise ValidationError(_("This is not what a form sends."))


SHARE = (MinValueValidator(0.001), MaxValueValidator(0.999))
DOUBT = (MinValueValidator(0.001), MaxValueValidator(0.5))


class Assay(Kept):
    """One assay of a jar's pigment: what was typed and read, and what was found then, by which program."""

    jar = models.ForeignKey(Jar, models.CASCADE, related_name="assays")
    method = models.CharField(max_length=12, choices=METHODS)
    assayed_at = models.DateTimeField()
    typed = models.JSONField(default=dict, blank=True, validators=[check_typed])
    """What was typed, by the name of its field; an instrument's table as its text."""
    record = models.JSONField(validators=[check_plain])
    """The record that the science reads."""
    answer = models.JSONField(validators=[check_plain])
    """What was found when it was written down, without the record."""
    program = models.CharField(max_length=20)
    """Version of the program that found it."""
    indigo_frac = models.FloatField(null=True, blank=True, validators=SHARE)
    """Indigo in the dry pigment, the middle; empty where no figure was told."""
    indigo_sd_frac = models.FloatField(null=True, blank=True, validators=DOUBT)
    at_most = models.BooleanField(default=False)
    """Whether it is only an upper bound."""

    class Meta:
        ordering = ["assayed_at", "made_at"]

    def __str__(self) -> str:
        return f"{self.get_method_display()} of {self.jar} at {self.assayed_at:%d %b %Y}"
