"""The cupboard: what stands there, and what is written about it."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import keeping
from bluewright.journal.models import Alkali, Garden
from bluewright.journal.queries import alkalis, batches
from bluewright.web.pages.alkali.cupboard import cupboard_page, uses
from bluewright.web.pages.alkali.forms import AlkaliForm
from bluewright.web.ui.found import or_404
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """The cupboard."""
    return shown(request, "alkali/index.html", cupboard_page(alkalis.alkalis(garden)))


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Put an alkali into the cupboard; from a batch, go back to its dose."""
    form = AlkaliForm(posted(request), garden=garden)
    if request.method == "POST" and form.is_valid():
        row = keeping.keep(form.row(), by=request.user)
        _told(request, row)
        return redirect(_next(request, garden, row))
    return render(request, "alkali/add.html", {"form": form}, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, alkali: UUID) -> HttpResponse:
    """Change what is written about an alkali."""
    row = or_404(alkalis.alkali(alkali, of=garden), "alkali in this garden")
    used = uses(row.part_count, row.jar_count)  # type: ignore[attr-defined]
    first = {
        name: getattr(row, name) for name in ("kind", "name", "label_as", "opened", "opened_on", "pack_money", "note")
    }
    first["pack"] = row.pack_typed
    first["strength"] = row.strength_typed or _strength(row)
    form = AlkaliForm(posted(request), garden=garden, alkali=row, used=len(used), initial=first)
    if request.method == "POST" and form.is_valid():
        keeping.keep(form.row(), by=request.user)
        messages.success(request, _("Written down."))
        return redirect("alkali.index")
    context = {"form": form, "name": row.name, "used": used}
    return render(request, "alkali/change.html", context, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, alkali: UUID) -> HttpResponse:
    """Take an alkali out of the cupboard, unless something rests on it."""
    row = get_object_or_404(Alkali, pk=alkali, garden=garden)
    if alkalis.in_use(row):
        said = _("%(name)s went into a batch or a jar, and what was worked out rests on it: mark it used up instead.")
        messages.warning(request, said % {"name": row.name})
    else:
        taken_out(request, row, said=_("Taken out."), undo=reverse("alkali.restore", kwargs={"alkali": alkali}))
    return redirect("alkali.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, alkali: UUID) -> HttpResponse:
    """Bring an alkali back that was taken out."""
    brought_back(request, get_object_or_404(Alkali.everything, pk=alkali, garden=garden))
    return redirect("alkali.index")


@require_POST
@in_garden
def use_up(request: HttpRequest, garden: Garden, alkali: UUID) -> HttpResponse:
    """It is used up: no longer offered at the tub."""
    return _mark(request, garden, alkali, used_up=True)


@require_POST
@in_garden
def put_back(request: HttpRequest, garden: Garden, alkali: UUID) -> HttpResponse:
    """There is some left after all."""
    return _mark(request, garden, alkali, used_up=False)


def _mark(request: HttpRequest, garden: Garden, alkali: UUID, *, used_up: bool) -> HttpResponse:
    row = get_object_or_404(Alkali, pk=alkali, garden=garden)
    if row.used_up != used_up:
        row.used_up = used_up
        keeping.keep(row, by=request.user)
        undo = reverse("alkali.put_back" if used_up else "alkali.use_up", kwargs={"alkali": alkali})
        said = _("%(name)s is used up.") if used_up else _("%(name)s stands in the cupboard again.")
        messages.success(request, said % {"name": row.name}, extra_tags=undo)
    return redirect("alkali.index")


def _told(request: HttpRequest, row: Alkali) -> None:
    undo = reverse("alkali.delete", kwargs={"alkali": row.pk})
    messages.success(request, _("%(name)s stands in the cupboard.") % {"name": row.name}, extra_tags=undo)


def _next(request: HttpRequest, garden: Garden, row: Alkali) -> str:
    """The dose of the batch that the alkali was wanted for, or the cupboard."""
    try:
        key = UUID(request.GET.get("batch", ""))
    except ValueError:
        return reverse("alkali.index")
    if batches.batch(key, of=garden) is None:
        return reverse("alkali.index")
    return reverse("alkali.dose", kwargs={"key": key}) + f"?alkali={row.pk}"


def _strength(row: Alkali) -> str:
    if row.percent_w_w is not None:
        return f"{row.percent_w_w:g} %"
    return f"{row.mol_per_l:g} mol/L" if row.mol_per_l is not None else ""
