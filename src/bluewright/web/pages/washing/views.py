"""Washing: the tap water, kept for the garden, and acid for limed pigment, which keeps nothing."""

from __future__ import annotations

from contextlib import suppress
from typing import Final
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from bluewright.journal.actions import standings as actions
from bluewright.journal.bridge import answers
from bluewright.journal.bridge.batches import acid_record, wash_record
from bluewright.journal.models import Garden
from bluewright.journal.queries import batches
from bluewright.science.base.errors import BluewrightError
from bluewright.web.pages.washing.forms import AcidForm, TapForm, acid_of, calcite_of, grams
from bluewright.web.pages.washing.page import acid_page
from bluewright.web.ui.found import or_404, the_batch
from bluewright.web.ui.respond import in_garden, shown
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.own_text import own_text

MOST_REFILL_L: Final = 1e6


@require_POST
@in_garden
def tap(request: HttpRequest, garden: Garden) -> HttpResponse:
    """Keep what the tap water reads, and go back to the batch that asked."""
    named = request.POST.get("batch", "")
    batch = or_404(batches.batch(UUID(named), of=garden) if _is_key(named) else None, "batch in this garden")
    form = TapForm(request.POST)
    if form.is_valid():
        typed = form.cleaned_data
        actions.tell_tap(garden, ph=typed["ph"], conductivity_us_per_cm=typed["conductivity"], by=request.user)
        messages.success(request, _("The tap water is written down."))
    else:
        for wrong in form.errors.values():
            messages.warning(request, " ".join(str(one) for one in wrong))
    return redirect("settling.show", key=batch.pk)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the washes is so."""
    batch = the_batch(garden, key)
    refill = _litres(request.GET.get("refill", ""))
    plain = why_address("washing.why", key=key)
    answer = None
    with suppress(BluewrightError):
        answer = answers.washed(wash_record(batch, refill_l=refill))
    return why_shown(
        request, answer, figure=figure,
        address=plain if refill is None else lambda other: f"{plain(other)}?refill={refill:g}",
        back=Link(to=reverse("settling.show", kwargs={"key": key}), name=batch.name),
        missing=_("Nothing can be said of these washes yet."),
    )  # fmt: skip


@require_safe
@in_garden
def acid(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """How much acid, and in which parts."""
    batch = the_batch(garden, key)
    form = AcidForm(request.GET if "kind" in request.GET else None)
    if form.is_bound and not form.is_valid():
        page = acid_page(batch, answer=None, trouble="")
        return shown(request, "washing/acid.html", page, status=422, form=form)
    typed = form.cleaned_data if form.is_bound else {}
    answer, trouble = None, ""
    try:
        chalk, lime_g = calcite_of(typed), grams(typed, "lime")
        answer = answers.freed(acid_record(batch, acid=acid_of(typed), calcite_g=chalk, lime_g=lime_g))
    except BluewrightError as error:
        trouble = own_text(str(error))
    return shown(request, "washing/acid.html", acid_page(batch, answer=answer, trouble=trouble), form=form)


def _litres(text: str) -> float | None:
    """The litres in an address that this program made; None where they are not such a number."""
    try:
        found = float(text)
    except ValueError:
        return None
    return found if 0 < found < MOST_REFILL_L else None


def _is_key(text: str) -> bool:
    try:
        UUID(text)
    except ValueError:
        return False
    return True
