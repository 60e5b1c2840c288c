"""The water of a bed: its page, and notes of what was given and felt."""

from __future__ import annotations

from datetime import timedelta
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from bluewright.journal.bridge.watering import BACK_D, water_of
from bluewright.journal.models import Bed, Garden, WaterNote
from bluewright.journal.queries import weather as queries
from bluewright.science.watering.record import BedWaterAnswer
from bluewright.web.pages.watering.forms import NoteForm, new_note
from bluewright.web.pages.watering.page import watering_page
from bluewright.web.ui.found import the_bed
from bluewright.web.ui.of_bed import OfBed, answer_of
from bluewright.web.ui.respond import in_garden, shown

NOTES = OfBed(WaterNote, "watering")


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """When the bed wants water, and how much."""
    return _shown(request, the_bed(garden, key))


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the bed's water is so."""
    bed = the_bed(garden, key)
    missing = _("Nothing can be said of this bed's water yet.")
    return NOTES.why(request, bed, _answer(bed)[0], figure=figure, missing=missing)


@require_POST
@in_garden
def note(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Write down what was given, felt or seen."""
    bed = the_bed(garden, key)
    form = NoteForm(request.POST)
    if not form.is_valid():
        return _shown(request, bed, form=form, status=422)
    return NOTES.written(request, new_note(form, bed=bed))


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a note out."""
    return NOTES.out(request, garden, key, row)


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a note back."""
    return NOTES.back(request, garden, key, row)


def _answer(bed: Bed) -> tuple[BedWaterAnswer | None, str]:
    return answer_of(lambda: water_of(bed, today=timezone.localdate()))


def _shown(request: HttpRequest, bed: Bed, *, form: NoteForm | None = None, status: int = 200) -> HttpResponse:
    answer, trouble = _answer(bed)
    notes = queries.water_notes(bed, first=timezone.localdate() - timedelta(days=BACK_D))
    page = watering_page(bed, answer=answer, notes=notes, trouble=trouble)
    form = form or NoteForm(initial={"day": timezone.localdate()})
    return shown(request, "watering/show.html", page, status=status, form=form)
