"""Airing: each view reads the batch, builds its page, shows it; each post is an action and a redirect."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, redirect
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import airings as actions
from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge import answers, jars
from bluewright.journal.bridge.batches import air_record, latest
from bluewright.journal.models import Airing, Batch, Garden, LiquorLook
from bluewright.journal.models.airing import WAYS
from bluewright.journal.queries.measured import jar_looks
from bluewright.science.air.answer import AirAnswer
from bluewright.science.base.errors import BluewrightError
from bluewright.web.pages.airing.forms import CountForm, LookForm, WayForm, as_typed, counted, new_look, write_airing
from bluewright.web.pages.airing.page import AiringPage, airing_page, clock
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.found import the_batch
from bluewright.web.ui.respond import in_garden, posted, shown
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.own_text import own_text


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The airing of a batch: counter, look, answer."""
    return _shown(request, the_batch(garden, key))


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the airing is so."""
    batch, address = the_batch(garden, key), why_address("airing.why", key=key)
    back = Link(to=reverse("airing.show", kwargs={"key": key}), name=batch.name)
    missing = _("Nothing can be said of this airing yet.")
    return why_shown(request, _answer(batch)[0], figure=figure, address=address, back=back, missing=missing)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def begin(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Begin to air in a way."""
    batch, way = the_batch(garden, key), request.GET.get("way", "pour")
    if way not in dict(WAYS):
        raise Http404("there is no such way of airing")
    first = next(
        (as_typed(one) for one in batch.airings.all() if one.way == way), {"tool": "hand", "bubbles": "coarse"}
    )
    form = WayForm(posted(request), way=way, initial=first | {"started_at": timezone.localtime(), "note": ""})
    if request.method == "POST" and form.is_valid():
        row = keep(write_airing(form, Airing(batch=batch, way=way)), by=request.user)
        messages.success(request, _("Begun."), extra_tags=reverse("airing.delete", kwargs={"key": key, "row": row.pk}))
        return redirect("airing.show", key=key)
    return _way_shown(request, batch, form, way)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Correct what was written of an airing."""
    batch, airing = the_batch(garden, key), _airing(garden, key, row)
    form = WayForm(posted(request), way=airing.way, initial=as_typed(airing))
    if request.method == "POST" and form.is_valid():
        keep(write_airing(form, airing), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("airing.show", key=key)
    return _way_shown(request, batch, form, airing.way)


@require_POST
@in_garden
def count(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Keep how many pours and minutes there have been; the counter asks for JSON with the fresh answer."""
    airing, form = _airing(garden, key, row), CountForm(request.POST)
    wants_json = request.headers.get("Accept") == "application/json"
    if not form.is_valid():
        if wants_json:
            return JsonResponse({"wrong": form.errors}, status=422)
        return _shown(request, the_batch(garden, key), count=form, form=form, status=422)
    airing = _counted(request, airing, form)
    if not wants_json:
        messages.success(request, _("Written down."))
        return redirect("airing.show", key=key)
    page = _page(the_batch(garden, key))
    return JsonResponse({
        "pours": airing.done_pours,
        "minutes": airing.done_min,
        "saved": clock(timezone.now(), timezone.get_current_timezone()),
        "answer": render_to_string("airing/answer.html", {"page": page}, request),
    })  # fmt: skip


