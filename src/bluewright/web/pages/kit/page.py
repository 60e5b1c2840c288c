"""What the page of the kit shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.journal.models import Garden, KitItem
from bluewright.words.money import price


@dataclass(frozen=True, slots=True, kw_only=True)
class KitRow:
    """One thing."""

    key: str
    name: str
    said: str
    """What was paid, and over what that is shared."""


@dataclass(frozen=True, slots=True, kw_only=True)
class KitPage:
    """All of it."""

    rows: tuple[KitRow, ...]


def kit_page(of: Garden, rows: Sequence[KitItem]) -> KitPage:
    """The page of a garden's kit."""
    return KitPage(rows=tuple(KitRow(key=str(row.pk), name=row.name, said=_said(of, row)) for row in rows))


def _said(of: Garden, row: KitItem) -> str:
    def money(value: float) -> str:
        return price(value, currency=of.currency, decimals=of.money_decimals)

    told = {"paid": money(row.paid_money), "left": money(row.left_money), "lasts": _lasts(row)}
    if row.left_money:
        return _("%(paid)s, of which %(left)s are left in the end, over %(lasts)s") % told
    return _("%(paid)s, over %(lasts)s") % told


def _lasts(row: KitItem) -> str:
    if row.lasts_years is not None:
        return ngettext("%(n)d year", "%(n)d years", row.lasts_years) % {"n": row.lasts_years}
    batches = row.lasts_batches or 1
    return ngettext("%(n)d batch", "%(n)d batches", batches) % {"n": batches}
