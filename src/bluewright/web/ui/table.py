"""A table for other programs, as a file to be kept."""

from __future__ import annotations

from collections.abc import Iterator

from django.http import HttpRequest, StreamingHttpResponse
from django.utils import timezone
from django.utils.text import slugify

from bluewright.journal.models import Garden


def bom_asked(request: HttpRequest) -> bool:
    """Whether it is to be marked as UTF-8 for spreadsheet programs."""
    return request.GET.get("bom") == "yes"


def table(garden: Garden, what: str, parts: Iterator[str]) -> StreamingHttpResponse:
    """CSV text in parts as a file, named by garden, what it holds and the day."""
    response = StreamingHttpResponse(parts, content_type="text/csv; charset=utf-8; header=present")
    name = f"{slugify(garden.name) or 'garden'}-{what}-{timezone.localdate():%Y-%m-%d}.csv"
    response["Content-Disposition"] = f'attachment; filename="{name}"'
    return response
