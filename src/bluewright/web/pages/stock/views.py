"""Stock: jars and cupboard read and reckoned."""

from __future__ import annotations

from zoneinfo import ZoneInfo

from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from bluewright.journal.bridge import gone
from bluewright.journal.bridge.cupboard import cupboard
from bluewright.journal.models import Garden
from bluewright.journal.queries import jars, kept, supplies
from bluewright.web.pages.jars.reckoning import unknown_said
from bluewright.web.pages.stock.export import stock_csv
from bluewright.web.pages.stock.page import held, stock_room
from bluewright.web.pages.vats.kept import known_vats
from bluewright.web.ui.respond import in_garden, shown
from bluewright.web.ui.table import bom_asked, table
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown

MAIN = "alkalis"


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What is left in jars and cupboard."""
    shelf = cupboard(garden, today=timezone.localdate())
    why_to = Link(to=reverse("stock.why", kwargs={"figure": MAIN}), name=_("what is left of the alkali"))
    holding = held(kept.held_jars(garden))
    page = stock_room(
        garden, holding=holding, before=gone.before(garden), unknown=unknown_said(garden, holding),
        vats=known_vats(garden, timezone.now()), shelf=shelf, supplies=supplies.left(garden), why=why_to,
    )  # fmt: skip
    return shown(request, "stock/index.html", page)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, figure: str) -> HttpResponse:
    """Why a figure of the cupboard is so."""
    return why_shown(
        request, cupboard(garden, today=timezone.localdate()).answer, figure=figure, address=why_address("stock.why"),
        back=Link(to=reverse("stock.index"), name=_("Stock")), missing=_("Of no alkali is it known what a pack holds."),
    )  # fmt: skip


@require_safe
@in_garden
def csv(request: HttpRequest, garden: Garden) -> HttpResponseBase:
    """All jars with what is left; with `?bom=yes` marked as UTF-8 for spreadsheet programs."""
    rows = stock_csv(list(jars.jars(garden)), zone=ZoneInfo(garden.time_zone), bom=bom_asked(request))
    return table(garden, "stock", rows)
