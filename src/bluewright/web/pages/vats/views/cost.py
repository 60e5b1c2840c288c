"""What a vat cost: all that went in, each thing with its money, and what has no price."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_safe

from bluewright.journal.bridge.piece_cost import vat_cost
from bluewright.journal.models import Garden
from bluewright.science.base.errors import BluewrightError
from bluewright.science.cost.vat import VatCost
from bluewright.web.pages.vats.asked import the_vat
from bluewright.web.ui.answered import Table
from bluewright.web.ui.respond import in_garden, shown
from bluewright.words.money import money, price
from bluewright.words.numbers import by_scale
from bluewright.words.own_text import own_text


@dataclass(frozen=True, slots=True, kw_only=True)
class CostPage:
    """What a vat cost."""

    key: str
    name: str
    first: str
    """The whole, or that nothing has a price, or why nothing can be said."""
    parts: Table | None
    unpriced: str
    """What has no price; empty where all has."""


@require_safe
@in_garden
def cost(request: HttpRequest, garden: Garden, key: UUID) -> HttpResponse:
    """What all that went into a vat cost."""
    vat = the_vat(garden, key)
    try:
        page = cost_page(garden, key=str(vat.pk), name=vat.name, found=vat_cost(vat, now=timezone.now()))
    except BluewrightError as error:
        page = CostPage(key=str(vat.pk), name=vat.name, first=own_text(str(error)), parts=None, unpriced="")
    return shown(request, "vats/cost.html", page)


def cost_page(of: Garden, *, key: str, name: str, found: VatCost) -> CostPage:
    """The page of what a vat cost."""
    style: dict[str, Any] = {"currency": of.currency, "decimals": of.money_decimals}
    rows = []
    if found.blue_money is not None:
        rows.append((False, (_("its pure blue"), "", money(found.blue_money, **style))))
    for one in found.others:
        rows.append((False, (_(one.name), f"{by_scale(one.used_g)} g", price(one.paid_money, **style))))
    whole = found.whole_money
    return CostPage(
        key=key,
        name=name,
        first=_("Nothing that went into it has a price yet.") if whole is None
        else _("What went into it cost %(money)s.") % {"money": money(whole, **style)},
        parts=Table(caption="", head=(_("what"), _("how much"), _("money")), rows=tuple(rows)) if rows else None,
        unpriced=_("Without a price, and not counted: %(what)s.") % {"what": ", ".join(map(_, found.unpriced))}
        if found.unpriced else "",
    )  # fmt: skip
