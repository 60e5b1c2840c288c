"""What hangs on a bed: written down, taken out and brought back in one way, and answered or told what is missing."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _

from bluewright.journal.actions.keeping import keep
from bluewright.journal.models import Bed, Garden
from bluewright.science.base.errors import BluewrightError
from bluewright.web.ui.back import back_to, out_of
from bluewright.web.ui.found import the_bed
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.own_text import own_text

A = TypeVar("A")


@dataclass(frozen=True, slots=True)
class OfBed:
    """Rows of a bed and their pages: `show`, `why`, `delete` and `restore` of one noun."""

    model: Any
    """A kind of `Kept` with a `bed`."""
    noun: str

    def written(self, request: HttpRequest, row: Any) -> HttpResponse:
        """Write a row down, offer the way back, and show the page again."""
        made = keep(row, by=request.user)
        undo = reverse(f"{self.noun}.delete", kwargs={"key": made.bed_id, "row": made.pk})
        messages.success(request, _("Written down."), extra_tags=undo)
        return redirect(f"{self.noun}.show", key=made.bed_id)

    def out(self, request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
        """Take a row out."""
        mine = self.model.objects.filter(bed=the_bed(garden, key))
        return out_of(request, mine, key=key, row=row, page=f"{self.noun}.show", undo=f"{self.noun}.restore")

    def back(self, request: HttpRequest, garden: Garden, key: UUID, row: UUID) -> HttpResponse:
        """Bring a row back."""
        mine = self.model.everything.filter(bed=the_bed(garden, key))
        return back_to(request, mine, key=key, row=row, page=f"{self.noun}.show")

    def why(self, request: HttpRequest, bed: Bed, answer: Any | None, *, figure: str, missing: str) -> HttpResponse:
        """Why a figure of the answer of a bed is so."""
        return why_shown(
            request, answer, figure=figure, address=why_address(f"{self.noun}.why", key=bed.pk),
            back=Link(to=reverse(f"{self.noun}.show", kwargs={"key": bed.pk}), name=bed.name), missing=missing,
        )  # fmt: skip


def answer_of(reckon: Callable[[], A | None]) -> tuple[A | None, str]:
    """The answer, or why there is none; both empty while something must be said first."""
    try:
        return reckon(), ""
    except BluewrightError as error:
        return None, own_text(str(error))
