"""The thing that an address names, or 404: in the open garden, whole."""

from __future__ import annotations

from uuid import UUID

from django.http import Http404

from bluewright.journal.models import Batch, Garden
from bluewright.journal.queries import batches


def the_batch(garden: Garden, key: UUID) -> Batch:
    """The whole batch of that key in this garden; raises Http404 where there is none."""
    found = batches.batch(key, of=garden)
    if found is None:
        raise Http404("there is no such batch in this garden")
    return found
