"""Threads."""

from __future__ import annotations

from typing import cast, get_args
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from bluewright.journal.models import Garden
from bluewright.journal.queries import threads
from bluewright.journal.queries.threads import Kind, Thing
from bluewright.web.pages.threads.page import thread_page
from bluewright.web.ui.found import or_404
from bluewright.web.ui.respond import in_garden, shown


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, kind: str, key: UUID) -> HttpResponse:
    """One thread, oldest first."""
    found = threads.thread(Thing(cast(Kind, kind), key), of=garden) if kind in get_args(Kind) else None
    thread = or_404(found, "thing in this garden")
    told = thread_page(thread, sources=threads.sources(thread, of=garden), of=garden)
    return shown(request, "threads/show.html", told)
