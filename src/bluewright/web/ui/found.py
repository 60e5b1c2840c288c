"""The thing that an address names, or 404: in the open garden, whole."""

from __future__ import annotations

from uuid import UUID

from django.http import Http404, HttpRequest

from bluewright.journal.models import Batch, Garden, Measured, Piece, Trial
from bluewright.journal.queries import batches, measured, pieces, trials


def the_batch(garden: Garden, key: UUID) -> Batch:
    """The whole batch of that key in this garden; raises Http404 where there is none."""
    found = batches.batch(key, of=garden)
    if found is None:
        raise Http404("there is no such batch in this garden")
    return found


def the_piece(garden: Garden, key: UUID) -> Piece:
    """The piece of cloth of that key in this garden; raises Http404 where there is none."""
    found = pieces.piece(key, of=garden)
    if found is None:
        raise Http404("there is no such piece in this garden")
    return found


def the_trial(garden: Garden, key: UUID) -> Trial:
    """The trial of that key in this garden with its lots; raises Http404 where there is none."""
    found = trials.trial(key, of=garden)
    if found is None:
        raise Http404("there is no such trial in this garden")
    return found


def measured_sample(request: HttpRequest, garden: Garden) -> tuple[Measured, int] | None:
    """The measured photo that an address names, and which of its samples; None where it names none that there is."""
    try:
        key, number = UUID(request.GET.get("measured", "")), int(request.GET.get("sample", "0"))
    except ValueError:
        return None
    found = measured.one(key, of=garden)
    return (found, number) if found is not None and 0 <= number < len(found.answer["samples"]) else None
