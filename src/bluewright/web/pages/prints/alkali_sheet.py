"""The alkali card on paper: what the card says, with the words around it and the paper it goes on."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext as _

from bluewright.journal.models import Garden
from bluewright.web.pages.alkali.card import AlkaliCard
from bluewright.web.pages.prints.paper import invented_mark, paper_of


@dataclass(frozen=True, slots=True, kw_only=True)
class AlkaliSheet:
    """A card for the wall beside the tub."""

    key: str
    name: str
    """The batch and the alkali."""
    garden: str
    invented: str
    """That none of it ever happened; empty for a garden that is there."""
    paper: str
    """`a4` or `us-letter`."""
    aim: str
    """The wanted pH and the dose with its range."""
    how: str
    head: tuple[str, ...]
    """Names of the columns beside the box to tick."""
    care: str
    """The words above the cautions."""
    made: str
    card: AlkaliCard


def alkali_sheet(card: AlkaliCard, garden: Garden) -> AlkaliSheet:
    """The sheet of a card."""
    return AlkaliSheet(
        key=card.key,
        name=f"{card.batch}: {card.alkali}",
        garden=garden.name,
        invented=invented_mark(garden),
        paper=paper_of(garden),
        aim=_("To pH %(wanted)s: %(dose)s") % {"wanted": card.wanted_ph, "dose": card.dose},
        how=_("After each part: stir, wait two minutes, read the pH. Stop when it is reached."),
        head=(_("add"), _("time"), _("pH")),
        care=_("Take care"),
        made=_("Worked out %(made)s. Bluewright") % {"made": card.made},
        card=card,
    )
