"""Pickings."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import beds as actions
from bluewright.journal.models import Garden, Picking
from bluewright.journal.queries import gardens, kept, photos
from bluewright.journal.queries.history import histories
from bluewright.science.base.errors import InputError
from bluewright.science.media.at_the_cut import AT_THE_CUT
from bluewright.web.pages.pickings.forms import PickingForm, as_typed, write_picking
from bluewright.web.pages.pickings.page import picking_page
from bluewright.web.ui.found import or_404
from bluewright.web.ui.photos import keep_photos, sent_files, thumbs
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.turning import turned
from bluewright.words.numbers import sentence
from bluewright.words.own_text import own_text


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Pickings, the newest first, with where the leaf came from and went."""
    keys, pages = turned(kept.picking_keys(garden), request.GET)
    rows = gardens.these_pickings(garden, keys)
    context = {"pickings": rows, "pages": pages, "photos": photos.of_things([row.pk for row in rows], of=garden)}
    return render(request, "pickings/index.html", context)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden) -> HttpResponse:
    """A new picking."""
    begun = {"picked_at": timezone.localtime()} | _of_bed(request.GET.get("bed", ""), garden)
    form = PickingForm(posted(request), sent_files(request), garden=garden, initial=begun)
    if request.method == "POST" and form.is_valid():
        picking = write_picking(form, Picking(garden=garden))
        actions.add_picking(picking, beds=list(form.cleaned_data["beds"]), by=request.user)
        keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="picking", key=picking.pk)
        messages.success(request, _("%(what)s is written down.") % {"what": picking.leaf_typed})
        return redirect("pickings.index")
    context = {"form": form, "take_care": [own_text(one.text) for one in AT_THE_CUT]}
    return render(request, "pickings/add.html", context, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One picking: from which beds, into which tubs."""
    picking = _picking(garden, key)
    pictures = thumbs(photos.of_things([key], of=garden).get(key, ()))
    page = picking_page(picking, steps=histories([picking])[picking.pk], photos=pictures)
    return shown(request, "pickings/show.html", page)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Correct what was written of a picking; tubs that took all of it follow."""
    picking = _picking(garden, key)
    known = [source.bed for source in picking.sources.all()]
    form = PickingForm(
        posted(request), sent_files(request), garden=garden, known=known, initial=as_typed(picking, known)
    )
    if request.method == "POST" and form.is_valid():
        beds = list(form.cleaned_data["beds"])
        try:
            followed = actions.change_picking(write_picking(form, picking), beds=beds, by=request.user)
        except InputError as error:
            form.add_error(error.where, f"{sentence(error.what)}: {error.right}.")
        else:
            keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="picking", key=key)
            tubs = ", ".join(part.steep.name for part in followed)
            also = " " + _("The leaf in %(tubs)s is corrected with it.") % {"tubs": tubs} if tubs else ""
            messages.success(request, _("Corrected.") + also)
            return redirect("pickings.show", key=key)
    context = {"form": form, "picking": picking}
    return render(request, "pickings/change.html", context, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a picking out, unless a tub holds its leaf."""
    picking = get_object_or_404(Picking, pk=key, garden=garden)
    said = _("The picking of %(leaf)s is taken out.") % {"leaf": picking.leaf_typed}
    undo = reverse("pickings.restore", kwargs={"key": key})
    gone = taken_out(request, picking, said=said, undo=undo, delete=actions.delete_picking)
    return redirect("pickings.index") if gone else redirect("pickings.show", key=key)


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a picking back."""
    picking = get_object_or_404(Picking.everything, pk=key, garden=garden)
    return redirect("pickings.show", key=key) if brought_back(request, picking) else redirect("pickings.index")


def _of_bed(key: str, garden: Garden) -> dict[str, Any]:
    """The bed and its plant, where the form is opened from a bed or the garden has only one."""
    found = gardens.bed_of(key, of=garden) if key else gardens.only_bed(of=garden)
    return {} if found is None else {"beds": [str(found.pk)], "plant": found.plant}


def _picking(garden: Garden, key: UUID) -> Picking:
    return or_404(gardens.one_picking(key, of=garden), "picking in this garden")
