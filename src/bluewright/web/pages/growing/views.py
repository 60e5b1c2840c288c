"""The growth of a bed: its page, and looks at it."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge.growing import grown, growth_record
from bluewright.journal.models import Bed, BedLook, Garden
from bluewright.journal.queries import gardens
from bluewright.journal.queries import growing as queries
from bluewright.science.base.errors import BluewrightError
from bluewright.science.bed.growth_record import GrowthAnswer
from bluewright.web.pages.growing.forms import LookForm, new_look
from bluewright.web.pages.growing.page import growing_page
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.respond import in_garden, shown
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.own_text import own_text


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The next cut, the stand, the damage."""
    return _shown(request, _the_bed(garden, key))


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the bed's growth is so."""
    bed = _the_bed(garden, key)
    return why_shown(
        request, _answer(bed)[0], figure=figure, address=why_address("growing.why", key=key),
        back=Link(to=reverse("growing.show", kwargs={"key": key}), name=bed.name),
        missing=_("Nothing can be said of this bed's growth yet."),
    )  # fmt: skip


@require_POST
@in_garden
def look(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Write down what was counted, scored or begun."""
    bed = _the_bed(garden, key)
    form = LookForm(request.POST, bed=bed)
    if not form.is_valid():
        return _shown(request, bed, form=form, status=422)
    made = keep(new_look(form, bed=bed), by=request.user)
    undo = reverse("growing.delete", kwargs={"key": key, "row": made.pk})
    messages.success(request, _("Written down."), extra_tags=undo)
    return redirect("growing.show", key=key)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a look out."""
    mine = BedLook.objects.filter(bed=_the_bed(garden, key))
    return out_of(request, mine, key=key, row=row, page="growing.show", undo="growing.restore")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a look back."""
    mine = BedLook.everything.filter(bed=_the_bed(garden, key))
    return back_to(request, mine, key=key, row=row, page="growing.show")


def _the_bed(garden: Garden, key: UUID) -> Bed:
    found = gardens.bed(key, of=garden)
    if found is None:
        raise Http404("there is no such bed in this garden")
    return found


def _answer(bed: Bed) -> tuple[GrowthAnswer | None, str]:
    """The answer, or why there is none; both empty while something must be said first."""
    try:
        record = growth_record(bed, today=timezone.localdate())
        return (None if record is None else grown(record)), ""
    except BluewrightError as error:
        return None, own_text(str(error))


def _shown(request: HttpRequest, bed: Bed, *, form: LookForm | None = None, status: int = 200) -> HttpResponse:
    answer, trouble = _answer(bed)
    page = growing_page(bed, answer=answer, looks=queries.looks(bed), trouble=trouble)
    form = form or LookForm(bed=bed, initial={"day": timezone.localdate()})
    return shown(request, "growing/show.html", page, status=status, form=form)
