"""Settling: each view reads the batch, builds its page, shows it; each post is an action and a redirect."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import standings as actions
from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge import answers
from bluewright.journal.bridge.batches import settle_record
from bluewright.journal.models import Batch, EdgeReading, Garden, Standing
from bluewright.science.base.errors import BluewrightError
from bluewright.science.settle.interface_record import SettleAnswer
from bluewright.web.pages.batches.head import batch_head
from bluewright.web.pages.settling.forms import (
    DecantForm,
    EdgeForm,
    StandForm,
    as_typed,
    new_edge,
    write_decant,
    write_standing,
)
from bluewright.web.pages.settling.page import settling_page, standing_now
from bluewright.web.pages.washing.forms import TapForm, refill_typed
from bluewright.web.pages.washing.page import wash_part
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.found import or_404, the_batch
from bluewright.web.ui.respond import in_garden, posted, shown
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.own_text import own_text


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Settling and washing of a batch: what stands, when to decant, how many washes."""
    return _shown(request, the_batch(garden, key))


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of what stands is so."""
    batch = the_batch(garden, key)
    return why_shown(
        request, _settled(batch)[0], figure=figure, address=why_address("settling.why", key=key),
        back=Link(to=reverse("settling.show", kwargs={"key": key}), name=batch.name),
        missing=_("Nothing can be said of this settling yet."),
    )  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def stand(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Leave it to stand; after the first decanting with fresh water on it."""
    batch = the_batch(garden, key)
    done = [one for one in batch.standings.all() if one.decanted_at is not None]
    first: dict[str, Any] = {"started_at": timezone.localtime()}
    if done:
        first |= {"refill": done[-1].refill_typed, "depth": done[-1].depth_typed if done[-1].refill_l else ""}
    form = StandForm(posted(request), wash=bool(done), initial=first)
    if request.method == "POST" and form.is_valid():
        row = keep(write_standing(form, Standing(batch=batch)), by=request.user)
        undo = reverse("settling.delete", kwargs={"key": key, "row": row.pk})
        messages.success(request, _("Left to stand."), extra_tags=undo)
        return redirect("settling.show", key=key)
    said = _("Fresh water on it, stir, and let it stand.") if done else _("Let it stand where nobody knocks it.")
    return _form_shown(request, batch, form, said=said)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Correct what was written of a standing."""
    batch = the_batch(garden, key)
    standing = _standing(batch, row)
    wash = standing.refill_l is not None
    form = StandForm(posted(request), wash=wash, initial=as_typed(standing))
    if request.method == "POST" and form.is_valid():
        keep(write_standing(form, standing), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("settling.show", key=key)
    return _form_shown(request, batch, form, said="")


@require_POST
@in_garden
def edge(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Write a height of the edge down."""
    batch = the_batch(garden, key)
    standing = _standing(batch, row)
    form = EdgeForm(request.POST, standing=standing)
    if not form.is_valid():
        return _shown(request, batch, edge=form, form=form, status=422)
    made = keep(new_edge(form.cleaned_data, standing=standing), by=request.user)
    undo = reverse("settling.delete_edge", kwargs={"key": key, "row": made.pk})
    messages.success(request, _("Written down."), extra_tags=undo)
    return redirect("settling.show", key=key)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def decant(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """The clear is taken off."""
    batch = the_batch(garden, key)
    standing = _standing(batch, row)
    form = DecantForm(posted(request), standing=standing, initial={"decanted_at": timezone.localtime()})
    if request.method == "POST" and form.is_valid():
        data = form.cleaned_data
        keep(write_decant(form, standing), by=request.user)
        tap = (data.get("tap_ph"), data.get("tap_conductivity"))
        if tap != (None, None):
            actions.tell_tap(garden, ph=tap[0], conductivity_us_per_cm=tap[1], by=request.user)
        undo = reverse("settling.undecant", kwargs={"key": key, "row": row})
        messages.success(request, _("Decanted."), extra_tags=undo)
        return redirect("settling.show", key=key)
    beside = {"form": form, "head": batch_head(batch)}
    return render(request, "settling/decant.html", beside, status=422 if form.errors else 200)


@require_POST
@in_garden
def undecant(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """It was not decanted after all."""
    actions.undecant(_standing(the_batch(garden, key), row), by=request.user)
    undo = reverse("settling.redecant", kwargs={"key": key, "row": row})
    messages.info(request, _("The decanting is taken back."), extra_tags=undo)
    return redirect("settling.show", key=key)


@require_POST
@in_garden
def redecant(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """It was decanted after all."""
    if actions.redecant(_standing(the_batch(garden, key), row), by=request.user):
        messages.success(request, _("Brought back."))
    return redirect("settling.show", key=key)


@require_POST
@in_garden
def delete_edge(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a height back."""
    mine = EdgeReading.objects.filter(standing__batch__pk=key, standing__batch__garden=garden)
    return out_of(request, mine, key=key, row=row, page="settling.show", undo="settling.restore_edge")


@require_POST
@in_garden
def restore_edge(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a height back."""
    mine = EdgeReading.everything.filter(standing__batch__pk=key, standing__batch__garden=garden)
    return back_to(request, mine, key=key, row=row, page="settling.show")


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a standing out."""
    mine = Standing.objects.filter(batch__pk=key, batch__garden=garden)
    return out_of(request, mine, key=key, row=row, page="settling.show", undo="settling.restore")


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a standing back."""
    mine = Standing.everything.filter(batch__pk=key, batch__garden=garden)
    return back_to(request, mine, key=key, row=row, page="settling.show")


def _standing(batch: Batch, row: UUID) -> Standing:
    """One standing of a whole batch, with the batch and its readings at hand."""
    found = or_404(next((one for one in batch.standings.all() if one.pk == row), None), "standing of this batch")
    found.batch = batch
    return found


def _settled(batch: Batch) -> tuple[SettleAnswer | None, str]:
    """When to decant what stands now; or why that cannot be said."""
    now = standing_now(batch)
    if now is None or now.depth_mm is None:
        return None, ""
    now.batch = batch
    minute = timezone.now().replace(second=0, microsecond=0)
    try:
        return answers.settled(settle_record(now, now=minute)), ""
    except BluewrightError as error:
        return None, own_text(str(error))


def _shown(
    request: HttpRequest, batch: Batch, *, edge: EdgeForm | None = None, status: int = 200, **beside: Any
) -> HttpResponse:
    now, (answer, trouble) = standing_now(batch), _settled(batch)
    typed, refill = refill_typed(request)
    page = settling_page(batch, answer=answer, trouble=trouble, wash=wash_part(batch, refill=refill))
    if edge is None and now is not None:
        now.batch = batch
        edge = EdgeForm(standing=now, initial={"taken_at": timezone.localtime()})
    tap = TapForm(initial={"ph": batch.garden.tap_ph, "conductivity": batch.garden.tap_conductivity_us_per_cm})
    return shown(request, "settling/show.html", page, status=status, edge=edge, refill=typed, tap=tap, **beside)


def _form_shown(request: HttpRequest, batch: Batch, form: StandForm, *, said: str) -> HttpResponse:
    beside = {"form": form, "head": batch_head(batch), "said": said}
    return render(request, "settling/stand.html", beside, status=422 if form.errors else 200)
