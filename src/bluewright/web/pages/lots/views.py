"""Lots: the jars and the job are read, the mix is reckoned."""

from __future__ import annotations

from collections.abc import Sequence
from urllib.parse import urlencode

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from bluewright.journal.bridge import lots as bridge
from bluewright.journal.models import Garden
from bluewright.science.base.errors import BluewrightError
from bluewright.science.dyeing.lots_record import LotsAnswer, LotsRecord
from bluewright.web.pages.lots.forms import FIRST, LotsForm
from bluewright.web.pages.lots.page import lots_page
from bluewright.web.ui.respond import in_garden, shown
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.own_text import own_text


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Which jars go together for a job."""
    shelf, jobs = bridge.shelf(garden), bridge.jobs(garden, today=timezone.localdate())
    form, found, trouble = _answer(request, shelf, jobs)
    asked = form.is_bound and form.is_valid()
    volume, vat = (form.cleaned_data["volume"].value, form.vat()) if asked else (40.0, {})
    why_to = Link(to=why_address("lots.why")("pure_g") + _query(request), name=_("the mix"))
    page = lots_page(found, shelf=shelf, jobs=jobs, volume_l=volume, vat=vat, trouble=trouble, why=why_to)
    return shown(request, "lots/index.html", page, form=form, status=422 if form.errors else 200)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, figure: str) -> HttpResponse:
    """Why a figure of the mix is so."""
    shelf, jobs = bridge.shelf(garden), bridge.jobs(garden, today=timezone.localdate())
    query = _query(request)
    return why_shown(
        request, _answer(request, shelf, jobs)[1], figure=figure,
        address=lambda path: why_address("lots.why")(path) + query,
        back=Link(to=reverse("lots.index") + query, name=_("Which jars to mix")),
        missing=_("There is no job, or no jar for it, now."),
    )  # fmt: skip


def _answer(
    request: HttpRequest, shelf: bridge.Shelf, jobs: Sequence[bridge.Job]
) -> tuple[LotsForm, LotsAnswer | None, str]:
    """The form, the mix, and why there is none."""
    own = {name: value for name, value in request.GET.items() if name != "as"}
    first = FIRST | ({"job": jobs[0].key} if jobs and not own.get("pure_g") else {})
    form = LotsForm({**first, **own} if own or jobs else None, initial=FIRST, jobs=jobs)
    if not form.is_bound or not form.is_valid():
        return form, None, ""
    if not shelf.known:
        return form, None, _("No jar holds pigment whose indigo is known: assay one first.")
    typed = form.cleaned_data
    try:
        record = LotsRecord(
            id=form.name(), jars=shelf.known, pure_g=form.needs_g(), most_jars=typed["most_jars"],
            wanted_purity_frac=typed["purity_pct"] / 100 if typed["purity_pct"] else None,
            oldest_first=typed["oldest_first"],
        )  # fmt: skip
        return form, bridge.mixed(record), ""
    except BluewrightError as error:
        return form, None, own_text(f"{error}.")


def _query(request: HttpRequest) -> str:
    """What this page's address asks."""
    query = urlencode([(name, value) for name, value in request.GET.items() if name != "as"])
    return f"?{query}" if query else ""
