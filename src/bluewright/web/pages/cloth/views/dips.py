"""The dip timer: taps that survive a lost network, dips typed and corrected, the way back from a mistake."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import dips as actions
from bluewright.journal.actions.keeping import correct, keep
from bluewright.journal.models import Dip, Garden, Piece
from bluewright.journal.queries import pieces
from bluewright.science.base.errors import InputError
from bluewright.web.pages.cloth.dip_forms import DipForm, InForm, dip_as_typed
from bluewright.web.pages.cloth.dips_page import dips_page
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.found import the_piece
from bluewright.web.ui.respond import in_garden, posted, shown
from bluewright.web.ui.taps import TapForm, tapped, why_not


@require_safe
@in_garden
def dips(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The timer of a piece."""
    row, now = the_piece(garden, key), timezone.now()
    last = next(reversed(pieces.dips_of(row)), None)
    others = [] if last is None else pieces.in_vat(last.vat, but=row, now=now)
    return shown(request, "cloth/dips.html", dips_page(row, vats=list(pieces.vats(garden)), others=others, now=now))


@require_POST
@in_garden
def dip_in(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """It goes into a vat. The same tap sent twice is one dip."""
    row, form = the_piece(garden, key), InForm(request.POST, garden=garden)

    def put_in() -> Dip:
        told = form.cleaned_data
        return actions.put_in(row, told["vat"], key=told["dip"], at=form.moment(), by=request.user)

    return _tapped(request, row, form, put_in, undo="cloth.delete_dip")


@require_POST
@in_garden
def dip_out(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """It comes out."""
    row, form = the_piece(garden, key), TapForm(request.POST)

    def take_out() -> Dip:
        dip = get_object_or_404(Dip, pk=form.cleaned_data["dip"], piece=row)
        return actions.take_out(dip, at=form.moment(), by=request.user)

    return _tapped(request, row, form, take_out, undo="cloth.back_in")


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def add_dip(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """A dip that was not timed."""
    piece = the_piece(garden, key)
    dip, last = Dip(piece=piece), next(reversed(pieces.dips_of(piece)), None)
    first: dict[str, Any] = {} if last is None else {"vat": str(last.vat_id)}
    form = DipForm(posted(request), piece=piece, row=dip, initial=first)
    if request.method == "POST" and form.is_valid():
        keep(form.written(), by=request.user)
        undo = reverse("cloth.delete_dip", kwargs={"key": key, "row": dip.pk})
        messages.success(request, _("Written down."), extra_tags=undo)
        return redirect("cloth.dips", key=key)
    return _typed(request, form, piece)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change_dip(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Correct a dip's times and vat."""
    piece = the_piece(garden, key)
    dip = get_object_or_404(Dip.objects.select_related("vat"), pk=row, piece=piece)
    form = DipForm(posted(request), piece=piece, row=dip, initial=dip_as_typed(dip))
    if request.method == "POST" and form.is_valid():
        correct(form.written(), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("cloth.dips", key=key)
    return _typed(request, form, piece)


@require_POST
@in_garden
def back_in(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """It did not come out after all."""
    dip = get_object_or_404(Dip, pk=row, piece=the_piece(garden, key))
    try:
        actions.back_in(dip, by=request.user)
    except InputError as error:
        messages.warning(request, why_not(error))
    else:
        messages.info(request, _("It is in the vat still."))
    return redirect("cloth.dips", key=key)


@require_POST
@in_garden
def delete_dip(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a dip out."""
    mine = Dip.objects.filter(piece__pk=key, piece__garden=garden, piece__deleted_at=None)
    return out_of(request, mine, key=key, row=row, page="cloth.dips", undo="cloth.restore_dip")


@require_POST
@in_garden
def restore_dip(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a dip back, unless the piece was in a vat then by another one."""
    mine = Dip.everything.filter(piece__pk=key, piece__garden=garden, piece__deleted_at=None)
    try:
        actions.check(get_object_or_404(mine.select_related("vat"), pk=row))
    except InputError as error:
        messages.warning(request, why_not(error))
        return redirect("cloth.dips", key=key)
    return back_to(request, mine, key=key, row=row, page="cloth.dips")


def _tapped(request: HttpRequest, row: Piece, form: TapForm, write: Callable[[], Dip], *, undo: str) -> HttpResponse:
    return tapped(
        request, form, write, undo=lambda dip: reverse(undo, kwargs={"key": row.pk, "row": dip.pk}),
        back=redirect("cloth.dips", key=_piece_key(request.POST.get("back", ""), row)),
    )  # fmt: skip


def _piece_key(text: str, row: Piece) -> UUID:
    """The piece whose timer the tap came from."""
    try:
        return UUID(text)
    except ValueError:
        return row.pk


def _typed(request: HttpRequest, form: DipForm, piece: Piece) -> HttpResponse:
    context = {"form": form, "piece": piece}
    return render(request, "cloth/dip.html", context, status=422 if form.errors else 200)
