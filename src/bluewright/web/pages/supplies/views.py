"""Supplies: packs written down and corrected by the owner, counted by the cost of what is dyed."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.models import Garden, Supply
from bluewright.journal.queries import supplies as queries
from bluewright.web.pages.supplies.forms import SupplyForm, as_typed
from bluewright.web.pages.supplies.page import supplies_page
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """All of it, and a pack more."""
    form = SupplyForm(posted(request))
    if request.method == "POST" and form.is_valid():
        row = keep(form.write(Supply(garden=garden)), by=request.user)
        messages.success(request, _("Written down."), extra_tags=reverse("supplies.delete", kwargs={"key": row.pk}))
        return redirect("supplies.index")
    page = supplies_page(garden, queries.supplies(garden))
    return shown(request, "supplies/index.html", page, status=422 if form.errors else 200, form=form)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Correct a pack."""
    row = get_object_or_404(Supply, pk=key, garden=garden)
    form = SupplyForm(posted(request), initial=as_typed(row))
    if request.method == "POST" and form.is_valid():
        correct(form.write(row), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("supplies.index")
    return render(request, "supplies/change.html", {"form": form, "row": row}, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a pack out."""
    row = get_object_or_404(Supply, pk=key, garden=garden)
    taken_out(request, row, said=_("Taken out."), undo=reverse("supplies.restore", kwargs={"key": key}))
    return redirect("supplies.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a pack back."""
    brought_back(request, get_object_or_404(Supply.everything, pk=key, garden=garden))
    return redirect("supplies.index")
