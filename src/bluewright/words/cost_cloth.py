"""What a dyed piece costs."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from bluewright.science.base.bands import Band
from bluewright.science.cost.cloth_record import ClothCostAnswer, ClothItem
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.money import money
from bluewright.words.numbers import hours, percent, ranged
from bluewright.words.said import Rows, Said

QUESTION: Final = marked("What does a dyed piece cost, in blue, in what the vat ate, and in hours?")
ITEMS: Final[Mapping[ClothItem, str]] = {
    "blue": marked("the blue"),
    "vat": marked("its share of reductant and alkali"),
    "work": marked("work on it"),
    "own": marked("what was paid for it alone"),
}


def said(found: ClothCostAnswer) -> Said:
    """The answer as the person who dyed it reads it."""
    table = (parts_table(found),) if found.parts else ()
    return Said(parts=(*lines(found), *table), cautions=found.cautions)


def lines(found: ClothCostAnswer) -> tuple[str, ...]:
    """The whole, the largest part, the blue, the hours."""
    blue = _("It took %(blue)s of pure blue from its vats.") % {"blue": ranged(found.blue_g, "g")}
    told = [blue]
    if found.cost_money is not None:
        told.insert(0, _("It costs %(money)s in all.") % {"money": _money(found.cost_money, found)})
    if found.most is not None and len(found.parts) > 1:
        most = {"what": _(ITEMS[found.most]), "share": percent(found.parts[0].share_frac)}
        told.append(_("Most of it is %(what)s: %(share)s.") % most)
    if found.work_h is not None:
        told.append(_("Work on it: %(hours)s.") % {"hours": hours(found.work_h)})
    if found.vats_work_h is not None:
        shared = {"hours": hours(found.vats_work_h)}
        told.append(_("Of it its share of the work at its vats, by kilograms dipped: %(hours)s.") % shared)
    return tuple(told)


def parts_table(found: ClothCostAnswer) -> Rows:
    """Where it goes."""
    rows = ((_(ITEMS[part.item]), _money(part.cost_money, found), percent(part.share_frac)) for part in found.parts)
    return Rows(caption=_("Where it goes"), head=(_("what"), _("money"), _("share")), rows=tuple(rows))


def _money(band: Band, found: ClothCostAnswer) -> str:
    return money(band, currency=found.inputs.currency, decimals=found.inputs.money_decimals)
