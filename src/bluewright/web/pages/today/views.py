"""Today: what wants doing, most urgent first, each with its one next action."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.views.decorators.http import require_safe

from bluewright.journal.bridge import calls
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.models import Garden
from bluewright.journal.queries import gardens, tubs
from bluewright.science.base.errors import BluewrightError
from bluewright.web.pages.today.page import Matter, today_page, tub_matter
from bluewright.web.ui.respond import in_garden, shown


@require_safe
@in_garden
def today(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What wants doing."""
    now = timezone.now()
    matters: list[Matter] = []
    steeping = list(tubs.steeping(garden))
    air = tubs.air_by_tub(garden, steeping)
    for steep in steeping:
        try:
            record = steep_record(steep, air=air[steep.pk], now=now)
            matters.append(tub_matter(steep, calls.strain_call(steep.pk, record), trouble=""))
        except BluewrightError as error:
            matters.append(tub_matter(steep, None, trouble=str(error)))
    waiting = [p for p in gardens.pickings(garden) if not p.went_into.all()]
    return shown(request, "today/today.html", today_page(matters, waiting=waiting, now=timezone.localtime(now)))
