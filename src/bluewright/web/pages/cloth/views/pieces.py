"""Pieces: list, a new one, one with its story, its scour and finish, the way out and back."""

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

from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.models import Garden, Piece
from bluewright.journal.queries import photos, pieces, swatches
from bluewright.journal.queries.history import histories
from bluewright.web.pages.cloth.forms import (
    FinishForm,
    PieceForm,
    ScourForm,
    finish_as_typed,
    ground_of,
    piece_as_typed,
    write_finish,
    write_piece,
    write_scour,
)
from bluewright.web.pages.cloth.page import piece_page, pieces_page
from bluewright.web.ui.found import measured_sample, the_piece
from bluewright.web.ui.photos import keep_photos, sent_files
from bluewright.web.ui.respond import brought_back, in_garden, posted, shown, taken_out
from bluewright.web.ui.turning import turned

FIRST: Final[dict[str, Any]] = {"fibre": "wool", "dip_min": 5, "air_min": 15, "basis": "conditioned"}


@require_safe
@in_garden
def index(request: HttpRequest, garden: Garden) -> HttpResponse:
    """All pieces, each with its colour and what is next."""
    rows, pages = turned(pieces.pieces(garden), request.GET)
    return shown(request, "cloth/index.html", pieces_page(rows, now=timezone.now(), pages=pages))


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add(request: HttpRequest, garden: Garden) -> HttpResponse:
    """A new piece."""
    first = FIRST | {
        "begun_at": timezone.localtime(), "scale_sd_g": pieces.last_scale(garden), "like": request.GET.get("like", "")
    }  # fmt: skip
    form = PieceForm(posted(request), sent_files(request), swatches=swatches.of_cloth(garden), initial=first)
    if request.method == "POST" and form.is_valid():
        row = keep(write_piece(form, Piece(garden=garden, begun_at=form.cleaned_data["begun_at"])), by=request.user)
        keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="piece", key=row.pk)
        undo = reverse("cloth.delete", kwargs={"key": row.pk})
        messages.success(request, _("%(what)s is written down.") % {"what": row.name}, extra_tags=undo)
        return redirect("cloth.show", key=row.pk)
    return render(request, "cloth/add.html", {"form": form}, status=422 if form.errors else 200)


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """One piece: its story on a time line, figures, swatches, home tests, and what is next."""
    row = the_piece(garden, key)
    told = histories([row, *row.dips.all(), *row.home_tests.all()])
    page = piece_page(row, now=timezone.now(), photos=photos.of_things([row.pk], of=garden), told=told)
    return shown(request, "cloth/show.html", page)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Correct what was written of a piece; an address may bring along the colour of the undyed cloth."""
    row, sample = the_piece(garden, key), measured_sample(request, garden)
    known = piece_as_typed(row) | (ground_of(*sample) if sample is not None else {})
    like = swatches.of_cloth(garden, also=row.like_key)
    form = PieceForm(posted(request), sent_files(request), swatches=like, initial=known)
    if request.method == "POST" and form.is_valid():
        correct(write_piece(form, row), by=request.user)
        keep_photos(request, form.cleaned_data["photos"], garden=garden, kind="piece", key=row.pk)
        messages.success(request, _("Corrected."))
        return redirect("cloth.show", key=key)
    context = {"form": form, "piece": row, "brought": sample is not None}
    return render(request, "cloth/change.html", context, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def scour(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """How it was cleaned before the vat."""
    row = the_piece(garden, key)
    form = ScourForm(posted(request), initial={"scour": row.scour, "scoured_at": timezone.localtime(row.scoured_at)})
    if request.method == "POST" and form.is_valid():
        correct(write_scour(form, row), by=request.user)
        messages.success(request, _("Written down."))
        return redirect("cloth.show", key=key)
    return render(request, "cloth/scour.html", {"form": form, "piece": row}, status=422 if form.errors else 200)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def finish(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """How it was finished, and its mass once it is dry."""
    row = the_piece(garden, key)
    if pieces.open_dip(row) is not None:
        messages.info(request, _("%(what)s is in a vat now: take it out first.") % {"what": row.name})
        return redirect("cloth.dips", key=key)
    known = finish_as_typed(row) if row.finished_at else {"finish": "soaped", "finished_at": timezone.localtime()}
    form = FinishForm(posted(request), row=row, initial=known)
    if request.method == "POST" and form.is_valid():
        first = row.finished_at is None
        correct(write_finish(form, row), by=request.user)
        undo = reverse("cloth.unfinish", kwargs={"key": key}) if first else ""
        messages.success(request, _("Written down."), extra_tags=undo)
        return redirect("cloth.show", key=key)
    return render(request, "cloth/finish.html", {"form": form, "piece": row}, status=422 if form.errors else 200)


@require_POST
@in_garden
def unfinish(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """It was not finished after all: it can be dipped on. What it said before stays in its changes."""
    row = the_piece(garden, key)
    row.finish, row.finished_at, row.after_g, row.after_typed = "", None, None, ""
    correct(row, by=request.user)
    messages.info(request, _("%(what)s is not finished.") % {"what": row.name})
    return redirect("cloth.show", key=key)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Take a piece out, with its dips and home tests; its swatches stay."""
    row = get_object_or_404(Piece, pk=key, garden=garden)
    said = _("%(what)s is taken out.") % {"what": row.name}
    taken_out(request, row, said=said, undo=reverse("cloth.restore", kwargs={"key": key}))
    return redirect("cloth.index")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Bring a piece back."""
    row = get_object_or_404(Piece.everything, pk=key, garden=garden)
    return redirect("cloth.show", key=key) if brought_back(request, row) else redirect("cloth.index")
