"""Who is asking. Whoever sits at this machine is the garden's owner; a phone in the house comes in by the door link.

The door link holds a key that is made once and kept in the garden's folder; opening it lets that browser in until the
key is changed (delete `door.key` and start anew). Everybody else is told to ask for the link.
"""

from __future__ import annotations

import secrets
from collections.abc import Callable
from ipaddress import ip_address

from django.conf import settings
from django.contrib.auth import get_user_model
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render

OWNER = "owner"
DOOR = "door_key"


def owner_at_home(answer: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """Middleware: at home or let in, the asker is the owner; others see the way to the door only."""

    def as_owner(request: HttpRequest) -> HttpResponse:
        if not (at_home(request) or let_in(request) or request.path.startswith(("/door/", "/static/"))):
            return render(request, "door.html", status=403)
        request.user, _ = get_user_model().objects.get_or_create(username=OWNER)
        return answer(request)

    return as_owner


def at_home(request: HttpRequest) -> bool:
    """Whether the request comes from this machine."""
    try:
        return ip_address(request.META["REMOTE_ADDR"]).is_loopback
    except (KeyError, ValueError):
        return False


def let_in(request: HttpRequest) -> bool:
    """Whether this browser came in by the door link."""
    return fits(request.session.get(DOOR, ""))


def fits(key: str) -> bool:
    """Whether a key is the door's, compared in a time that tells nothing."""
    return secrets.compare_digest(key.encode(), settings.DOOR_KEY.encode())


def door(request: HttpRequest, key: str) -> HttpResponse:
    """The door link: a right key lets this browser in."""
    if not fits(key):
        return render(request, "door.html", status=403)
    request.session[DOOR] = key
    return redirect("today")