@require_POST
@in_garden
def look(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Write a look down; pours and minutes that the look has seen count for the airing too."""
    batch = the_batch(garden, key)
    airing, so_far = _now(batch), counted(batch)
    form = LookForm(request.POST, airing=airing)
    if not form.is_valid():
        return _shown(request, batch, look=form, form=form, status=422)
    made = keep(new_look(form.cleaned_data, batch=batch, counted=so_far), by=request.user)
    if airing is not None and so_far is not None and airing.ended_at is None:
        pours, minutes = airing.done_pours or 0, airing.done_min or 0.0
        more_pours = max((made.after_pours or 0) - (so_far.pours or 0), 0)
        more_min = max((made.after_min or 0.0) - so_far.minutes, 0.0)
        actions.count(
            airing, pours=pours + more_pours if more_pours else None,
            minutes=minutes + more_min if more_min else None, lower=False, by=request.user,
        )  # fmt: skip
    undo = reverse("airing.delete_look", kwargs={"key": key, "row": made.pk})
    messages.success(request, _("Written down."), extra_tags=undo)
    return redirect("airing.show", key=key)


@require_POST
@in_garden
def end(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """It is done; what the counter had not sent yet comes along."""
    airing, form = _airing(garden, key, row), CountForm(request.POST)
    if form.is_valid():
        airing = _counted(request, airing, form)
    airing.ended_at = timezone.now()
    keep(airing, by=request.user)
    undo = reverse("airing.go_on", kwargs={"key": key, "row": row})
    messages.success(request, _("The airing is done. Now let the blue sink."), extra_tags=undo)
    return redirect("airing.show", key=key)


@require_POST
@in_garden
def go_on(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """It was not done after all."""
    airing = _airing(garden, key, row)
    airing.ended_at = None
    keep(airing, by=request.user)
    messages.info(request, _("The airing goes on."))
    return redirect("airing.show", key=key)


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take an airing out."""
    mine = Airing.objects.filter(batch__pk=key, batch__garden=garden, batch__deleted_at=None)
    return out_of(
        request, mine, key=key, row=row, page="airing.show", undo="airing.restore", said=_("The airing is taken out.")
    )


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring an airing back."""
    mine = Airing.everything.filter(batch__pk=key, batch__garden=garden)
    return back_to(request, mine, key=key, row=row, page="airing.show")


@require_POST
@in_garden
def delete_look(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a look back."""
    mine = LiquorLook.objects.filter(batch__pk=key, batch__garden=garden)
    return out_of(request, mine, key=key, row=row, page="airing.show", undo="airing.restore_look")


@require_POST
@in_garden
def restore_look(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a look back."""
    mine = LiquorLook.everything.filter(batch__pk=key, batch__garden=garden)
    return back_to(request, mine, key=key, row=row, page="airing.show")


def _airing(garden: Garden, key: UUID, row: UUID) -> Airing:
    found: Airing = get_object_or_404(Airing, pk=row, batch__pk=key, batch__garden=garden, batch__deleted_at=None)
    return found


def _now(batch: Batch) -> Airing | None:
    return next(iter(batch.airings.all()), None)


def _counted(request: HttpRequest, airing: Airing, form: CountForm) -> Airing:
    typed = form.cleaned_data
    pours = typed["pours"] if airing.way == "pour" else None
    return actions.count(airing, pours=pours, minutes=typed["minutes"], lower=typed["lower"], by=request.user)


def _page(batch: Batch) -> AiringPage:
    """The page with the answer there is, or why there is none."""
    answer, trouble = _answer(batch)
    needs_temp = latest(batch.looks.all(), "temp_c") is None
    return airing_page(batch, answer=answer, needs_temp=needs_temp, trouble=trouble, jars=jar_looks(batch))


def _answer(batch: Batch) -> tuple[AirAnswer | None, str]:
    """What can be said of the airing under way; or None, and why where that is not plain.

    Once it is done and stands, nobody asks any more whether to go on.
    """
    now = _now(batch)
    settled = now is not None and now.ended_at is not None and bool(batch.standings.all())
    if now is None or settled or latest(batch.looks.all(), "temp_c") is None:
        return None, ""
    try:
        return answers.aired(air_record(batch, indigo_g=jars.indigo_g(batch))), ""
    except BluewrightError as error:
        return None, own_text(str(error))


def _shown(
    request: HttpRequest, batch: Batch, *, look: LookForm | None = None, count: CountForm | None = None,
    status: int = 200, **beside: Any,
) -> HttpResponse:  # fmt: skip
    page, airing, so_far = _page(batch), _now(batch), counted(batch)
    if look is None:
        first = {"taken_at": timezone.localtime()} | (
            {"after_pours": so_far.pours, "after_min": f"{so_far.minutes:.1f}"} if so_far else {}
        )
        look = LookForm(airing=airing, initial=first)
    if count is None and page.counter is not None:
        count = CountForm(initial={"pours": page.counter.pours, "minutes": f"{page.counter.minutes:g}"})
    return shown(request, "airing/show.html", page, status=status, look=look, count=count, **beside)


def _way_shown(request: HttpRequest, batch: Batch, form: WayForm, way: str) -> HttpResponse:
    page = airing_page(batch, answer=None, needs_temp=False)
    return shown(request, "airing/way.html", page, status=422 if form.errors else 200, form=form, way=dict(WAYS)[way])
