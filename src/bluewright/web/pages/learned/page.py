"""What the pages of the memory show."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import dataclass, replace

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.charts.memory_chart import memory_chart
from bluewright.journal.bridge.learned import Kept, would_change
from bluewright.journal.models import LeftOut, OthersTaught
from bluewright.science.base.records import dump
from bluewright.science.memory.pool import common_of
from bluewright.science.memory.pool_record import SharedGarden
from bluewright.science.memory.record import GardenAnswer, Place
from bluewright.web.pages.learned.forms import sealed
from bluewright.web.ui.answered import Answered, Table, answered, shown_table
from bluewright.web.ui.why import Link
from bluewright.words.memory import changes_table, common_table, per_leaf, said
from bluewright.words.numbers import day, sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOutRow:
    """One tub that is left out."""

    key: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LearnedPage:
    """What was learned, as it was last reckoned."""

    answer: Answered | None
    state: str
    """Whether it is being reckoned, or there is nothing to learn from; empty where it is as of now."""
    reckoning: bool
    """Whether a later look shows more."""
    left_out: tuple[LeftOutRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SharePage:
    """What could be given away, as it would go."""

    facts: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OthersRow:
    """One taking in."""

    key: str
    name: str
    said: str
    in_use: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class OthersPage:
    """What other gardens taught, and what that changes here."""

    rows: tuple[OthersRow, ...]
    here: str
    """What it changes of this garden's next batch."""
    table: Table | None
    """What it changes of any garden; None where nothing is taken in."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BeforePage:
    """What files of other gardens would change, before they are taken in."""

    name: str
    said: str
    """How many gardens, and what they would take the place of."""
    here: str
    """What it would change of this garden's next batch."""
    tables: tuple[Table, ...]
    """Each figure that would change, here and of any garden."""
    sealed: str
    """All of it, to be handed back as it is."""


def before_page(row: OthersTaught, *, in_use: OthersTaught | None, found: Kept | None, fresh: bool) -> BeforePage:
    """The page of what was not written yet; `in_use` is what counts now."""
    here, tables = _would_change(row, found, fresh=fresh)
    said_of = ngettext("%(gardens)s garden.", "%(gardens)s gardens.", row.gardens) % {"gardens": row.gardens}
    if in_use is not None:
        said_of += " " + _("They would take the place of %(name)s, which stays in the list.") % {"name": in_use.name}
    return BeforePage(name=row.name, said=said_of, here=here, tables=tables, sealed=sealed(row))


def _would_change(row: OthersTaught, found: Kept | None, *, fresh: bool) -> tuple[str, tuple[Table, ...]]:
    everywhere = common_table(common_of(row.prior))
    if found is not None and found.learned is not None:
        changes = would_change(found.learned, row.prior)
        told = {"now": per_leaf(changes.now), "then": per_leaf(changes.then)}
        here = _("Your next batch gives %(now)s of pure blue as believed now; with what they taught %(then)s.") % told
        own = changes_table(changes.lessons)
        if not own.rows:
            here += " " + _("Nothing else of it moves by as much as a twentieth of its range.")
        tables = [own, everywhere]
    elif fresh:
        here = _("This garden has no strained tub yet: its first forecasts would begin from what they taught.")
        tables = [everywhere]
    else:
        here = _("What this garden's own tubs taught is being reckoned. Look again in a moment.")
        tables = [everywhere]
    return here, tuple(shown_table(table) for table in tables if table.rows)


def others_page(rows: Sequence[OthersTaught], *, found: Kept | None, fresh: bool) -> OthersPage:
    """The page; the first row is the one in use."""
    return OthersPage(
        rows=tuple(
            OthersRow(key=str(row.pk), name=row.name, said=_others_row(row), in_use=row is rows[0]) for row in rows
        ),
        here=_changes_here(found, fresh=fresh) if rows else "",
        table=shown_table(common_table(common_of(rows[0].prior))) if rows else None,
    )


def _others_row(row: OthersTaught) -> str:
    told = {"gardens": row.gardens, "when": day(row.made_at)}
    return (
        ngettext("%(gardens)s garden, taken in %(when)s", "%(gardens)s gardens, taken in %(when)s", row.gardens) % told
    )


def _changes_here(found: Kept | None, *, fresh: bool) -> str:
    if not fresh:
        return _("What it changes here is being reckoned. Look again in a moment.")
    if found is None or found.answer is None or found.alone is None:
        return _("This garden has no strained tub yet: its first forecasts will begin from what they taught.")
    told = {"alone": per_leaf(found.alone), "now": per_leaf(found.answer.pure_g_per_kg)}
    return _("By your tubs alone the next gives %(alone)s of pure blue; with what they taught %(now)s.") % told


def learned_page(
    found: Kept | None, *, fresh: bool, progress: tuple[int, int] | None, rows: Sequence[LeftOut], beds: dict[str, str]
) -> LearnedPage:
    """The page; `beds` are names by key."""
    return LearnedPage(
        answer=None if found is None or found.answer is None else _answered(_named(found.answer, beds)),
        state=_state(found, fresh=fresh, progress=progress),
        reckoning=not fresh,
        left_out=tuple(LeftOutRow(key=str(row.pk), said=sentence(_row(row))) for row in rows),
    )


def share_page(given: SharedGarden) -> SharePage:
    """The preview: every character that would go."""
    told = {"batches": len(given.batches), "plants": len(given.messages)}
    return SharePage(
        facts=_("%(batches)s batches, summaries of %(plants)s plants; no names, no place, no day.") % told,
        text=share_text(given),
    )


def share_text(given: SharedGarden) -> str:
    """The file itself."""
    return json.dumps(dump(given), indent=1, ensure_ascii=False) + "\n"


def _state(found: Kept | None, *, fresh: bool, progress: tuple[int, int] | None) -> str:
    if progress is not None:
        told = {"read": progress[0], "of": progress[1]}
        return _("It is being reckoned: %(read)s of %(of)s tubs are read.") % told
    if not fresh:
        return _("It is being reckoned.")
    if found is None or found.answer is None:
        return _("There is nothing to learn from yet: the first strained tub begins it, its weighed jar teaches most.")
    return ""


def _answered(answer: GardenAnswer) -> Answered:
    told = said(answer)
    why = Link(to=reverse("learned.why", kwargs={"figure": "pure_g_per_kg"}), name=_("what a kilogram of leaf gives"))
    return answered(told, chart=memory_chart(answer, answer=told.first), why=why)


def _named(answer: GardenAnswer, beds: dict[str, str]) -> GardenAnswer:
    """The answer with beds by their names, and without people."""
    places = tuple(_place(one, beds) for one in answer.places if one.part != "reader")
    return replace(answer, places=places)


def _place(place: Place, beds: dict[str, str]) -> Place:
    return replace(place, key=beds.get(place.key, place.key)) if place.part == "bed" else place


def _row(row: LeftOut) -> str:
    told = {
        "tub": row.steep.name,
        "day": day(row.steep.started_at),
        "why": row.why,
    }
    return _("%(tub)s of %(day)s: %(why)s") % told
