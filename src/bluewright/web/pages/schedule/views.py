"""The schedule of the season: shown, reckoned beside the pages, and what limits it."""

from __future__ import annotations

from datetime import date
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.bridge import scheduling
from bluewright.journal.models import DaysAway, Garden, Limits
from bluewright.journal.queries import schedules as queries
from bluewright.web import replanning
from bluewright.web.aside import ASIDE
from bluewright.web.pages.schedule.forms import AwayForm, LimitsForm, as_typed, new_away, write_limits
from bluewright.web.pages.schedule.page import schedule_page
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.works import titled


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """The schedule as it was reckoned last."""
    return _shown(request, garden)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, figure: str) -> HttpResponse:
    """Why a figure of the schedule is so."""
    row = queries.latest_found(garden)
    return why_shown(
        request, None if row is None else scheduling.answer_of(row), figure=figure, address=why_address("schedule.why"),
        back=Link(to=reverse("schedule.index"), name=_("The season's schedule")),
        missing=_("Nothing is planned yet."),
    )  # fmt: skip


@require_POST
@in_garden
def again(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Reckon the schedule anew: beside the pages where a server runs, else at once, roughly."""
    user = request.user
    if not ASIDE.ask(_key(garden), lambda: _reckon(garden, user)) and not ASIDE.waits(_key(garden)):
        scheduling.reckon(garden, by=user, quick=True)
    return redirect("schedule.index")


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def limits(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Tubs, hours, room to dry."""
    row = queries.limits(garden)
    form = LimitsForm(posted(request), garden=garden, initial=as_typed(row))
    if request.method == "POST" and form.is_valid():
        made = write_limits(form, row or Limits(garden=garden))
        (keep if row is None else correct)(made, by=request.user)
        messages.success(request, _("Written down."))
        return redirect("schedule.index")
    return render(request, "schedule/limits.html", {"form": form}, status=422 if form.errors else 200)


@require_POST
@in_garden
def away(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Days on which nothing can be done."""
    form = AwayForm(request.POST)
    if not form.is_valid():
        return _shown(request, garden, form=form, status=422)
    made = keep(new_away(form, garden=garden), by=request.user)
    messages.success(request, _("Written down."), extra_tags=reverse("schedule.delete", kwargs={"row": made.pk}))
    return redirect("schedule.index")


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, row: UUID) -> HttpResponse:
    """Take days away out."""
    found = get_object_or_404(DaysAway, pk=row, garden=garden)
    taken_out(request, found, said=_("Taken out."), undo=reverse("schedule.restore", kwargs={"row": row}))
    return redirect("schedule.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, row: UUID) -> HttpResponse:
    """Bring days away back."""
    brought_back(request, get_object_or_404(DaysAway.everything, pk=row, garden=garden))
    return redirect("schedule.index")


@require_safe
@in_garden
def calendar(request: HttpRequest, garden: Garden) -> HttpResponse:  # noqa: ARG001 - needs an open garden
    """The schedule as a calendar file."""
    from bluewright.words.calendar import calendar as written  # noqa: PLC0415 - its library loads when it is asked for

    row = queries.latest_found(garden)
    answer = None if row is None else scheduling.answer_of(row)
    if row is None or answer is None:
        raise Http404("nothing is planned yet")
    gone = [(one["key"], date.fromisoformat(one["on"]), titled(one["kind"], one["of"])) for one in row.gone]
    made = written(answer, made_at=row.reckoned_at, name=garden.name, gone=gone)
    response = HttpResponse(made, content_type="text/calendar")
    response["Content-Disposition"] = 'attachment; filename="season.ics"'
    return response


def _key(garden: Garden) -> tuple[str, UUID]:
    return "schedule", garden.pk


def _reckon(garden: Garden, user: object) -> None:
    with timezone.override(garden.time_zone):
        scheduling.reckon(garden, by=user)


def _shown(request: HttpRequest, garden: Garden, *, form: AwayForm | None = None, status: int = 200) -> HttpResponse:
    today, row = timezone.localdate(), queries.latest(garden)
    found = row if row is not None and row.answer else queries.latest_found(garden)
    page = schedule_page(
        garden, row=row, answer=None if found is None else scheduling.answer_of(found), limits=queries.limits(garden),
        away=[one for one in queries.away(garden) if one.last >= today], marks=queries.rests_on(garden, today=today),
        today=today, seeking=ASIDE.waits(_key(garden)), follows=ASIDE.waits(replanning.SOON),
    )  # fmt: skip
    return shown(request, "schedule/index.html", page, status=status, form=form or AwayForm())
