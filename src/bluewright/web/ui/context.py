"""What every page has: the garden that is open."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest

from bluewright.journal.models import Garden
from bluewright.journal.queries import gardens

OPEN_GARDEN = "open_garden"


def garden(request: HttpRequest) -> dict[str, Any]:
    """The open garden, for the head of each page."""
    return {"garden": open_garden(request)}


def open_garden(request: HttpRequest) -> Garden | None:
    """The garden that this browser has open: the chosen one, or the oldest; None before the first."""
    if not hasattr(request, "_open_garden"):
        request._open_garden = gardens.garden(request.session.get(OPEN_GARDEN))  # type: ignore[attr-defined]
    found: Garden | None = request._open_garden  # type: ignore[attr-defined]
    return found
