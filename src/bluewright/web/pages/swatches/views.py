"""Swatches."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.bridge import swatches as bridge
from bluewright.journal.models import Garden, Swatch
from bluewright.journal.models.swatch import FIBRES
from bluewright.journal.queries import photos, swatches
from bluewright.journal.queries.history import histories
from bluewright.science.colour.compare_record import CompareAnswer
from bluewright.web.pages.swatches.forms import CompareForm, SwatchForm, as_typed, brought, brought_from, write_swatch
from bluewright.web.pages.swatches.page import compare_page, swatch_page, swatches_page
from bluewright.web.ui.found import measured_sample, the_swatch
from bluewright.web.ui.photos import keep_photos, sent_files, thumbs
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.turning import turned
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """The library, all of it or of one fibre."""
    fibre = request.GET.get("fibre", "")
    found = swatches.swatches(garden)
    if fibre in dict(FIBRES):
        found = found.filter(fibre=fibre)
    rows, pages = turned(found, request.GET)
    page = swatches_page(rows, pages=pages)
    return shown(request, "swatches/index.html", page, fibres=FIBRES, fibre=fibre)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden) -> HttpResponse:
    """A new swatch; an address may bring along its colour, or name a measured photo and which of its samples it is."""
    sample = measured_sample(request, garden)
    initial = brought(request.GET, of=garden) | (brought_from(*sample) if sample is not None else {})
    form = SwatchForm(posted(request), sent_files(request), garden=garden, initial=initial)
    if request.method == "POST" and form.is_valid():
        row = keep(write_swatch(form, Swatch(garden=garden), sample=sample), by=request.user)
        keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="swatch", key=row.pk)
        undo = reverse("swatches.delete", kwargs={"key": row.pk})
        messages.success(request, _("%(what)s is written down.") % {"what": row.name}, extra_tags=undo)
        if row.piece_id is not None:
            return redirect("cloth.show", key=row.piece_id)
        return redirect("swatches.show", key=row.pk)
    return render(request, "swatches/add.html", {"form": form}, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One swatch: its colour in words and numbers, what it came from, what is like it."""
    row = the_swatch(garden, key)
    others = [other for other in swatches.swatches(garden) if other.pk != row.pk]
    page = swatch_page(
        row, near=bridge.nearest(row, others), steps=histories([row])[row.pk],
        photos=thumbs(photos.of_things([key], of=garden).get(key, ())), measured=swatches.measured_for(row),
    )  # fmt: skip
    return shown(request, "swatches/show.html", page)


@require_safe
@in_garden
def compare(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Two swatches beside each other; which two stands in the address, so that it can be sent to somebody."""
    rows = {str(row.pk): row for row in swatches.swatches(garden)}
    asked = {name: request.GET.get(name, "") for name in ("a", "b")}
    form = CompareForm(request.GET if any(asked.values()) else None, rows=rows)
    page = None
    if form.is_bound and form.is_valid():
        standard, sample = rows[form.cleaned_data["a"]], rows[form.cleaned_data["b"]]
        page = compare_page(standard, sample, _compared(standard, sample))
    if page is not None:
        return shown(request, "swatches/compare.html", page, form=form)
    status = 422 if form.is_bound and all(asked.values()) else 200
    context = {"form": form, "page": None, "few": len(rows) < 2}
    return render(request, "swatches/compare.html", context, status=status)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, other: UUID, figure: str) -> HttpResponse:
    """Why a figure of two swatches is so."""
    standard, sample = the_swatch(garden, key), the_swatch(garden, other)
    return why_shown(
        request, _compared(standard, sample), figure=figure,
        address=why_address("swatches.why", key=key, other=other),
        back=Link(
            to=f"{reverse('swatches.compare')}?a={key}&b={other}",
            name=_("%(name)s beside %(standard)s") % {"name": sample.name, "standard": standard.name},
        ),
        missing="",
    )  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Correct what was written of a swatch."""
    row = the_swatch(garden, key)
    form = SwatchForm(posted(request), sent_files(request), garden=garden, row=row, initial=as_typed(row))
    if request.method == "POST" and form.is_valid():
        correct(write_swatch(form, row), by=request.user)
        keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="swatch", key=row.pk)
        messages.success(request, _("Corrected."))
        return redirect("swatches.show", key=key)
    return render(request, "swatches/change.html", {"form": form, "swatch": row}, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a swatch out."""
    row = get_object_or_404(Swatch, pk=key, garden=garden)
    said = _("%(what)s is taken out.") % {"what": row.name}
    taken_out(request, row, said=said, undo=reverse("swatches.restore", kwargs={"key": key}))
    return redirect("swatches.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a swatch back."""
    row = get_object_or_404(Swatch.everything, pk=key, garden=garden)
    return redirect("swatches.show", key=key) if brought_back(request, row) else redirect("swatches.index")


def _compared(standard: Swatch, sample: Swatch) -> CompareAnswer:
    return bridge.compared(standard, sample, measured=swatches.measured_for(standard, sample))
