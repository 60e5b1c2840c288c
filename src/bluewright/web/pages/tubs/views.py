"""Tubs: each view reads the journal, builds a page, shows it; each post is an action and a redirect."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Final
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import keeping, steeps
from bluewright.journal.bridge import calls
from bluewright.journal.bridge.steeps import steep_record
from bluewright.journal.models import Garden, Kept, Reading, Steep, Strain
from bluewright.journal.models.steep import SIGN_FIELDS
from bluewright.journal.queries import gardens, photos, tubs
from bluewright.science.base.errors import BluewrightError
from bluewright.science.steep.answer import SteepAnswer
from bluewright.web.pages.tubs.forms import BeginForm, LookForm, StrainForm
from bluewright.web.pages.tubs.page import tub_page
from bluewright.web.pages.tubs.typed import leaf_parts, new_reading, new_steep, new_strain
from bluewright.web.ui.photos import keep_photos, sent_files
from bluewright.web.ui.respond import in_garden, posted, shown
from bluewright.web.ui.why import Link, why_page
from bluewright.words.numbers import moment

TOO_LATE: Final = "That was taken out more than thirty days ago and cannot be brought back."


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """All tubs: those that steep first."""
    now = timezone.localtime()
    found = [tub_page(steep, answer=None, now=now) for steep in tubs.tubs(garden)]
    return render(request, "tubs/index.html", {"tubs": sorted(found, key=lambda t: t.strained is not None)})


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def begin(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Begin a steep."""
    picking = gardens.picking(request.GET.get("picking", ""), of=garden)
    first: dict[str, Any] = {"started_at": timezone.localtime()}
    if picking is not None:
        first |= {"pickings": [str(picking.pk)], "plant": picking.plant}
    form = BeginForm(posted(request), garden=garden, initial=first)
    if request.method == "POST" and form.is_valid():
        steep = new_steep(form.cleaned_data, garden=garden)
        steeps.begin_steep(steep, leaf=leaf_parts(form.cleaned_data), by=request.user)
        return redirect("tubs.show", key=steep.pk)
    return render(request, "tubs/begin.html", {"form": form}, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One tub: its call, its story."""
    steep = _tub(garden, key)
    answer, trouble = _call(steep, garden)
    seen = tubs.calls_seen(steep)
    before = seen if answer is None else seen[1:]  # the newest is the one that this page shows
    pictures = photos.of_things([steep.pk, *(row.pk for row in steep.readings.all())], of=garden)
    page = tub_page(steep, answer=answer, now=timezone.localtime(), trouble=trouble, photos=pictures, seen=before)
    return shown(request, "tubs/show.html", page)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the strain call is what it is."""
    steep = _tub(garden, key)
    answer, _trouble = _call(steep, garden)
    if answer is None:
        messages.info(request, _("There is no strain call for %(tub)s now.") % {"tub": steep.name})
        return redirect("tubs.show", key=key)
    back = Link(to=reverse("tubs.show", kwargs={"key": key}), name=steep.name)
    try:
        page = why_page(answer, figure=figure, address=_why(key), back=back)
    except KeyError:
        raise Http404("the strain call has no such figure") from None
    return shown(request, "why/page.html", page)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def look(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """A quick look."""
    steep = _tub(garden, key)
    form = LookForm(posted(request), sent_files(request), garden=garden, initial={"taken_at": timezone.localtime()})
    if request.method == "POST" and form.is_valid():
        if form.cleaned_data["taken_at"] < steep.started_at:
            began = moment(timezone.localtime(steep.started_at))
            form.add_error("taken_at", f"That is before the steep began ({began}).")
        else:
            reading = steeps.add_reading(new_reading(form.cleaned_data, steep=steep), by=request.user)
            keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="look", key=reading.pk)
            undo = reverse("tubs.delete_reading", kwargs={"key": key, "reading": reading.pk})
            messages.success(request, "Written down.", extra_tags=undo)
            return redirect("tubs.show", key=key)
    context = {
        "form": form,
        "numbers": [form["temp"], form["ph"]],
        "signs": [form[name] for name in SIGN_FIELDS],
        "rest": [form["photos"], form["note"], form["taken_at"]],
        "tub": tub_page(steep, answer=None, now=timezone.localtime()),
    }
    return render(request, "tubs/look.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def strain(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Strain the tub."""
    steep = _tub(garden, key)
    if steep.strains.all():
        messages.info(request, f"{steep.name} is strained already.")
        return redirect("tubs.show", key=key)
    form = StrainForm(posted(request), garden=garden, initial={"strained_at": timezone.localtime()})
    if request.method == "POST" and form.is_valid():
        if form.cleaned_data["strained_at"] < steep.started_at:
            form.add_error("strained_at", "That is before the steep began.")
        else:
            steeps.strain(new_strain(form.cleaned_data, steep=steep), by=request.user)
            messages.success(request, f"{steep.name} is strained.")
            return redirect("tubs.show", key=key)
    context = {"form": form, "tub": tub_page(steep, answer=None, now=timezone.localtime())}
    return render(request, "tubs/strain.html", context, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete_reading(request: HttpRequest, garden: Garden, key: UUID, reading: UUID) -> HttpResponse:
    """Take a look back."""
    row = get_object_or_404(Reading, pk=reading, steep__pk=key, steep__garden=garden)
    undo = reverse("tubs.restore_reading", kwargs={"key": key, "reading": row.pk})
    return _taken_out(request, row, key, said="Taken out.", undo=undo)


@require_POST
@in_garden
def restore_reading(request: HttpRequest, garden: Garden, key: UUID, reading: UUID) -> HttpResponse:
    """Bring a look back that was taken out."""
    row = get_object_or_404(Reading.everything, pk=reading, steep__pk=key, steep__garden=garden)
    return _brought_back(request, row, key)


@require_POST
@in_garden
def delete_strain(request: HttpRequest, garden: Garden, key: UUID, straining: UUID) -> HttpResponse:
    """The tub was not strained after all."""
    row = get_object_or_404(Strain, pk=straining, steep__pk=key, steep__garden=garden)
    if row.went_into.filter(into__deleted_at=None).exists():
        messages.warning(request, "Its liquor is in a batch: take the batch out first.")
        return redirect("tubs.show", key=key)
    undo = reverse("tubs.restore_strain", kwargs={"key": key, "straining": row.pk})
    return _taken_out(request, row, key, said="The straining is taken back.", undo=undo)


@require_POST
@in_garden
def restore_strain(request: HttpRequest, garden: Garden, key: UUID, straining: UUID) -> HttpResponse:
    """It was strained after all."""
    row = get_object_or_404(Strain.everything, pk=straining, steep__pk=key, steep__garden=garden)
    if Strain.objects.filter(steep__pk=key).exists():
        messages.info(request, "It is strained already.")
        return redirect("tubs.show", key=key)
    return _brought_back(request, row, key)


def _why(key: UUID) -> Callable[[str], str]:
    return lambda figure: reverse("tubs.why", kwargs={"key": key, "figure": figure})


def _taken_out(request: HttpRequest, row: Kept, key: UUID, *, said: str, undo: str) -> HttpResponse:
    """Take a row out of sight, and offer the way back."""
    keeping.delete(row, by=request.user)
    messages.info(request, said, extra_tags=undo)
    return redirect("tubs.show", key=key)


def _brought_back(request: HttpRequest, row: Kept, key: UUID) -> HttpResponse:
    """Bring a row back, or say that it is too late."""
    if keeping.restore(row, by=request.user):
        messages.success(request, "Brought back.")
    elif row.deleted_at is not None:
        messages.warning(request, TOO_LATE)
    return redirect("tubs.show", key=key)


def _tub(garden: Garden, key: UUID) -> Steep:
    steep = tubs.tub(key, of=garden)
    if steep is None:
        raise Http404("there is no such tub in this garden")
    return steep


def _call(steep: Steep, garden: Garden) -> tuple[SteepAnswer | None, str]:
    """The call of a tub that still steeps; or why there is none."""
    if steep.strains.all():
        return None, ""
    try:
        record = steep_record(steep, air=tubs.air(garden, around=steep), now=timezone.now())
        answer = calls.strain_call(steep.pk, record)
    except BluewrightError as error:
        return None, str(error)
    calls.remember(steep, answer)
    return answer, ""
