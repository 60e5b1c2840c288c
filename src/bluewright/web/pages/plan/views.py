"""The plan and its wants."""

from __future__ import annotations

from typing import Final
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.bridge import outlooks, planning, scheduling
from bluewright.journal.models import Garden, Want
from bluewright.journal.models.want import STATES
from bluewright.journal.queries import plan as queries
from bluewright.journal.queries import schedules
from bluewright.journal.queries.history import histories
from bluewright.web.aside import ASIDE
from bluewright.web.pages.plan.forms import FORMS, BasisForm, as_typed, basis_as_typed, write_basis, write_want
from bluewright.web.pages.plan.found import plan_found
from bluewright.web.pages.plan.page import plan_page, want_page
from bluewright.web.ui.found import or_404
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown

ADD: Final = {"cloth": "plan/add_cloth.html", "pigment": "plan/add_pigment.html"}


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """What the wants take, what matters most, the days back."""
    answer, trouble = plan_found(garden)
    waits = _foretell(garden)
    row = schedules.latest_found(garden)
    page = plan_page(
        garden,
        answer=answer,
        trouble=trouble,
        wants=queries.wants(garden),
        unknown=planning.not_measured(garden),
        waits=waits,
        today=timezone.localdate(),
        season=None if row is None else scheduling.answer_of(row),
    )
    return shown(request, "plan/index.html", page)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, figure: str) -> HttpResponse:
    """Why a figure of the plan is so."""
    return why_shown(
        request, plan_found(garden)[0], figure=figure, address=why_address("plan.why"),
        back=Link(to=reverse("plan.index"), name=_("Plan")), missing=_("There is nothing to plan yet."),
    )  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def basis(request: HttpRequest, garden: Garden) -> HttpResponse:
    """How the garden works, as far as a plan depends on it."""
    row = queries.basis(garden)
    form = BasisForm(posted(request), initial=basis_as_typed(row))
    if request.method == "POST" and form.is_valid():
        is_new = row._state.adding
        (keep if is_new else correct)(write_basis(form, row), by=request.user)
        messages.success(request, _("Written down."))
        return redirect("plan.index")
    return render(request, "plan/basis.html", {"form": form}, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden, what: str) -> HttpResponse:
    """A new want."""
    if what not in FORMS:
        raise Http404("there is no such kind of want")
    form = FORMS[what](posted(request))
    if request.method == "POST" and form.is_valid():
        row = keep(write_want(form, Want(garden=garden, what=what)), by=request.user)
        undo = reverse("plan.delete", kwargs={"key": row.pk})
        messages.success(request, _("%(what)s is written down.") % {"what": row.name}, extra_tags=undo)
        return redirect("plan.index")
    return render(request, ADD[what], {"form": form}, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One want: what it takes, its days, what was written of it."""
    row = _want(garden, key)
    answer, _trouble = plan_found(garden)
    return shown(
        request,
        "plan/show.html",
        want_page(row, answer=answer, steps=histories([row])[row.pk], today=timezone.localdate()),
    )


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Correct a want."""
    row = _want(garden, key)
    form = FORMS[row.what](posted(request), initial=as_typed(row))
    if request.method == "POST" and form.is_valid():
        correct(write_want(form, row), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("plan.show", key=key)
    return render(request, "plan/change.html", {"form": form, "want": row}, status=422 if form.errors else 200)


@require_POST
@in_garden
def mark(request: HttpRequest, garden: Garden, key: UUID, state: str) -> HttpResponse:
    """Say that a want is done, dropped, or wanted again."""
    row = _want(garden, key)
    if state not in dict(STATES):
        raise Http404("there is no such state")
    undo = reverse("plan.mark", kwargs={"key": key, "state": row.state})
    row.state = state
    correct(row, by=request.user)
    said = _("%(what)s: %(state)s.") % {"what": row.name, "state": row.get_state_display()}
    messages.success(request, said, extra_tags=undo)
    return redirect("plan.index")


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a want out."""
    row = _want(garden, key)
    said = _("%(what)s is taken out.") % {"what": row.name}
    taken_out(request, row, said=said, undo=reverse("plan.restore", kwargs={"key": key}))
    return redirect("plan.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a want back."""
    row = get_object_or_404(Want.everything, pk=key, garden=garden)
    return redirect("plan.show", key=key) if brought_back(request, row) else redirect("plan.index")


def _foretell(garden: Garden) -> bool:
    """Whether forecasts of beds are still missing; they are then worked out beside the pages."""
    today = timezone.localdate()
    missing = bool(outlooks.kept(garden, today=today).missing)
    if missing:
        ASIDE.ask(garden.pk, lambda: outlooks.reckon(garden, today=today))
    return missing


def _want(garden: Garden, key: UUID) -> Want:
    return or_404(queries.want(key, of=garden), "want in this garden")
