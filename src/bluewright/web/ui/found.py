"""The thing that an address names, or 404: in the open garden, whole."""

from __future__ import annotations

from typing import TypeVar
from uuid import UUID

from django.http import Http404, HttpRequest

from bluewright.journal.models import Batch, Bed, Garden, Jar, Measured, Photo, Piece, Swatch, Trial
from bluewright.journal.queries import batches, gardens, jars, measured, photos, pieces, swatches, trials

T = TypeVar("T")


def or_404(row: T | None, what: str) -> T:
    """The row that was looked for; raises Http404 where there is none, of `what` (`dish of this batch`)."""
    if row is None:
        raise Http404(f"there is no such {what}")
    return row


def the_batch(garden: Garden, key: UUID) -> Batch:
    """The whole batch of that key in this garden; raises Http404 where there is none."""
    return or_404(batches.batch(key, of=garden), "batch in this garden")


def the_bed(garden: Garden, key: UUID) -> Bed:
    """The bed of that key in this garden; raises Http404 where there is none."""
    return or_404(gardens.bed(key, of=garden), "bed in this garden")


def the_jar(garden: Garden, key: UUID) -> Jar:
    """The jar of that key in this garden; raises Http404 where there is none."""
    return or_404(jars.jar(key, of=garden), "jar in this garden")


def the_photo(garden: Garden, key: UUID) -> Photo:
    """The photo of that key in this garden; raises Http404 where there is none."""
    return or_404(photos.photo(key, of=garden), "photo in this garden")


def the_piece(garden: Garden, key: UUID) -> Piece:
    """The piece of cloth of that key in this garden; raises Http404 where there is none."""
    return or_404(pieces.piece(key, of=garden), "piece in this garden")


def the_swatch(garden: Garden, key: UUID) -> Swatch:
    """The swatch of that key in this garden; raises Http404 where there is none."""
    return or_404(swatches.swatch(key, of=garden), "swatch in this garden")


def the_trial(garden: Garden, key: UUID) -> Trial:
    """The trial of that key in this garden with its lots; raises Http404 where there is none."""
    return or_404(trials.trial(key, of=garden), "trial in this garden")


def measured_sample(request: HttpRequest, garden: Garden) -> tuple[Measured, int] | None:
    """The measured photo that an address names, and which of its samples; None where it names none that there is."""
    try:
        key, number = UUID(request.GET.get("measured", "")), int(request.GET.get("sample", "0"))
    except ValueError:
        return None
    found = measured.one(key, of=garden)
    return (found, number) if found is not None and 0 <= number < len(found.answer["samples"]) else None
