"""What the page of costs shows: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.charts.costs import cost_chart
from bluewright.journal.models import Garden, WorkNote
from bluewright.journal.queries.work import is_dyeing
from bluewright.science.cost.cost_record import CostAnswer
from bluewright.web.ui.answered import Answered, Table, answered, shown_table
from bluewright.web.ui.turning import Linked
from bluewright.web.ui.why import Link
from bluewright.words.cost import batches_table, foremost, further, parts_table, spent_said
from bluewright.words.money import price
from bluewright.words.numbers import moment
from bluewright.words.said import Said


@dataclass(frozen=True, slots=True, kw_only=True)
class NoteRow:
    """One note of work, or a clock that runs."""

    key: str
    when: str
    said: str
    """`picking, Batch 3: 40 min`."""
    who: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CostsPage:
    """A season's costs."""

    title: str
    year: int
    years: tuple[Linked, ...]
    running: tuple[NoteRow, ...]
    answer: Answered | None
    """What is wanted first."""
    more: tuple[str, ...]
    """What is read after that."""
    batches: Table | None
    """Batch by batch; None where there is one."""
    parts: Table | None
    """Where it goes."""
    dyeing: str
    """Work on cloth, which is in none of it; empty where none was noted."""
    left_out: str
    """How many older batches are not in it; empty where all are."""
    prices: str
    """What is reckoned with, in a sentence; empty while nothing is priced."""
    notes: tuple[NoteRow, ...]
    notes_more: str


SHOWN = 60
"""So many notes are shown; all are counted."""


def costs_page(
    of: Garden, *, year: int, years: Sequence[Linked], answer: CostAnswer | None, left_out: int, why: Link | None,
    notes: Sequence[WorkNote], running: Iterable[WorkNote], now: datetime,
) -> CostsPage:  # fmt: skip
    """The page of a season."""
    zone = ZoneInfo(of.time_zone)
    more = len(notes) - SHOWN
    return CostsPage(
        title=_("Costs %(year)d") % {"year": year},
        year=year,
        years=tuple(years),
        running=tuple(_running(row, zone, now) for row in running),
        answer=None if answer is None else costs_answered(answer, why=why),
        more=() if answer is None else further(answer),
        batches=shown_table(batches_table(answer)) if answer is not None and len(answer.batches) > 1 else None,
        parts=None if answer is None else shown_table(parts_table(answer)),
        dyeing=_dyeing(notes),
        left_out=_("%(n)d older batches of the year are not in it.") % {"n": left_out} if left_out else "",
        prices=prices_said(of),
        notes=tuple(_note(row, zone) for row in notes[:SHOWN]),
        notes_more=_("and %(n)d older ones") % {"n": more} if more > 0 else "",
    )


def costs_answered(found: CostAnswer, *, why: Link | None) -> Answered:
    """What the blue costs, in the words that are wanted first, with its chart."""
    told = Said(parts=foremost(found), cautions=found.cautions)
    return answered(told, chart=cost_chart(found, answer=told.first), why=why)


def prices_said(of: Garden) -> str:
    """`An hour 12 EUR, a cubic metre of water 3.20 EUR; asked for a gram of pure blue: 14 EUR.`"""
    wage, water, asked = of.wage_money_per_h, of.water_money_per_m3, of.price_money_per_g
    parts = []
    if wage is not None:
        parts.append(_("an hour of work %(money)s") % {"money": _price(of, wage)})
    if water is not None and of.system == "us":
        parts.append(_("a thousand gallons of water %(money)s") % {"money": _price(of, 3.785411784 * water)})
    elif water is not None:
        parts.append(_("a cubic metre of water %(money)s") % {"money": _price(of, water)})
    if asked is not None:
        parts.append(_("a gram of pure blue is sold at %(money)s") % {"money": _price(of, asked)})
    return _("Reckoned with: %(prices)s.") % {"prices": ", ".join(parts)} if parts else ""


def _dyeing(notes: Iterable[WorkNote]) -> str:
    """The work that the blue does not carry."""
    spent = sum(note.spent_min or 0.0 for note in notes if is_dyeing(note))
    said_so = _("Work at vats and on cloth, %(spent)s, is no cost of the blue: each piece carries its own.")
    return said_so % {"spent": spent_said(spent)} if spent else ""


def _price(of: Garden, value: float) -> str:
    return price(value, currency=of.currency, decimals=of.money_decimals)


def _note(row: WorkNote, zone: ZoneInfo) -> NoteRow:
    told = {"what": row.what, "about": row.about, "spent": spent_said(row.spent_min or 0.0)}
    said_so = _("%(what)s, %(about)s: %(spent)s") % told if row.about else _("%(what)s: %(spent)s") % told
    return NoteRow(key=str(row.pk), when=moment(row.began_at.astimezone(zone)), said=said_so, who=_who(row))


def _running(row: WorkNote, zone: ZoneInfo, now: datetime) -> NoteRow:
    minutes = max(round((now - row.began_at).total_seconds() / 60), 0)
    told = {
        "what": row.what, "about": row.about,
        "for": ngettext("%(n)d minute so far", "%(n)d minutes so far", minutes) % {"n": minutes},
    }  # fmt: skip
    said_so = _("%(what)s, %(about)s: %(for)s") % told if row.about else _("%(what)s: %(for)s") % told
    return NoteRow(key=str(row.pk), when=moment(row.began_at.astimezone(zone)), said=said_so, who=_who(row))


def _who(row: WorkNote) -> str:
    return row.made_by.get_username() if row.made_by else ""
