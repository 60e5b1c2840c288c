"""The story of a piece, to hand to a buyer or a class."""

from __future__ import annotations

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from bluewright.journal.models import Garden
from bluewright.web.pages.cloth.telling import told_story
from bluewright.web.ui.respond import in_garden, shown


@require_safe
@in_garden
def story(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """From the bed to the cloth, with its colour, home tests, care, and what nobody knows."""
    return shown(request, "cloth/story.html", told_story(request, garden, key))
