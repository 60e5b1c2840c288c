"""Assays: each view reads the jar or the assay, builds its page, shows it; each post is an action and a redirect."""

from __future__ import annotations

from typing import Final
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import assays as actions
from bluewright.journal.models import Assay, Garden, Swatch
from bluewright.journal.queries import assays, swatches
from bluewright.journal.queries.history import histories
from bluewright.web.pages.assays.depths import depths
from bluewright.web.pages.assays.entered import Entered, begun, entered, reopened
from bluewright.web.pages.assays.page import all_together, answer_of, assay_page, assays_page
from bluewright.web.pages.jars.reckoning import reckoned
from bluewright.web.ui.found import or_404, the_jar
from bluewright.web.ui.respond import brought_back, in_garden, shown, taken_out
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.assay_ways import WAYS
from bluewright.words.numbers import sentence

MOST_SWATCHES: Final = 24
"""The latest dyed swatches, whose depth can be chosen for a test dyeing."""


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The assays of a jar: what they say together, each, and the ways of another."""
    return shown(request, "assays/index.html", assays_page(the_jar(garden, key)))


@require_safe
@in_garden
def jar_why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of all results of a jar together is so."""
    jar = the_jar(garden, key)
    return why_shown(
        request, all_together(jar), figure=figure, address=why_address("assays.jar_why", key=key),
        back=Link(to=reverse("assays.index", kwargs={"key": key}), name=jar.name),
        missing=_("Nothing was assayed yet."),
    )  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden, key: UUID, method: str) -> HttpResponse:
    """A new assay by one method."""
    if method not in WAYS or not WAYS[method].needs:
        raise Http404("there is no such way of assaying")
    jar = the_jar(garden, key)
    assay = Assay(jar=jar, method=method)
    told = entered(request, assay, garden) if request.method == "POST" else begun(garden, method)
    if told.assay is not None:
        return _kept(request, garden, told.assay, said=_("The assay is written down."), new=True)
    return _forms(request, assay, told)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, row: UUID) -> HttpResponse:
    """An assay put right."""
    assay = _assay(garden, row)
    told = entered(request, assay, garden) if request.method == "POST" else reopened(assay, garden)
    if told.assay is not None:
        return _kept(request, garden, told.assay, said=_("The assay is changed."), new=False)
    return _forms(request, assay, told)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, row: UUID) -> HttpResponse:
    """One assay: what it says, what was typed, who wrote it."""
    assay = _assay(garden, row)
    return shown(request, "assays/show.html", assay_page(assay, steps=histories([assay]).get(assay.pk, [])))


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, row: UUID, figure: str) -> HttpResponse:
    """Why a figure of an assay is so."""
    assay = _assay(garden, row)
    return why_shown(
        request, answer_of(assay)[0], figure=figure, address=why_address("assays.why", row=row),
        back=Link(to=reverse("assays.show", kwargs={"row": row}), name=assay.jar.name),
        missing=_("Nothing can be said by this assay."),
    )  # fmt: skip


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, row: UUID) -> HttpResponse:
    """Take an assay out of sight."""
    assay = get_object_or_404(Assay, pk=row, jar__garden=garden, jar__deleted_at=None)
    undo = reverse("assays.restore", kwargs={"row": row})
    taken_out(request, assay, said=_("The assay is taken out."), undo=undo, delete=actions.delete)
    return redirect("assays.index", key=assay.jar_id)


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, row: UUID) -> HttpResponse:
    """Bring an assay back that was taken out."""
    assay = get_object_or_404(Assay.everything, pk=row, jar__garden=garden, jar__deleted_at=None)
    if brought_back(request, assay, restore=actions.restore):
        return redirect("assays.show", row=row)
    return redirect("assays.index", key=assay.jar_id)


def _kept(request: HttpRequest, garden: Garden, assay: Assay, *, said: str, new: bool) -> HttpResponse:
    """Write it, reckon the jar anew, and show it."""
    actions.keep(assay, by=request.user)
    reckoned(the_jar(garden, assay.jar_id))
    undo = reverse("assays.delete", kwargs={"row": assay.pk}) if new else ""
    messages.success(request, said, extra_tags=undo)
    return redirect("assays.show", row=assay.pk)


def _forms(request: HttpRequest, assay: Assay, told: Entered) -> HttpResponse:
    way = WAYS[assay.method]
    dyed = depths(_latest_dyed(assay.jar.garden), told.bench) if assay.method == "dyeing" else ()
    context = {
        "swatches": dyed, "form": told.bench, "own": told.own,
        "trouble": told.trouble, "jar": assay.jar, "assay": assay,
        "title": sentence(_(way.name)), "needs": _(way.needs), "method": assay.method,
    }  # fmt: skip
    return render(request, "assays/enter.html", context, status=422 if told.wrong else 200)


def _latest_dyed(garden: Garden) -> list[Swatch]:
    return list(swatches.swatches(garden).filter(of="cloth")[:MOST_SWATCHES])


def _assay(garden: Garden, row: UUID) -> Assay:
    return or_404(assays.assay(row, of=garden), "assay in this garden")
