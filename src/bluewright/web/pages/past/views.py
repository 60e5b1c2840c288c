"""What grew in a bed: its page, and a year of it."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions.keeping import correct
from bluewright.journal.models import Bed, BedPast, Garden
from bluewright.journal.queries import growing as queries
from bluewright.journal.queries.history import histories
from bluewright.web.pages.past.forms import YearForm, as_typed, new_year, write_year
from bluewright.web.pages.past.page import answer_now, past_page
from bluewright.web.ui.found import the_bed
from bluewright.web.ui.of_bed import OfBed
from bluewright.web.ui.respond import in_garden, posted, shown

YEARS = OfBed(BedPast, "past")


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """What grew in the bed, and whether its plant may follow."""
    return _shown(request, the_bed(garden, key))


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the rotation is so."""
    bed = the_bed(garden, key)
    found = answer_now(bed, today=timezone.localdate())
    answer = None if found.spores_left_frac is None else found
    missing = _("Nothing of the cabbage family stood in this bed before.")
    return YEARS.why(request, bed, answer, figure=figure, missing=missing)


@require_POST
@in_garden
def year(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Write down what grew in a year."""
    bed = the_bed(garden, key)
    form = YearForm(request.POST)
    if not form.is_valid():
        return _shown(request, bed, form=form, status=422)
    return YEARS.written(request, new_year(form, bed=bed))


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Correct what was written of a year."""
    bed = the_bed(garden, key)
    found = get_object_or_404(BedPast, pk=row, bed=bed)
    form = YearForm(posted(request), initial=as_typed(found))
    if request.method == "POST" and form.is_valid():
        correct(write_year(form, found), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("past.show", key=key)
    context = {"form": form, "bed": bed}
    return render(request, "past/change.html", context, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a year out."""
    return YEARS.out(request, garden, key, row)


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a year back."""
    return YEARS.back(request, garden, key, row)


def _shown(request: HttpRequest, bed: Bed, *, form: YearForm | None = None, status: int = 200) -> HttpResponse:
    rows, today = queries.past(bed), timezone.localdate()
    page = past_page(bed, rows=rows, steps=histories(rows), today=today)
    form = form or YearForm(initial={"year": today.year - 1})
    return shown(request, "past/show.html", page, status=status, form=form)
