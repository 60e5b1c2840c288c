"""The card of a vat on one sheet: how it stands, its recipe in the order of work, what could hurt, a square to it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from itertools import groupby
from typing import Final
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.bridge.vats import recipe_of
from bluewright.journal.models import Vat
from bluewright.science.base.errors import BluewrightError
from bluewright.science.base.records import read
from bluewright.science.vat.recipe_record import VatRecipeAnswer, VatRecipeRecord
from bluewright.science.vat.state_record import VatAnswer
from bluewright.web.pages.prints.jar_label import square
from bluewright.web.pages.prints.paper import invented_mark, paper_of
from bluewright.web.pages.vats.page import facts
from bluewright.web.pages.vats.story import addition_said, look_said, poured_said
from bluewright.words.numbers import moment
from bluewright.words.vat_recipe import said as recipe_said
from bluewright.words.vat_recipe import steps_said
from bluewright.words.vat_state import said


@dataclass(frozen=True, slots=True, kw_only=True)
class VatSheet:
    """A card to hang beside the vat."""

    key: str
    name: str
    garden: str
    invented: str
    """That none of it ever happened; empty for a garden that is there."""
    paper: str
    """`a4` or `us-letter`."""
    facts: str
    state_head: str
    state: tuple[str, ...]
    """How it stands and what to do, as when it was printed; or why nothing can be said."""
    steps_head: str
    steps: tuple[str, ...]
    """The recipe in its order; empty where it was made without one."""
    went_in_head: str
    went_in: tuple[str, ...]
    """What really went in, with its moment: at its making and since."""
    look_head: str
    look: str
    """The latest look; empty before the first."""
    care_head: str
    care: tuple[str, ...]
    """What could hurt someone: never left out."""
    address: str
    qr: str
    """The square, SVG text."""
    qr_says: str
    made: str


def vat_sheet(
    vat: Vat, *, answer: VatAnswer | None, trouble: str, address: str, in_house: bool, now: datetime
) -> VatSheet:  # fmt: skip
    """The sheet; `address` is that of the vat's page, `in_house` whether phones can open it."""
    zone, found = ZoneInfo(vat.garden.time_zone), _recipe(vat)
    looks = list(vat.readings.all())
    told = None if answer is None else said(answer)
    return VatSheet(
        key=str(vat.pk),
        name=vat.name,
        garden=vat.garden.name,
        invented=invented_mark(vat.garden),
        paper=paper_of(vat.garden),
        facts=facts(vat),
        state_head=_("How it stands"),
        state=(trouble,) if told is None else tuple(part for part in told.parts if isinstance(part, str)),
        steps_head=_("How it was made"),
        steps=tuple(steps_said(found)) if found is not None else (),
        went_in_head=_("What went in"),
        went_in=tuple(_went_in(vat, zone)),
        look_head=_("Last look, %(when)s") % {"when": moment(looks[-1].taken_at.astimezone(zone))} if looks else "",
        look=look_said(looks[-1]) if looks else "",
        care_head=_("Take care"),
        care=tuple(dict.fromkeys(_care(answer, found))),
        address=address,
        qr=square(address),
        qr_says=_("Opens this vat, only where Bluewright runs: in this house.")
        if in_house
        else _("Opens this vat, only on the machine where Bluewright runs."),
        made=_("Worked out %(made)s. Bluewright") % {"made": moment(now.astimezone(zone))},
    )


def _recipe(vat: Vat) -> VatRecipeAnswer | None:
    """The recipe that it was made by; None where it was made without one, or by one that is refused by now."""
    if not vat.recipe:
        return None
    try:
        return recipe_of(read(VatRecipeRecord, vat.recipe))
    except BluewrightError:
        return None


MOST_MOMENTS: Final = 8
"""A card has room for so many: the making and the latest."""


def _went_in(vat: Vat, zone: ZoneInfo) -> list[str]:
    """What went into it in its order, what came at one moment on one line."""
    found = [(row.added_at, addition_said(row)) for row in vat.additions.all()]
    found += [(row.poured_at, poured_said(row)) for row in vat.poured.all()]
    lines = []
    for at, rows in groupby(sorted(found, key=lambda one: one[0]), key=lambda one: one[0]):
        told = {"when": moment(at.astimezone(zone)), "what": "; ".join(said for _at, said in rows)}
        lines.append(_("%(when)s: %(what)s.") % told)
    return lines if len(lines) <= MOST_MOMENTS else [lines[0], *lines[1 - MOST_MOMENTS :]]


def _care(answer: VatAnswer | None, found: VatRecipeAnswer | None) -> Iterator[str]:
    """All that could hurt, of the vat as it stands and of its making."""
    yield from () if answer is None else said(answer).take_care
    yield from () if found is None else recipe_said(found).take_care
