"""Beds."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import beds as actions
from bluewright.journal.models import Bed, Garden
from bluewright.journal.queries import gardens, kept, photos
from bluewright.journal.queries.history import histories
from bluewright.web.pages.beds.forms import BedForm, NewBedForm, as_typed, write_bed
from bluewright.web.pages.beds.page import bed_page
from bluewright.web.pages.past.page import rotation_first, warn_of_rotation
from bluewright.web.ui.found import the_bed
from bluewright.web.ui.photos import keep_photos, sent_files, thumbs
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.turning import turned


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """All beds with what was taken from them."""
    return render(request, "beds/index.html", {"beds": kept.beds(garden), "photos": photos.of_kind("bed", of=garden)})


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden) -> HttpResponse:
    """A new bed."""
    form = NewBedForm(posted(request), sent_files(request))
    if request.method == "POST" and form.is_valid():
        bed = write_bed(form, Bed(garden=garden))
        actions.add_bed(bed, past=form.past(bed), by=request.user)
        keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="bed", key=bed.pk)
        messages.success(request, _("%(what)s is written down.") % {"what": bed.name})
        warn_of_rotation(request, bed)
        return redirect("beds.index")
    return render(request, "beds/add.html", {"form": form}, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One bed: what was taken from it, and how long it has been regrowing."""
    bed = the_bed(garden, key)
    pictures = thumbs(photos.of_things([key], of=garden).get(key, ()))
    taken = gardens.taken_from(bed)
    rows, pages = turned(taken, request.GET)
    page = bed_page(
        bed, taken=rows, last_at=taken.values_list("picked_at", flat=True).first(), pages=pages,
        steps=histories([bed])[bed.pk],
        rotation=rotation_first(bed), now=timezone.now(), photos=pictures,
    )  # fmt: skip
    return shown(request, "beds/show.html", page)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Correct what was written of a bed."""
    bed = get_object_or_404(Bed, pk=key, garden=garden)
    form = BedForm(posted(request), sent_files(request), initial=as_typed(bed))
    if request.method == "POST" and form.is_valid():
        actions.change_bed(write_bed(form, bed), by=request.user)
        keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="bed", key=bed.pk)
        messages.success(request, _("Corrected."))
        return redirect("beds.show", key=key)
    return render(request, "beds/change.html", {"form": form, "bed": bed}, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a bed out; its pickings keep its name."""
    bed = get_object_or_404(Bed, pk=key, garden=garden)
    said = _("%(bed)s is taken out.") % {"bed": bed.name}
    if bed.pickings.exists():
        said += " " + _("What was picked from it still says so.")
    taken_out(request, bed, said=said, undo=reverse("beds.restore", kwargs={"key": key}))
    return redirect("beds.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a bed back."""
    bed = get_object_or_404(Bed.everything, pk=key, garden=garden)
    return redirect("beds.show", key=key) if brought_back(request, bed) else redirect("beds.index")
