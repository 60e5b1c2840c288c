"""Parts and looks of a batch: corrected, out of sight and in again."""

from __future__ import annotations

from typing import Any, Final
from uuid import UUID

from django.contrib import messages
from django.forms import Form
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from bluewright.journal.actions.keeping import keep
from bluewright.journal.bridge.sources import liquor_l
from bluewright.journal.models import AlkaliPart, Batch, Garden, LiquorLook
from bluewright.journal.models.kept import Kept
from bluewright.science.base.errors import InputError
from bluewright.web.pages.alkali.forms import LookForm, PartForm
from bluewright.web.pages.alkali.typed import as_typed_look, as_typed_part, write_look, write_part
from bluewright.web.pages.batches.head import batch_head
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.found import the_batch
from bluewright.web.ui.respond import in_garden, posted

PAGE: Final = "alkali.dose"
MOST_L: Final = 10_000.0
"""A batch whose liquor is not known any more holds no more than this."""


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change_part(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Correct what was written of a part; which alkali it was stays: another one is another part."""
    part = get_object_or_404(AlkaliPart, pk=row, batch__pk=key, batch__garden=garden)
    batch = the_batch(garden, key)
    try:
        litres = liquor_l(batch)
    except InputError:
        litres = MOST_L
    form = PartForm(posted(request), batch=batch, alkali=part.alkali, liquor_l=litres, initial=as_typed_part(part))
    if form.is_bound and form.is_valid():
        return _corrected(request, write_part(form.cleaned_data, part))
    return _shown(request, batch, form, title=_("Correct what went in: %(alkali)s") % {"alkali": part.alkali.name})


@require_http_methods(["GET", "HEAD", "POST"])
@in_garden
def change_look(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Correct a reading of the liquor."""
    look = get_object_or_404(LiquorLook, pk=row, batch__pk=key, batch__garden=garden)
    batch = the_batch(garden, key)
    form = LookForm(posted(request), batch=batch, initial=as_typed_look(look))
    if form.is_bound and form.is_valid():
        return _corrected(request, write_look(form.cleaned_data, look))
    return _shown(request, batch, form, title=_("Correct a reading of the liquor"))


@require_POST
@in_garden
def delete_part(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """It did not go in after all."""
    mine = AlkaliPart.objects.filter(batch__pk=key, batch__garden=garden)
    return out_of(request, mine, key=key, row=row, page=PAGE, undo="alkali.restore_part")


@require_POST
@in_garden
def restore_part(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """It went in after all."""
    mine = AlkaliPart.everything.filter(batch__pk=key, batch__garden=garden)
    return back_to(request, mine, key=key, row=row, page=PAGE)


@require_POST
@in_garden
def delete_look(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a reading of the liquor back."""
    mine = LiquorLook.objects.filter(batch__pk=key, batch__garden=garden)
    return out_of(request, mine, key=key, row=row, page=PAGE, undo="alkali.restore_look")


@require_POST
@in_garden
def restore_look(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a reading of the liquor back."""
    mine = LiquorLook.everything.filter(batch__pk=key, batch__garden=garden)
    return back_to(request, mine, key=key, row=row, page=PAGE)


def _corrected(request: HttpRequest, row: Kept) -> HttpResponse:
    kept: Any = keep(row, by=request.user)
    messages.success(request, _("Corrected."))
    return redirect(PAGE, key=kept.batch_id)


def _shown(request: HttpRequest, batch: Batch, form: Form, *, title: str) -> HttpResponse:
    beside = {"head": batch_head(batch), "form": form, "title": title}
    return render(request, "alkali/change_row.html", beside, status=422 if form.errors else 200)
