"""The growth of a bed: its page, and looks at it."""

from __future__ import annotations

from typing import Final
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from bluewright.journal.bridge.growing import growth_of
from bluewright.journal.models import Bed, BedLook, Garden
from bluewright.journal.queries import growing as queries
from bluewright.science.bed.growth_record import GrowthAnswer
from bluewright.web.pages.growing.forms import LookForm, new_look
from bluewright.web.pages.growing.page import growing_page
from bluewright.web.pages.past.page import warn_of_rotation
from bluewright.web.ui.found import the_bed
from bluewright.web.ui.of_bed import OfBed, answer_of
from bluewright.web.ui.respond import in_garden, shown

LOOKS = OfBed(BedLook, "growing")
BEGUN: Final = frozenset({"sown", "planted"})
"""Beginnings of which it is asked what grew there before."""


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The next cut, the stand, the damage."""
    return _shown(request, the_bed(garden, key))


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the bed's growth is so."""
    bed = the_bed(garden, key)
    missing = _("Nothing can be said of this bed's growth yet.")
    return LOOKS.why(request, bed, _answer(bed)[0], figure=figure, missing=missing)


@require_POST
@in_garden
def look(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Write down what was counted, scored or begun."""
    bed = the_bed(garden, key)
    form = LookForm(request.POST)
    if not form.is_valid():
        return _shown(request, bed, form=form, status=422)
    response = LOOKS.written(request, new_look(form, bed=bed))
    if form.cleaned_data["began"] in BEGUN:
        warn_of_rotation(request, bed)
    return response


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a look out."""
    return LOOKS.out(request, garden, key, row)


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a look back."""
    return LOOKS.back(request, garden, key, row)


def _answer(bed: Bed) -> tuple[GrowthAnswer | None, str]:
    return answer_of(lambda: growth_of(bed, today=timezone.localdate()))


def _shown(request: HttpRequest, bed: Bed, *, form: LookForm | None = None, status: int = 200) -> HttpResponse:
    answer, trouble = _answer(bed)
    page = growing_page(bed, answer=answer, looks=queries.looks(bed), trouble=trouble)
    form = form or LookForm(initial={"day": timezone.localdate()})
    return shown(request, "growing/show.html", page, status=status, form=form)
