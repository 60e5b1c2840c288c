"""What goes with every answer, and what is refused before any page looks at it.

No page may fetch anything from elsewhere, run a script or take a style that isn't one of our own files, be shown in
another's frame, or use the phone's sensors. Bodies that are too large are read to their end and thrown away: a
browser shows an answer only once all it sent was taken.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from bluewright.web.access import MOST_TYPED_BYTES, at_home, typed_back

POLICY: Final = "; ".join((
    "default-src 'none'", "script-src 'self'", "style-src 'self'", "img-src 'self' data: blob:", "font-src 'self'",
    "connect-src 'self'", "manifest-src 'self'", "worker-src 'self'", "form-action 'self'", "base-uri 'none'",
    "frame-ancestors 'none'",
))  # fmt: skip
UNUSED: Final = "camera=(), microphone=(), geolocation=(), payment=(), usb=(), serial=()"
MOST_BODY_BYTES: Final = 130_000_000
"""Of one post: a whole garden in a file, or a dozen photos; the forms say their own, smaller limits."""
MOST_READ_BYTES: Final = 300_000_000
"""Up to here a body that is too large is answered in words; beyond, the server breaks off."""
PIECE_BYTES: Final = 1 << 20

Answer = Callable[[HttpRequest], HttpResponse]


def headers(answer: Answer) -> Answer:
    """Middleware that adds the headers; over https it keeps cookies from ever going over plain http."""

    def with_headers(request: HttpRequest) -> HttpResponse:
        response = answer(request)
        response.setdefault("Content-Security-Policy", POLICY)
        response.setdefault("Permissions-Policy", UNUSED)
        response.setdefault("Referrer-Policy", "same-origin")
        # At the machine no cookie tells the owner's own pages from a foreign one that shows our photos in itself.
        response.setdefault("Cross-Origin-Resource-Policy", "same-origin")
        if request.is_secure() or at_home(request):
            # Elsewhere over plain http browsers ignore it, and complain on every page.
            response.setdefault("Cross-Origin-Opener-Policy", "same-origin")
        if request.is_secure():
            for cookie in response.cookies.values():
                cookie["secure"] = True
        return response

    return with_headers


def limit_body(answer: Answer) -> Answer:
    """Middleware that refuses a body that is too large, in words."""

    def limited(request: HttpRequest) -> HttpResponse:
        length = int(request.META.get("CONTENT_LENGTH") or 0)
        stranger = request.standing.role == "stranger"  # type: ignore[attr-defined]
        if length <= (MOST_TYPED_BYTES if stranger else MOST_BODY_BYTES):
            return answer(request)
        while not stranger and request.read(PIECE_BYTES):
            pass
        if stranger:
            return render(request, "door/private.html", status=413)
        said = {"sent_mb": -(-length // 1_000_000), "most_mb": MOST_BODY_BYTES // 1_000_000}
        return render(request, "too_large.html", said, status=413)

    return limited


def stale(request: HttpRequest, reason: str = "") -> HttpResponse:  # noqa: ARG001 - Django names the reason
    """The answer to a post without its token: mostly a page that was open while somebody came in anew."""
    return render(request, "stale.html", {"typed": typed_back(request)}, status=403)
