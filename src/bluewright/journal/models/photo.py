"""Photos of what the journal holds."""

from __future__ import annotations

import secrets

from django.core.validators import MaxValueValidator, MinValueValidator, RegexValidator
from django.db import models

from bluewright.journal.models.garden import Garden
from bluewright.journal.models.kept import Kept


def new_name() -> str:
    """A name for a photo's files that nobody can guess."""
    return secrets.token_hex(16)


def _px() -> models.PositiveIntegerField[int, int]:
    return models.PositiveIntegerField(validators=[MinValueValidator(1), MaxValueValidator(100_000)])


class Photo(Kept):
    """A photo of one row of the journal; its pictures are files beside the database."""

    garden = models.ForeignKey(Garden, models.CASCADE, related_name="photos")
    about_kind = models.CharField(max_length=20)
    """What it is of: a word of `photos.kinds.KINDS`."""
    about_id = models.UUIDField()
    taken_at = models.DateTimeField()
    width_px = _px()
    """Of the photo as it was sent, upright."""
    height_px = _px()
    sha256 = models.CharField(max_length=64, validators=[RegexValidator(r"^[0-9a-f]{64}$")])
    """Of the bytes as they were sent."""
    name = models.CharField(
        max_length=32, unique=True, default=new_name, validators=[RegexValidator(r"^[0-9a-f]{32}$")]
    )
    """Of its files, without size and ending."""
    original_ending = models.CharField(
        max_length=4, choices=[("jpg", "jpg"), ("png", "png"), ("webp", "webp")], blank=True
    )
    """Of the file with the original pixels; empty where they are not here."""
    original_bytes = models.PositiveIntegerField(default=0)
    shown_bytes = models.PositiveIntegerField(default=0)
    thumb_bytes = models.PositiveIntegerField(default=0)

    class Meta:
        ordering = ["taken_at", "made_at"]
        indexes = [
            models.Index(fields=["about_kind", "about_id"]),
            models.Index(fields=["garden", "about_kind"]),
        ]

    def __str__(self) -> str:
        return f"photo of a {self.about_kind}"
