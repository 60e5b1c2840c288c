"""What is poured into a vat: water to top it up; and how many litres came with a heel, put right."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.models import Garden, Vat, VatPoured
from bluewright.web.pages.vats import typed
from bluewright.web.pages.vats.asked import the_vat
from bluewright.web.pages.vats.forms import PourForm
from bluewright.web.pages.vats.page import vat_page
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.respond import in_garden, posted, shown


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def pour(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Water tops a vat up."""
    vat = the_vat(garden, key)
    form = PourForm(posted(request), vat=vat, initial={"poured_at": timezone.localtime()})
    if request.method == "POST" and form.is_valid():
        row = keep(typed.write_poured(form, VatPoured(vat=vat)), by=request.user)
        undo = reverse("vats.delete_poured", kwargs={"key": key, "row": row.pk})
        messages.success(request, _("Written down."), extra_tags=undo)
        return redirect("vats.show", key=key)
    return _pour_page(request, form, vat)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change_poured(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Correct how much was poured in, and when."""
    vat = the_vat(garden, key)
    poured = get_object_or_404(VatPoured, pk=row, vat=vat)
    form = PourForm(posted(request), vat=vat, heel=poured.source is not None, initial=typed.poured_as_typed(poured))
    if request.method == "POST" and form.is_valid():
        correct(typed.write_poured(form, poured), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("vats.show", key=key)
    return _pour_page(request, form, vat)


@require_POST
@in_garden
def delete_poured(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Water was not poured in after all; a heel is out again when the vat that it came from goes on."""
    mine = VatPoured.objects.filter(vat=the_vat(garden, key), source=None)
    return out_of(request, mine, key=key, row=row, page="vats.show", undo="vats.restore_poured")


@require_POST
@in_garden
def restore_poured(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring back what was poured in."""
    mine = VatPoured.everything.filter(vat=the_vat(garden, key), source=None)
    return back_to(request, mine, key=key, row=row, page="vats.show")


def _pour_page(request: HttpRequest, form: PourForm, vat: Vat) -> HttpResponse:
    page = vat_page(vat, answer=None, trouble="", photos={}, steps={})
    return shown(request, "vats/pour.html", page, status=422 if form.errors else 200, form=form)
