"""The kit: written down and corrected by the owner, shared over years or batches by the costs."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.models import Garden, KitItem
from bluewright.journal.queries import work
from bluewright.web.pages.kit.forms import KitForm, as_typed
from bluewright.web.pages.kit.page import kit_page
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """All of it, and a thing more."""
    form = KitForm(posted(request))
    if request.method == "POST" and form.is_valid():
        row = keep(form.write(KitItem(garden=garden)), by=request.user)
        messages.success(request, _("Written down."), extra_tags=reverse("kit.delete", kwargs={"key": row.pk}))
        return redirect("kit.index")
    page = kit_page(garden, work.kit(garden))
    return shown(request, "kit/index.html", page, status=422 if form.errors else 200, form=form)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Correct a thing."""
    row = get_object_or_404(KitItem, pk=key, garden=garden)
    form = KitForm(posted(request), initial=as_typed(row))
    if request.method == "POST" and form.is_valid():
        correct(form.write(row), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("kit.index")
    return render(request, "kit/change.html", {"form": form, "row": row}, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a thing out."""
    row = get_object_or_404(KitItem, pk=key, garden=garden)
    taken_out(request, row, said=_("Taken out."), undo=reverse("kit.restore", kwargs={"key": key}))
    return redirect("kit.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a thing back."""
    brought_back(request, get_object_or_404(KitItem.everything, pk=key, garden=garden))
    return redirect("kit.index")
