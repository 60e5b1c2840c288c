"""Who is asking. The server listens on this machine alone: whoever sits at it is the garden's owner."""

from __future__ import annotations

from collections.abc import Callable

from django.contrib.auth import get_user_model
from django.http import HttpRequest, HttpResponse

OWNER = "owner"


def owner_at_home(answer: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """Middleware: the asker is the owner, made at the first request."""

    def as_owner(request: HttpRequest) -> HttpResponse:
        request.user, _ = get_user_model().objects.get_or_create(username=OWNER)
        return answer(request)

    return as_owner
