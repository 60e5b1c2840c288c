"""The dose at the tub: what to add, what was added, and how the liquor stands."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.forms import Form
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from bluewright.journal.actions import keeping
from bluewright.journal.bridge.sources import liquor_l
from bluewright.journal.models import Alkali, AlkaliPart, Batch, Garden, LiquorLook
from bluewright.journal.queries import alkalis
from bluewright.science.base.errors import InputError
from bluewright.web.pages.alkali.card import alkali_card
from bluewright.web.pages.alkali.forms import AimForm, LookForm, PartForm
from bluewright.web.pages.alkali.page import dose_page, why_of, work_out
from bluewright.web.pages.alkali.typed import write_look, write_part
from bluewright.web.ui.found import the_batch
from bluewright.web.ui.respond import in_garden, posted, shown
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_shown


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def dose(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """How much alkali; and what went in."""
    batch = the_batch(garden, key)
    alkali = chosen(request, batch)
    form = part_form(request, batch, alkali)
    if request.method == "POST" and form is not None and alkali is not None and form.is_valid():
        part = keeping.keep(write_part(form.cleaned_data, AlkaliPart(batch=batch, alkali=alkali)), by=request.user)
        undo = reverse("alkali.delete_part", kwargs={"key": key, "row": part.pk})
        messages.success(request, _("Written down: %(amount)s.") % {"amount": part.added_typed}, extra_tags=undo)
        return redirect(to_dose(batch, alkali))
    return dose_shown(request, batch, alkali, form=form)


@require_POST
@in_garden
def look(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Write down the pH and the temperature of the liquor."""
    batch = the_batch(garden, key)
    alkali = chosen(request, batch)
    form = LookForm(request.POST, batch=batch)
    if form.is_valid():
        row = keeping.keep(write_look(form.cleaned_data, LiquorLook(batch=batch)), by=request.user)
        undo = reverse("alkali.delete_look", kwargs={"key": key, "row": row.pk})
        messages.success(request, _("Written down."), extra_tags=undo)
        return redirect(to_dose(batch, alkali))
    return dose_shown(request, batch, alkali, form=form)


@require_POST
@in_garden
def aim(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Say which alkali, which pH, read with what, and where."""
    batch = the_batch(garden, key)
    form = AimForm(request.POST, batch=batch, choices=alkalis.for_batch(batch))
    if form.is_valid():
        keeping.keep(form.write_on(batch), by=request.user)
        return redirect(to_dose(batch, form.cleaned_data["alkali"]))
    return dose_shown(request, batch, chosen(request, batch), form=form)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of the dose is so."""
    batch = the_batch(garden, key)
    alkali = chosen(request, batch)
    return why_shown(
        request, work_out(batch, alkali).answer, figure=figure, address=why_of(batch, alkali),
        back=Link(to=to_dose(batch, alkali), name=batch.name), missing=_("No dose can be worked out yet."),
    )  # fmt: skip


@require_safe
@in_garden
def card(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The alkali card, to be printed."""
    batch = the_batch(garden, key)
    alkali = chosen(request, batch)
    if alkali is None:
        return redirect(to_dose(batch, None))
    return shown(request, "alkali/card.html", alkali_card(batch, alkali, now=timezone.now()))


def dose_shown(request: HttpRequest, batch: Batch, alkali: Alkali | None, *, form: Form | None) -> HttpResponse:
    """The page with its three forms, of which `form` may be one that was just posted."""
    choices = alkalis.for_batch(batch)
    wrong = form is not None and form.is_bound
    part = form if isinstance(form, PartForm) else part_form(None, batch, alkali)
    look_form = form if isinstance(form, LookForm) else LookForm(batch=batch)
    aim_form: Any = form if isinstance(form, AimForm) else None
    if aim_form is None and choices:
        aim_form = AimForm(batch=batch, choices=choices, initial=AimForm.first(batch, alkali))
    page = dose_page(batch, alkali)
    beside = {"form": form, "part": part, "look": look_form, "aim": aim_form}
    return shown(request, "alkali/dose.html", page, status=422 if wrong else 200, **beside)


def part_form(request: HttpRequest | None, batch: Batch, alkali: Alkali | None) -> PartForm | None:
    """The form for a part; None where there is no alkali, or no liquor to put it in."""
    if alkali is None:
        return None
    try:
        litres = liquor_l(batch)
    except InputError:
        return None
    return PartForm(posted(request) if request is not None else None, batch=batch, alkali=alkali, liquor_l=litres)


def chosen(request: HttpRequest, batch: Batch) -> Alkali | None:
    """The alkali that is asked for, or the likeliest; None where the cupboard is empty."""
    choices = alkalis.for_batch(batch)
    asked = request.GET.get("alkali", "")
    return next((one for one in choices if str(one.pk) == asked), choices[0] if choices else None)


def to_dose(batch: Batch, alkali: Alkali | None) -> str:
    """Back to the dose, with the same alkali."""
    page = reverse("alkali.dose", kwargs={"key": batch.pk})
    return page if alkali is None else f"{page}?alkali={alkali.pk}"
