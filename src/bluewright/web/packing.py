"""Pages go over the air packed (gzip), where the browser can unpack them: docs/decisions/pages-sent-packed.md."""

from __future__ import annotations

from typing import Final

from django.http import HttpRequest
from django.http.response import HttpResponseBase
from django.middleware.gzip import GZipMiddleware

TEXTS: Final = ("text/", "application/json", "application/javascript", "image/svg+xml")
"""What gets smaller by it; photos and PDFs are packed already."""


class Packed(GZipMiddleware):
    """Middleware that packs whole answers of text; a part of a file that was asked for stays as it is."""

    def process_response(self, request: HttpRequest, response: HttpResponseBase) -> HttpResponseBase:
        """The answer, packed if that is worth it."""
        text = response.get("Content-Type", "").startswith(TEXTS)
        if not text or response.status_code == 206:
            return response
        packed: HttpResponseBase = super().process_response(request, response)
        return packed
