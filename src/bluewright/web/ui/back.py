"""A row out of sight and in again, and from there to the page of what it belongs to: batch, vat, ladder, card."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.web.ui.respond import brought_back, taken_out


def out_of(
    request: HttpRequest, mine: QuerySet[Any], *, key: UUID, row: UUID, page: str, undo: str, said: str = ""
) -> HttpResponse:
    """Take the row out of `mine` (those of the thing `key`; else 404), with the page named `undo` as the way back."""
    way_back = reverse(undo, kwargs={"key": key, "row": row})
    taken_out(request, get_object_or_404(mine, pk=row), said=said or _("Taken out."), undo=way_back)
    return redirect(page, key=key)


def back_to(request: HttpRequest, mine: QuerySet[Any], *, key: UUID, row: UUID, page: str) -> HttpResponse:
    """Bring the row of `mine` back (deleted ones are among them; else 404)."""
    brought_back(request, get_object_or_404(mine, pk=row))
    return redirect(page, key=key)
