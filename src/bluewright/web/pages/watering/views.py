"""The water of a bed: its page, and notes of what was given and felt."""

from __future__ import annotations

from datetime import timedelta
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge.watering import BACK_D, bed_water_record, watered
from bluewright.journal.models import Bed, Garden, WaterNote
from bluewright.journal.queries import gardens
from bluewright.journal.queries import weather as queries
from bluewright.science.base.errors import BluewrightError
from bluewright.science.watering.record import BedWaterAnswer
from bluewright.web.pages.watering.forms import NoteForm, new_note
from bluewright.web.pages.watering.page import watering_page
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.respond import in_garden, shown
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.own_text import own_text


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """When the bed wants water, and how much."""
    return _shown(request, _the_bed(garden, key))


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the bed's water is so."""
    bed = _the_bed(garden, key)
    return why_shown(
        request, _answer(bed)[0], figure=figure, address=why_address("watering.why", key=key),
        back=Link(to=reverse("watering.show", kwargs={"key": key}), name=bed.name),
        missing=_("Nothing can be said of this bed's water yet."),
    )  # fmt: skip


@require_POST
@in_garden
def note(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Write down what was given, felt or seen."""
    bed = _the_bed(garden, key)
    form = NoteForm(request.POST, bed=bed)
    if not form.is_valid():
        return _shown(request, bed, form=form, status=422)
    made = keep(new_note(form, bed=bed), by=request.user)
    undo = reverse("watering.delete", kwargs={"key": key, "row": made.pk})
    messages.success(request, _("Written down."), extra_tags=undo)
    return redirect("watering.show", key=key)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a note out."""
    mine = WaterNote.objects.filter(bed=_the_bed(garden, key))
    return out_of(request, mine, key=key, row=row, page="watering.show", undo="watering.restore")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a note back."""
    mine = WaterNote.everything.filter(bed=_the_bed(garden, key))
    return back_to(request, mine, key=key, row=row, page="watering.show")


def _the_bed(garden: Garden, key: UUID) -> Bed:
    found = gardens.bed(key, of=garden)
    if found is None:
        raise Http404("there is no such bed in this garden")
    return found


def _answer(bed: Bed) -> tuple[BedWaterAnswer | None, str]:
    """The answer, or why there is none; both empty while something must be said first."""
    try:
        record = bed_water_record(bed, today=timezone.localdate())
        return (None if record is None else watered(record)), ""
    except BluewrightError as error:
        return None, own_text(str(error))


def _shown(request: HttpRequest, bed: Bed, *, form: NoteForm | None = None, status: int = 200) -> HttpResponse:
    answer, trouble = _answer(bed)
    notes = queries.water_notes(bed, first=timezone.localdate() - timedelta(days=BACK_D))
    page = watering_page(bed, answer=answer, notes=notes, trouble=trouble)
    form = form or NoteForm(bed=bed, initial={"day": timezone.localdate()})
    return shown(request, "watering/show.html", page, status=status, form=form)
