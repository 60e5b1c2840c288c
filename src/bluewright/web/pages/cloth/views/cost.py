"""What a piece costs, and why."""

from __future__ import annotations

from dataclasses import dataclass
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.urls import reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from bluewright.journal.bridge.piece_cost import cost_record, reckoned
from bluewright.journal.models import Garden, Piece
from bluewright.science.base.errors import BluewrightError
from bluewright.science.cost.cloth_record import ClothCostAnswer
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.found import the_piece
from bluewright.web.ui.respond import in_garden, shown
from bluewright.web.ui.why import Link
from bluewright.web.ui.why_view import why_address, why_shown
from bluewright.words.cost_cloth import said
from bluewright.words.own_text import own_text


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceCostPage:
    """What a piece costs."""

    key: str
    name: str
    answer: Answered | None
    trouble: str
    """Why nothing can be said; empty where something is."""


@require_safe
@in_garden
def cost(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """Blue, share of the vat, hours and money of a piece."""
    row = the_piece(garden, key)
    answer, trouble = _answer(row)
    main = "blue_g" if answer is None or answer.cost_money is None else "cost_money"
    why_to = Link(to=reverse("cloth.why", kwargs={"key": key, "figure": main}), name=_("this"))
    page = PieceCostPage(
        key=str(row.pk), name=row.name, trouble=trouble,
        answer=None if answer is None else answered(said(answer), why=why_to),
    )  # fmt: skip
    return shown(request, "cloth/cost.html", page)


@require_safe
@in_garden
def why(request: HttpRequest, garden: Garden, key: UUID, figure: str) -> HttpResponse:
    """Why a figure of a piece's cost is so."""
    row = the_piece(garden, key)
    answer, trouble = _answer(row)
    return why_shown(
        request, answer, figure=figure, address=why_address("cloth.why", key=key), missing=trouble,
        back=Link(to=reverse("cloth.cost", kwargs={"key": key}), name=row.name),
    )  # fmt: skip


def _answer(row: Piece) -> tuple[ClothCostAnswer | None, str]:
    try:
        record = cost_record(row, now=timezone.now())
    except BluewrightError as error:
        return None, own_text(str(error))
    if record is None:
        return None, _("It has not been in a vat yet.")
    return reckoned(record), ""
