"""Threads."""

from __future__ import annotations

from typing import cast, get_args
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from bluewright.journal.models import Garden
from bluewright.journal.queries import threads
from bluewright.journal.queries.threads import Kind, Thing
from bluewright.web.pages.threads.page import thread_page
from bluewright.web.ui.respond import in_garden, shown


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, kind: str, key: UUID) -> HttpResponse:
    """One thread, oldest first."""
    found = threads.thread(Thing(cast(Kind, kind), key), of=garden) if kind in get_args(Kind) else None
    if found is None:
        raise Http404("there is nothing of that key in this garden")
    told = thread_page(found, sources=threads.sources(found, of=garden), of=garden)
    return shown(request, "threads/show.html", told)
