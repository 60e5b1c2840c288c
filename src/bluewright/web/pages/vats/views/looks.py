"""Looks at a vat: taken, corrected, taken out and brought back."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.models import Garden, Vat, VatReading
from bluewright.web.pages.vats import typed
from bluewright.web.pages.vats.asked import the_vat
from bluewright.web.pages.vats.forms import SIGNS, LookForm
from bluewright.web.pages.vats.page import vat_page
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.photos import keep_photos, sent_files
from bluewright.web.ui.respond import in_garden, posted, shown


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def look(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """A quick look: then the vat's page with its fresh state."""
    vat = the_vat(garden, key)
    last = [row.electrode for row in vat.readings.all() if row.potential_mv is not None]
    first = {"taken_at": timezone.localtime(), "electrode": last[-1] if last else "silver_3m_kcl"}
    form = LookForm(posted(request), sent_files(request), vat=vat, initial=first)
    if request.method == "POST" and form.is_valid():
        row = keep(typed.write_reading(form, VatReading(vat=vat)), by=request.user)
        keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="vat", key=vat.pk)
        messages.success(request, _("Written down."), extra_tags=_undo_reading(key, row.pk))
        return redirect("vats.show", key=key)
    return _look_page(request, form, vat)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change_reading(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Correct a look."""
    vat = the_vat(garden, key)
    reading = get_object_or_404(VatReading, pk=row, vat=vat)
    form = LookForm(posted(request), sent_files(request), vat=vat, initial=typed.reading_as_typed(reading))
    if request.method == "POST" and form.is_valid():
        correct(typed.write_reading(form, reading), by=request.user)
        keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="vat", key=vat.pk)
        messages.success(request, _("Corrected."))
        return redirect("vats.show", key=key)
    return _look_page(request, form, vat)


@require_POST
@in_garden
def delete_reading(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a look back."""
    mine = VatReading.objects.filter(vat=the_vat(garden, key))
    return out_of(request, mine, key=key, row=row, page="vats.show", undo="vats.restore_reading")


@require_POST
@in_garden
def restore_reading(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a look back that was taken out."""
    mine = VatReading.everything.filter(vat=the_vat(garden, key))
    return back_to(request, mine, key=key, row=row, page="vats.show")


def _look_page(request: HttpRequest, form: LookForm, vat: Vat) -> HttpResponse:
    page = vat_page(vat, answer=None, trouble="", photos={}, steps={})
    beside: dict[str, Any] = {
        "form": form,
        "signs": [form[name] for name in SIGNS],
        "numbers": [form["ph"], form["temp"]],
        "meter": [form["potential"], form["electrode"]],
        "rest": [form["photos"], form["note"], form["taken_at"]],
    }
    return shown(request, "vats/look.html", page, status=422 if form.errors else 200, **beside)


def _undo_reading(key: UUID, row: UUID) -> str:
    return reverse("vats.delete_reading", kwargs={"key": key, "row": row})
