"""The season book: one page to read, two tables to take out."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.utils import timezone
from django.views.decorators.http import require_safe

from bluewright.journal.models import Garden
from bluewright.web.pages.book.export import batches_csv, looks_csv
from bluewright.web.pages.book.opened import opened
from bluewright.web.ui.respond import in_garden, shown
from bluewright.web.ui.table import bom_asked, table


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Every batch of a year, sorted as asked."""
    return shown(request, "book/index.html", opened(garden, request.GET, now=timezone.now()))


@require_safe
@in_garden
def csv(request: HttpRequest, garden: Garden) -> HttpResponseBase:
    """All batches of all years; with `?bom=yes` marked as UTF-8 for spreadsheet programs."""
    return table(garden, "batches", batches_csv(garden, bom=bom_asked(request)))


@require_safe
@in_garden
def looks(request: HttpRequest, garden: Garden) -> HttpResponseBase:
    """All looks at tubs and batches; with `?bom=yes` marked as UTF-8 for spreadsheet programs."""
    return table(garden, "looks", looks_csv(garden, bom=bom_asked(request)))
