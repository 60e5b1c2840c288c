"""Today: what wants doing, most urgent first, each with its one next action."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.views.decorators.http import require_safe

from bluewright.journal.models import Bed, Garden
from bluewright.web.pages.today.matters import all_matters
from bluewright.web.pages.today.page import today_page
from bluewright.web.ui.respond import in_garden, shown


@require_safe
@in_garden
def today(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What wants doing."""
    now = timezone.now()
    bare = not Bed.objects.filter(garden=garden).exists()
    page = today_page(all_matters(garden, now), now=timezone.localtime(now), bare=bare)
    return shown(request, "today/today.html", page)
