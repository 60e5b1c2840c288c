"""No page may fetch anything from elsewhere: said to the browser with each answer."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

POLICY = "default-src 'self'; img-src 'self' data:; style-src 'self' 'unsafe-inline'; frame-ancestors 'none'"


def content_policy(answer: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """Middleware that adds the policy."""

    def with_policy(request: HttpRequest) -> HttpResponse:
        response = answer(request)
        response.setdefault("Content-Security-Policy", POLICY)
        response.setdefault("Referrer-Policy", "same-origin")
        return response

    return with_policy
