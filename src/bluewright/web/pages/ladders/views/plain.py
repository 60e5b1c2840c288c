"""Ladders: the list, a plan, one ladder with what it taught, its correction, the way out and back."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import ladders as actions
from bluewright.journal.actions.keeping import correct
from bluewright.journal.bridge import dyeing as bridge
from bluewright.journal.models import Garden, Ladder, Measured
from bluewright.journal.queries import ladders, photos
from bluewright.journal.queries.history import histories
from bluewright.science.base.errors import BluewrightError, InputError
from bluewright.science.dyeing.ladder_record import LadderAnswer
from bluewright.web.pages.ladders.forms import STRIP_G, LadderForm, as_typed, first, write_ladder
from bluewright.web.pages.ladders.page import ladder_page, ladders_page
from bluewright.web.ui.found import or_404
from bluewright.web.ui.photos import thumbs
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.turning import turned
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.own_text import own_text


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """All ladders, and how much was learned of each fibre."""
    rows, pages = turned(ladders.ladders(garden), request.GET)
    every = ladders.ladders(garden).filter(done_at__isnull=False)
    return shown(request, "ladders/index.html", ladders_page(rows, every=every, pages=pages))


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Plan a ladder; without numbers of dips those strips are planned that would teach most."""
    vats = ladders.vats_at_hand(garden)
    asked = {"vat": request.GET.get("vat", ""), "fibre": request.GET.get("fibre", "")}
    form = LadderForm(posted(request), vats=vats, initial=first(garden, vats=vats, now=timezone.localtime(), **asked))
    if request.method == "POST" and form.is_valid():
        row = write_ladder(form, Ladder(garden=garden, strip_g=STRIP_G, strip_typed=f"{STRIP_G:g} g"))
        try:
            row = bridge.from_its_vat(row, now=timezone.now())
            row = actions.begin(row, dips=form.cleaned_data["dips"] or _teaching(row), by=request.user)
        except BluewrightError as error:
            _wrong(form, error)
        else:
            undo = reverse("ladders.delete", kwargs={"key": row.pk})
            messages.success(request, _("%(what)s is planned.") % {"what": row.name}, extra_tags=undo)
            return redirect("ladders.show", key=row.pk)
    return render(request, "ladders/add.html", {"form": form}, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One ladder: its strips, and what they taught or would teach."""
    row = a_ladder(garden, key)
    answer, trouble = _answer(row)
    page = ladder_page(
        row, answer=answer, trouble=trouble, own=bridge.before(row), measured=_measured(row),
        photos=thumbs(photos.of_things([key], of=garden).get(key, ())),
        steps=histories([row])[row.pk],
    )  # fmt: skip
    return shown(request, "ladders/show.html", page)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the fit is what it is."""
    row = a_ladder(garden, key)
    return why_shown(
        request, _answer(row)[0], figure=figure, address=why_address("ladders.why", key=key),
        back=Link(to=reverse("ladders.show", kwargs={"key": key}), name=row.name),
        missing=_("There is no answer to %(ladder)s now.") % {"ladder": row.name},
    )  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Correct what was written of a ladder."""
    row = a_ladder(garden, key)
    form = LadderForm(posted(request), vats=ladders.vats_at_hand(garden), row=row, initial=as_typed(row))
    if request.method == "POST" and form.is_valid():
        try:
            changed = bridge.from_its_vat(write_ladder(form, row), now=timezone.now())
            bridge.ladder_record(changed, measured={}, learned=None)
        except BluewrightError as error:
            _wrong(form, error)
        else:
            correct(changed, by=request.user)
            messages.success(request, _("Corrected."))
            return redirect("ladders.show", key=key)
    return render(request, "ladders/change.html", {"form": form, "row": row}, status=422 if form.errors else 200)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a ladder out, with its strips: forecasts learn from it no more."""
    row = get_object_or_404(Ladder, pk=key, garden=garden)
    said = _("%(what)s is taken out.") % {"what": row.name}
    taken_out(request, row, said=said, undo=reverse("ladders.restore", kwargs={"key": key}))
    return redirect("ladders.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a ladder back."""
    row = get_object_or_404(Ladder.everything, pk=key, garden=garden)
    return redirect("ladders.show", key=key) if brought_back(request, row) else redirect("ladders.index")


def a_ladder(garden: Garden, key: UUID) -> Ladder:
    """A ladder of the open garden, or 404."""
    return or_404(ladders.ladder(key, of=garden), "ladder in this garden")


def _answer(row: Ladder) -> tuple[LadderAnswer | None, str]:
    """What a ladder says; or none, and why."""
    try:
        return bridge.ladder_answer(row), ""
    except BluewrightError as error:
        return None, own_text(f"{error}.")


def _teaching(row: Ladder) -> tuple[int, ...]:
    """The dips of the strips that would teach most, after what was learned already."""
    return tuple(sorted(one.dips for one in bridge.planned(row).next_rungs))


def _measured(row: Ladder) -> list[Measured]:
    """What was measured in its photos and is not named yet."""
    named = {rung.swatch.measured_key for rung in row.rungs.all() if ladders.swatch_of(rung) and rung.swatch}
    return [one for one in ladders.measured_in(row) if one.pk not in named]


def _wrong(form: LadderForm, error: BluewrightError) -> None:
    """A mistake that the science found, at its field where that is in the form."""
    where = error.where.rpartition(".")[2] if isinstance(error, InputError) else ""
    field = {"bath_l": "bath", "thickness_mm": "thickness", "temp_c": "temp"}.get(where, where)
    said = f"{error.what}; {error.right}." if isinstance(error, InputError) else f"{error}."
    form.add_error(field if field in form.fields else None, own_text(said))
