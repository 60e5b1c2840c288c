"""Drying: each view reads the batch, builds its page, shows it; each post is an action and a redirect."""

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

from bluewright.journal.actions import dryings as actions
from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Batch, Drying, Garden, Weighing
from bluewright.web.pages.batches.head import batch_head
from bluewright.web.pages.drying.forms import (
    DishForm,
    WeighForm,
    as_typed,
    first_weighing,
    new_weighing,
    write_drying,
)
from bluewright.web.pages.drying.page import dried, drying_page
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.found import or_404, the_batch
from bluewright.web.ui.respond import in_garden, posted, shown
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown


@require_safe
@in_garden
def show(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """The dishes of a batch: how dry each is, and when to weigh again."""
    return _shown(request, the_batch(garden, key))


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, row: UUID, figure: str) -> HttpResponse:
    """Why a figure of a dish's drying is so."""
    dish = _drying(the_batch(garden, key), row)
    return why_shown(
        request, dried(dish)[0], figure=figure, address=why_address("drying.why", key=key, row=row),
        back=Link(to=reverse("drying.show", kwargs={"key": key}), name=dish.batch.name),
        missing=_("Nothing can be said of this dish yet."),
    )  # fmt: skip


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def begin(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Put a dish to dry."""
    batch = the_batch(garden, key)
    last = next(iter(reversed(list(batch.dryings.all()))), None)
    first = as_typed(last) | {"dish": "", "note": ""} if last is not None else {}
    form = DishForm(posted(request), initial=first | {"started_at": timezone.localtime()})
    if request.method == "POST" and form.is_valid():
        drying = write_drying(form, Drying(batch=batch))
        actions.put_to_dry(drying, first=first_weighing(form), by=request.user)
        undo = reverse("drying.delete", kwargs={"key": key, "row": drying.pk})
        messages.success(request, _("Put to dry."), extra_tags=undo)
        return redirect("drying.show", key=key)
    return _form_shown(request, batch, form)


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Correct what was written of a dish; its weighings are corrected by taking them out."""
    batch = the_batch(garden, key)
    drying = _drying(batch, row)
    form = DishForm(posted(request), first=False, initial=as_typed(drying))
    if request.method == "POST" and form.is_valid():
        keep(write_drying(form, drying), by=request.user)
        messages.success(request, _("Corrected."))
        return redirect("drying.show", key=key)
    return _form_shown(request, batch, form)


@require_POST
@in_garden
def weigh(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Write a weighing down."""
    batch = the_batch(garden, key)
    drying = _drying(batch, row)
    form = WeighForm(request.POST, drying=drying)
    if not form.is_valid():
        return _shown(request, batch, wrong={str(row): form}, form=form, status=422)
    made = keep(new_weighing(form.cleaned_data, drying=drying), by=request.user)
    undo = reverse("drying.delete_weighing", kwargs={"key": key, "row": made.pk})
    messages.success(request, _("Written down."), extra_tags=undo)
    return redirect("drying.show", key=key)


@require_POST
@in_garden
def end(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """It is taken for dry."""
    drying = _drying(the_batch(garden, key), row)
    drying.ended_at = timezone.now()
    keep(drying, by=request.user)
    undo = reverse("drying.go_on", kwargs={"key": key, "row": row})
    messages.success(request, _("Taken for dry. It can go into a jar."), extra_tags=undo)
    return redirect("drying.show", key=key)


@require_POST
@in_garden
def go_on(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """It was not dry after all."""
    drying = _drying(the_batch(garden, key), row)
    drying.ended_at = None
    keep(drying, by=request.user)
    messages.info(request, _("It dries on."))
    return redirect("drying.show", key=key)


@require_POST
@in_garden
def delete_weighing(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a weighing back."""
    mine = Weighing.objects.filter(drying__batch__pk=key, drying__batch__garden=garden)
    return out_of(request, mine, key=key, row=row, page="drying.show", undo="drying.restore_weighing")


@require_POST
@in_garden
def restore_weighing(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a weighing back."""
    mine = Weighing.everything.filter(drying__batch__pk=key, drying__batch__garden=garden)
    return back_to(request, mine, key=key, row=row, page="drying.show")


@require_POST
@in_garden
def delete(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a dish out."""
    mine = Drying.objects.filter(batch__pk=key, batch__garden=garden)
    return out_of(
        request, mine, key=key, row=row, page="drying.show", undo="drying.restore", said=_("The dish is taken out.")
    )


@require_POST
@in_garden
def restore(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a dish back."""
    mine = Drying.everything.filter(batch__pk=key, batch__garden=garden)
    return back_to(request, mine, key=key, row=row, page="drying.show")


def _drying(batch: Batch, row: UUID) -> Drying:
    """One dish of a whole batch, with the batch and its weighings at hand."""
    found = or_404(next((one for one in batch.dryings.all() if one.pk == row), None), "dish of this batch")
    found.batch = batch
    return found


def _shown(
    request: HttpRequest, batch: Batch, *, wrong: dict[str, WeighForm] | None = None, status: int = 200, **beside: Any
) -> HttpResponse:
    page, first = drying_page(batch, now=timezone.now()), {"weighed_at": timezone.localtime()}
    by_key = {str(one.pk): one for one in batch.dryings.all()}
    forms = {key: WeighForm(drying=one, initial=first) for key, one in by_key.items()} | (wrong or {})
    dishes = [(dish, forms[dish.key]) for dish in page.dishes]
    return shown(request, "drying/show.html", page, status=status, dishes=dishes, **beside)


def _form_shown(request: HttpRequest, batch: Batch, form: DishForm) -> HttpResponse:
    beside = {"form": form, "head": batch_head(batch)}
    return render(request, "drying/dish.html", beside, status=422 if form.errors else 200)
