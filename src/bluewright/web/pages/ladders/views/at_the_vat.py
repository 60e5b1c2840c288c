"""The checklist at the vat: a dip begins, a dip ends, a slip is taken back."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Garden, LadderDip
from bluewright.journal.queries.ladders import dips_done, open_dip
from bluewright.web.pages.ladders.vat_page import at_the_vat
from bluewright.web.pages.ladders.views.plain import a_ladder
from bluewright.web.ui.respond import brought_back, in_garden, shown, taken_out


@require_safe
@in_garden
def dips(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """What is to be done at the vat now."""
    return shown(request, "ladders/dips.html", at_the_vat(a_ladder(garden, key), now=timezone.now()))


@require_POST
@in_garden
def dip_in(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """All strips that still want a dip go in, once."""
    row = a_ladder(garden, key)
    wanted = max((rung.dips for rung in row.rungs.all()), default=0)
    if open_dip(row) is None and len(dips_done(row)) < wanted:
        dip = keep(LadderDip(ladder=row, began_at=timezone.now()), by=request.user)
        undo = reverse("ladders.delete_dip", kwargs={"key": key, "row": dip.pk})
        messages.success(request, _("They are in."), extra_tags=undo)
    return redirect("ladders.dips", key=key)


@require_POST
@in_garden
def dip_out(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """They come out."""
    dip = open_dip(a_ladder(garden, key))
    if dip is not None:
        dip.ended_at = timezone.now()
        keep(dip, by=request.user)
        messages.success(request, _("They are out."))
    return redirect("ladders.dips", key=key)


@require_POST
@in_garden
def delete_dip(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Take a dip out that never was."""
    dip = get_object_or_404(LadderDip, pk=row, ladder=a_ladder(garden, key))
    undo = reverse("ladders.restore_dip", kwargs={"key": key, "row": row})
    taken_out(request, dip, said=_("The dip is taken out."), undo=undo)
    return redirect("ladders.dips", key=key)


@require_POST
@in_garden
def restore_dip(request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
    """Bring a dip back."""
    brought_back(request, get_object_or_404(LadderDip.everything, pk=row, ladder=a_ladder(garden, key)))
    return redirect("ladders.dips", key=key)
