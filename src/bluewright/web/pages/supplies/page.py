"""What the page of supplies shows, and what stock says of them."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from bluewright.journal.models import Garden, Supply
from bluewright.journal.models.supply import SUPPLIES
from bluewright.journal.queries.supplies import Left
from bluewright.science.vat.dangers import DANGERS
from bluewright.science.vat.order import HAZARDS
from bluewright.words.measures import fitting
from bluewright.words.money import price
from bluewright.words.numbers import day, sentence
from bluewright.words.own_text import own_text


@dataclass(frozen=True, slots=True, kw_only=True)
class SupplyRow:
    """One pack."""

    key: str
    name: str
    said: str
    """What it held, what was paid, and when."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SuppliesPage:
    """All of them."""

    rows: tuple[SupplyRow, ...]
    care: tuple[str, ...]
    """What could hurt of what is at hand, each once."""


def supplies_page(of: Garden, rows: Sequence[Supply]) -> SuppliesPage:
    """The page of a garden's supplies."""
    return SuppliesPage(
        rows=tuple(SupplyRow(key=str(row.pk), name=str(row.get_kind_display()), said=_said(of, row)) for row in rows),
        care=tuple(_care({row.kind for row in rows if not row.used_up})),
    )


def _care(kinds: Collection[str]) -> list[str]:
    """What could hurt of these kinds, in the order of what could hurt most."""
    met = {hazard for kind, hazards in HAZARDS.items() if kind in kinds for hazard in hazards}
    return [own_text(caution.text) for hazard, caution in DANGERS.items() if hazard in met]


def left_said(left: Iterable[Left]) -> list[str]:
    """What is left of each kind, by the book."""
    names = dict(SUPPLIES)
    return [sentence(_left(str(names.get(one.kind, one.kind)), one)) for one in left]


def _left(name: str, one: Left) -> str:
    told = {"what": name, "left": _mass(max(one.left_g, 0.0)), "bought": _mass(one.bought_g)}
    if one.left_g < 0:
        return _("%(what)s: more went into vats than the %(bought)s bought: write the next pack down.") % told
    return _("%(what)s: %(left)s left of %(bought)s, by the book.") % told


def _mass(grams: float) -> str:
    return fitting(grams / 1000, "mass_kg")


def _said(of: Garden, row: Supply) -> str:
    told = {
        "pack": row.pack_typed, "paid": price(row.pack_money, currency=of.currency, decimals=of.money_decimals),
        "day": day(row.bought_on),
    }  # fmt: skip
    if row.used_up:
        return _("%(pack)s for %(paid)s, bought %(day)s, used up") % told
    return _("%(pack)s for %(paid)s, bought %(day)s") % told
