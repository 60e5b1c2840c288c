"""Costs: a season read and reckoned, work written down, prices."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final
from uuid import UUID
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.bridge import costs as bridge
from bluewright.journal.models import Garden, WorkNote
from bluewright.journal.queries import book, work
from bluewright.journal.queries.history import histories
from bluewright.science.cost.cost_record import CostAnswer
from bluewright.web.pages.book.asked import candidate_years, span
from bluewright.web.pages.costs.export import costs_csv
from bluewright.web.pages.costs.forms import NoteForm, PricesForm, StartForm, as_typed
from bluewright.web.pages.costs.page import costs_page
from bluewright.web.ui.history import history, written
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.table import bom_asked, table
from bluewright.web.ui.turning import Linked
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.cost import spent_said

PAGES: Final = {
    "batch": "batches.show", "tub": "tubs.show", "bed": "beds.show", "vat": "vats.show", "piece": "cloth.show",
}  # fmt: skip
"""Pages from which work is noted, by what stands before a key in `?of=`."""


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What the blue of a year costs, and the work that was written down."""
    return _shown(request, garden)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, year: int, figure: str) -> HttpResponse:
    """Why a figure of a year's costs is so; a year without batch or note has none."""
    if year not in _years(garden):
        raise Http404
    return why_shown(
        request, _reckoned(garden, year)[0], figure=figure, address=why_address("costs.why", year=year),
        back=Link(to=f"{reverse('costs.index')}?year={year}", name=_("Costs %(year)d") % {"year": year}),
        missing=_("No batch was begun in that year."),
    )  # fmt: skip


@require_safe
@in_garden
def csv(request: HttpRequest, garden: Garden) -> HttpResponseBase:
    """Each batch of the year with what it took; with `?bom=yes` marked as UTF-8 for spreadsheet programs."""
    year = _year(request, _years(garden))
    return table(garden, f"costs-{year}", costs_csv(_reckoned(garden, year)[0], bom=bom_asked(request)))


@require_POST
@in_garden
def note(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Write down work that is done."""
    form = NoteForm(request.POST, garden=garden)
    if not form.is_valid():
        return _shown(request, garden, form=form, status=422)
    row = keep(form.row(), by=request.user)
    told = {"what": row.what, "spent": row.spent_typed}
    messages.success(request, _("Written down: %(what)s, %(spent)s.") % told, extra_tags=_undo(row))
    return _back(request)


@require_POST
@in_garden
def start(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Start a clock; it runs on the machine that keeps the garden, whatever becomes of this page."""
    form = StartForm(request.POST, garden=garden, auto_id="start_%s")
    if not form.is_valid():
        return _shown(request, garden, start=form, status=422)
    row = keep(form.row(), by=request.user)
    messages.success(request, _("The clock runs: %(what)s.") % {"what": row.what}, extra_tags=_undo(row))
    return _back(request)


@require_POST
@in_garden
def stop(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Stop a clock; one that was stopped already stays as it is."""
    row = get_object_or_404(WorkNote, pk=key, garden=garden)
    if row.spent_min is None:
        row.spent_min = max(round((timezone.now() - row.began_at).total_seconds() / 60, 1), 0.0)
        keep(row, by=request.user)
        told = {"what": row.what, "spent": spent_said(row.spent_min)}
        messages.success(request, _("Written down: %(what)s, %(spent)s.") % told, extra_tags=_undo(row))
    return redirect("costs.index")


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Correct a note whose clock has stopped: its kind, minutes, moment, what it was for."""
    row = get_object_or_404(WorkNote, pk=key, garden=garden, spent_min__isnull=False)
    form = NoteForm(posted(request), garden=garden, initial=as_typed(row))
    if request.method == "POST" and form.is_valid():
        correct(form.corrected(row), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("costs.index")
    zone = ZoneInfo(garden.time_zone)
    before = history(row, histories([row]).get(row.pk, ()), zone)
    context = {"form": form, "before": before, "written": written(row, zone)}
    return render(request, "costs/change.html", context, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a note out."""
    row = get_object_or_404(WorkNote, pk=key, garden=garden)
    taken_out(request, row, said=_("Taken out."), undo=reverse("costs.restore", kwargs={"key": key}))
    return redirect("costs.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a note back."""
    brought_back(request, get_object_or_404(WorkNote.everything, pk=key, garden=garden))
    return redirect("costs.index")


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def prices(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What work, water and blue cost."""
    form = PricesForm(posted(request), garden=garden)
    if request.method == "POST" and form.is_valid():
        correct(form.write(), by=request.user)
        messages.success(request, _("The prices are written down."))
        return redirect("costs.index")
    return render(request, "costs/prices.html", {"form": form}, status=422 if form.errors else 200)


def _back(request: HttpRequest) -> HttpResponse:
    """To the page of the thing that the work was noted from; else to the costs."""
    what, _colon, key = request.POST.get("back", "").partition(":")
    try:
        return redirect(PAGES[what], key=UUID(key))
    except (KeyError, ValueError):
        return redirect("costs.index")


def _undo(row: WorkNote) -> str:
    return reverse("costs.delete", kwargs={"key": row.pk})


def _years(garden: Garden) -> list[int]:
    """The years of batches and of notes, and the present one."""
    zone = ZoneInfo(garden.time_zone)
    years = {timezone.localdate().year, *(time.astimezone(zone).year for time in work.first_and_last(garden))}
    return sorted({*years, *candidate_years(book.first_and_last(garden), zone)}, reverse=True)


def _year(request: HttpRequest, years: Sequence[int]) -> int:
    """The year that is asked for; else the last with a batch or a note, which stands first after this one."""
    return next((year for year in years if str(year) == request.GET.get("year")), years[0])


def _reckoned(garden: Garden, year: int) -> tuple[CostAnswer | None, int]:
    """What a year costs, and how many batches are left out of it."""
    found = bridge.season(garden, span(year, ZoneInfo(garden.time_zone)))
    return (None, 0) if found is None else (bridge.reckoned(found.record), found.left_out)


def _shown(
    request: HttpRequest, garden: Garden, *, form: NoteForm | None = None, start: StartForm | None = None,
    status: int = 200,
) -> HttpResponse:  # fmt: skip
    years = _years(garden)
    year = _year(request, years)
    answer, left_out = _reckoned(garden, year)
    figure = "cost_money_per_g" if answer is not None and answer.cost_money_per_g is not None else "work_h"
    why_to = Link(to=reverse("costs.why", kwargs={"year": year, "figure": figure}), name=_("this"))
    page = costs_page(
        garden, year=year, answer=answer, left_out=left_out, why=None if answer is None else why_to,
        years=[Linked(name=str(one), href="" if one == year else f"?year={one}") for one in years if len(years) > 1],
        notes=work.notes(garden, span(year, ZoneInfo(garden.time_zone))), running=work.running(garden),
        now=timezone.now(),
    )  # fmt: skip
    about = request.GET.get("of", "") or request.POST.get("back", "")
    first = {"kind": "dyeing" if about.startswith(("vat:", "piece:")) else "picking"} | (
        {"about": about} if about else {}
    )
    form = form or NoteForm(garden=garden, initial={"began_at": timezone.localtime(), **first})
    return shown(
        request, "costs/index.html", page, status=status, form=form, about=about,
        start=start or StartForm(garden=garden, auto_id="start_%s", initial=first),
    )  # fmt: skip
