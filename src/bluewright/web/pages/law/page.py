"""What the page of the law shows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from django.utils.translation import gettext as _

from bluewright.journal.models import Garden, LawCheck
from bluewright.journal.queries.law import last_check
from bluewright.science.media import law
from bluewright.words.numbers import day, sentence
from bluewright.words.own_text import own_text

SPREADING: Final = frozenset({"woad"})
"""Plants that are known to spread where they are not wanted."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckRow:
    """One check."""

    key: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LawPage:
    """What to mind, and what was asked."""

    cautions: tuple[str, ...]
    checks: tuple[CheckRow, ...]


def law_page(checks: Sequence[LawCheck]) -> LawPage:
    """The page with all checks of a garden."""
    return LawPage(
        cautions=tuple(own_text(one.text) for one in law.cautions("woad")),
        checks=tuple(CheckRow(key=str(row.pk), said=sentence(_row(row))) for row in checks),
    )


def law_said(garden: Garden, plant: str) -> str:
    """Whether the law was asked about a plant that spreads; empty for others of which nobody asked."""
    last = last_check(garden, plant)
    if last is not None:
        return _("The law was checked on %(day)s with %(whom)s.") % _told(last)
    return _("Nobody has written down yet that the law of the place was asked.") if plant in SPREADING else ""


def _told(row: LawCheck) -> dict[str, str]:
    return {"plant": row.get_plant_display(), "day": day(row.day), "whom": row.whom}


def _row(row: LawCheck) -> str:
    said = _("%(plant)s: checked on %(day)s with %(whom)s") % _told(row)
    return f"{said}: {row.note}" if row.note else said
