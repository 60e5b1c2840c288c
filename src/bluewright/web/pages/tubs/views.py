"""Tubs: each view reads the journal, builds a page, shows it; each post is an action and a redirect."""

from __future__ import annotations

from typing import Any, Final
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import steeps
from bluewright.journal.models import Garden, Reading, Steep, Strain
from bluewright.journal.models.steep import SIGN_FIELDS
from bluewright.journal.queries import gardens, kept, photos, tubs
from bluewright.journal.queries.history import histories
from bluewright.science.base.errors import InputError
from bluewright.web.pages.tubs import typed
from bluewright.web.pages.tubs.call import strain_call
from bluewright.web.pages.tubs.forms import BeginForm, LookForm, StrainForm
from bluewright.web.pages.tubs.page import tub_page, tub_row
from bluewright.web.ui.found import or_404
from bluewright.web.ui.photos import keep_photos, sent_files
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.turning import turned
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.numbers import sentence

MOST_DRAWN: Final = 30
"""So many tubs, each with its picture, stand on one page."""


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Tubs: those that steep first."""
    now = timezone.localtime()
    keys, pages = turned(kept.tub_keys(garden), request.GET, most=MOST_DRAWN)
    rows = tubs.these(garden, keys)
    return render(request, "tubs/index.html", {"tubs": [tub_row(steep, now=now) for steep in rows], "pages": pages})


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def begin(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Begin a steep."""
    now = timezone.localtime()
    picking = gardens.picking(request.GET.get("picking", ""), of=garden) or gardens.only_waiting(garden, now=now)
    first: dict[str, Any] = {"started_at": now}
    if picking is not None:
        first |= {"pickings": [str(picking.pk)], "plant": picking.plant}
    form = BeginForm(posted(request), garden=garden, initial=first)
    if request.method == "POST" and form.is_valid():
        steep = typed.new_steep(form, garden=garden)
        steeps.begin_steep(steep, leaf=typed.leaf_parts(form.cleaned_data), by=request.user)
        return redirect("tubs.show", key=steep.pk)
    return render(request, "tubs/begin.html", {"form": form}, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One tub: its call, its story."""
    steep = _tub(garden, key)
    answer, trouble = strain_call(steep)
    seen = tubs.calls_seen(steep)
    before = seen if answer is None else seen[1:]  # the newest is the one that this page shows
    pictures = photos.of_things([steep.pk, *(row.pk for row in steep.readings.all())], of=garden)
    told = histories([steep, *steep.readings.all(), *steep.strains.all()])
    now = timezone.localtime()
    page = tub_page(steep, answer=answer, now=now, trouble=trouble, photos=pictures, seen=before, told=told)
    return shown(request, "tubs/show.html", page)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the strain call is what it is."""
    steep = _tub(garden, key)
    return why_shown(
        request, strain_call(steep)[0], figure=figure, address=why_address("tubs.why", key=key),
        back=Link(to=reverse("tubs.show", kwargs={"key": key}), name=steep.name),
        missing=_("There is no strain call for %(tub)s now.") % {"tub": steep.name},
    )  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Correct what was written of a tub and its leaf."""
    steep = _tub(garden, key)
    form = BeginForm(posted(request), garden=garden, initial=typed.steep_as_typed(steep))
    if request.method == "POST" and form.is_valid():
        try:
            steeps.change_steep(typed.write_steep(form, steep), leaf=typed.changed_leaf(form), by=request.user)
        except InputError as error:
            form.add_error(error.where, f"{sentence(error.what)}: {error.right}.")
        else:
            messages.success(request, _("Corrected."))
            return redirect("tubs.show", key=key)
    return render(request, "tubs/change.html", {"form": form, "key": key}, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a tub out, with its looks and its straining; its leaf waits again."""
    steep = get_object_or_404(Steep, pk=key, garden=garden)
    said = _("%(tub)s is taken out.") % {"tub": steep.name}
    undo = reverse("tubs.restore", kwargs={"key": key})
    gone = taken_out(request, steep, said=said, undo=undo, delete=steeps.delete_steep)
    return redirect("tubs.index") if gone else redirect("tubs.show", key=key)


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a tub back."""
    steep = get_object_or_404(Steep.everything, pk=key, garden=garden)
    back = brought_back(request, steep, restore=steeps.restore_steep)
    return redirect("tubs.show", key=key) if back else redirect("tubs.index")


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def look(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """A quick look."""
    steep = _tub(garden, key)
    now = {"taken_at": timezone.localtime()}
    form = LookForm(posted(request), sent_files(request), steep=steep, initial=now)
    if request.method == "POST" and form.is_valid():
        reading = steeps.add_reading(typed.write_reading(form, Reading(steep=steep)), by=request.user)
        keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="look", key=reading.pk)
        undo = reverse("tubs.delete_reading", kwargs={"key": key, "reading": reading.pk})
        messages.success(request, _("Written down."), extra_tags=undo)
        return redirect("tubs.show", key=key)
    return _look_page(request, form, steep)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change_reading(request: HttpRequest, garden: Garden, key: UUID, reading: UUID) -> HttpResponse:
    """Correct a look."""
    steep = _tub(garden, key)
    row = get_object_or_404(Reading, pk=reading, steep=steep)
    known = typed.reading_as_typed(row)
    form = LookForm(posted(request), sent_files(request), steep=steep, initial=known)
    if request.method == "POST" and form.is_valid():
        steeps.change_reading(typed.write_reading(form, row), by=request.user)
        keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="look", key=row.pk)
        messages.success(request, _("Corrected."))
        return redirect("tubs.show", key=key)
    return _look_page(request, form, steep)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def strain(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Strain the tub."""
    steep = _tub(garden, key)
    if steep.strains.all():
        messages.info(request, f"{steep.name} is strained already.")
        return redirect("tubs.show", key=key)
    form = StrainForm(posted(request), steep=steep, initial={"strained_at": timezone.localtime()})
    if request.method == "POST" and form.is_valid():
        steeps.strain(typed.write_strain(form, Strain(steep=steep)), by=request.user)
        messages.success(request, f"{steep.name} is strained.")
        return redirect("tubs.show", key=key)
    return _strain_page(request, form, steep)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change_strain(request: HttpRequest, garden: Garden, key: UUID, straining: UUID) -> HttpResponse:
    """Correct a straining."""
    steep = _tub(garden, key)
    row = get_object_or_404(Strain, pk=straining, steep=steep)
    form = StrainForm(posted(request), steep=steep, initial=typed.strain_as_typed(row))
    if request.method == "POST" and form.is_valid():
        steeps.change_strain(typed.write_strain(form, row), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("tubs.show", key=key)
    return _strain_page(request, form, steep)


@require_POST
@in_garden
def delete_reading(request: HttpRequest, garden: Garden, key: UUID, reading: UUID) -> HttpResponse:
    """Take a look back."""
    row = get_object_or_404(Reading, pk=reading, steep=_tub(garden, key))
    undo = reverse("tubs.restore_reading", kwargs={"key": key, "reading": row.pk})
    taken_out(request, row, said=_("Taken out."), undo=undo)
    return redirect("tubs.show", key=key)


@require_POST
@in_garden
def restore_reading(request: HttpRequest, garden: Garden, key: UUID, reading: UUID) -> HttpResponse:
    """Bring a look back that was taken out."""
    brought_back(request, get_object_or_404(Reading.everything, pk=reading, steep=_tub(garden, key)))
    return redirect("tubs.show", key=key)


@require_POST
@in_garden
def delete_strain(request: HttpRequest, garden: Garden, key: UUID, straining: UUID) -> HttpResponse:
    """The tub was not strained after all."""
    row = get_object_or_404(Strain, pk=straining, steep=_tub(garden, key))
    undo = reverse("tubs.restore_strain", kwargs={"key": key, "straining": row.pk})
    taken_out(request, row, said=_("The straining is taken back."), undo=undo, delete=steeps.delete_strain)
    return redirect("tubs.show", key=key)


@require_POST
@in_garden
def restore_strain(request: HttpRequest, garden: Garden, key: UUID, straining: UUID) -> HttpResponse:
    """It was strained after all."""
    row = get_object_or_404(Strain.everything, pk=straining, steep=_tub(garden, key))
    if Strain.objects.filter(steep__pk=key).exists():
        messages.info(request, _("It is strained already."))
    else:
        brought_back(request, row)
    return redirect("tubs.show", key=key)


def _look_page(request: HttpRequest, form: LookForm, steep: Steep) -> HttpResponse:
    context = {
        "form": form,
        "numbers": [form["temp"], form["ph"]],
        "signs": [form[name] for name in SIGN_FIELDS],
        "rest": [form["photos"], form["note"], form["taken_at"]],
        "tub": tub_page(steep, answer=None, now=timezone.localtime()),
    }
    return render(request, "tubs/look.html", context, status=422 if form.errors else 200)


def _strain_page(request: HttpRequest, form: StrainForm, steep: Steep) -> HttpResponse:
    context = {"form": form, "tub": tub_page(steep, answer=None, now=timezone.localtime())}
    return render(request, "tubs/strain.html", context, status=422 if form.errors else 200)


def _tub(garden: Garden, key: UUID) -> Steep:
    return or_404(tubs.tub(key, of=garden), "tub in this garden")
