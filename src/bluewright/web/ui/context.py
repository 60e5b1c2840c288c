"""What every page has: the garden that is open, and who asks."""

from __future__ import annotations

from typing import Any

from django.http import HttpRequest

from bluewright.journal.models import Garden
from bluewright.journal.queries import gardens
from bluewright.journal.queries.taken_out import taken_out_lately

OPEN_GARDEN = "open_garden"


def standing(request: HttpRequest) -> dict[str, Any]:
    """Who asks and what they may do: `me`, `can_write`, `is_owner`; what they may not do is not shown to them."""
    me = getattr(request, "standing", None)
    return {"me": me, "can_write": bool(me and me.can_write), "is_owner": bool(me and me.is_owner)}


def garden(request: HttpRequest) -> dict[str, Any]:
    """The open garden, for the head of each page; strangers are told of none."""
    me = getattr(request, "standing", None)
    if me is None or me.role == "stranger":
        return {"garden": None}
    return {"garden": open_garden(request), "taken_out_lately": taken_out_lately}


def open_garden(request: HttpRequest) -> Garden | None:
    """The garden that this browser has open: the chosen one, or the oldest; None before the first."""
    if not hasattr(request, "_open_garden"):
        request._open_garden = gardens.garden(request.session.get(OPEN_GARDEN))  # type: ignore[attr-defined]
    found: Garden | None = request._open_garden  # type: ignore[attr-defined]
    return found
