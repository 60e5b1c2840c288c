"""Parts and looks of a batch, out of sight and in again."""

from __future__ import annotations

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from bluewright.journal.models import AlkaliPart, Garden, LiquorLook
from bluewright.web.ui.respond import brought_back, in_garden, taken_out


@require_POST
@in_garden
def delete_part(request: HttpRequest, garden: Garden, key: UUID, part: UUID) -> HttpResponse:
    """It did not go in after all."""
    row = get_object_or_404(AlkaliPart, pk=part, batch__pk=key, batch__garden=garden)
    taken_out(
        request, row, said=_("Taken out."), undo=reverse("alkali.restore_part", kwargs={"key": key, "part": part})
    )
    return redirect("alkali.dose", key=key)


@require_POST
@in_garden
def restore_part(request: HttpRequest, garden: Garden, key: UUID, part: UUID) -> HttpResponse:
    """It went in after all."""
    brought_back(request, get_object_or_404(AlkaliPart.everything, pk=part, batch__pk=key, batch__garden=garden))
    return redirect("alkali.dose", key=key)


@require_POST
@in_garden
def delete_look(request: HttpRequest, garden: Garden, key: UUID, look: UUID) -> HttpResponse:
    """Take a reading of the liquor back."""
    row = get_object_or_404(LiquorLook, pk=look, batch__pk=key, batch__garden=garden)
    taken_out(
        request, row, said=_("Taken out."), undo=reverse("alkali.restore_look", kwargs={"key": key, "look": look})
    )
    return redirect("alkali.dose", key=key)


@require_POST
@in_garden
def restore_look(request: HttpRequest, garden: Garden, key: UUID, look: UUID) -> HttpResponse:
    """Bring a reading of the liquor back."""
    brought_back(request, get_object_or_404(LiquorLook.everything, pk=look, batch__pk=key, batch__garden=garden))
    return redirect("alkali.dose", key=key)
