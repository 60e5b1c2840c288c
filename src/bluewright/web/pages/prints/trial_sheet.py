"""All lots of a trial as slips to cut out, fold and close: number, picking and tub outside, the way inside."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from typing import Final
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.journal.models import Trial
from bluewright.web.pages.prints.paper import invented_mark, paper_of
from bluewright.words.numbers import moment

FOLDED: Final = (24, 72, 168)
"""Up to so many slips stand in one, two, three columns of a sheet; beyond, in four and on further sheets."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """One lot."""

    number: int
    block: str
    vessel: int
    way: str
    outside: str
    """What is read before it is opened."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialSheet:
    """All lots of a trial."""

    key: str
    name: str
    paper: str
    """`a4` or `us-letter`."""
    question: str
    garden: str
    seal: str
    how: str
    """What to do with the sheet."""
    columns: int
    slips: tuple[Slip, ...]
    filled: str
    """What stands before the line for the moment when it was filled."""
    made: str


def trial_sheet(row: Trial, *, now: datetime) -> TrialSheet:
    """The sheet; it tells every lot."""
    mark, lots = invented_mark(row.garden), list(row.lots.all())
    return TrialSheet(
        key=str(row.pk),
        name=row.name,
        paper=paper_of(row.garden),
        question=row.question,
        garden=f"{row.garden.name} ({mark})" if mark else row.garden.name,
        seal=_("Seal of the lots: %(seal)s") % {"seal": row.seal},
        how=_("Let somebody else cut along the lines, fold the right half behind the left and close it with tape."),
        columns=1 + sum(len(lots) > most for most in FOLDED),
        slips=tuple(
            Slip(
                number=lot.number, block=lot.block, vessel=lot.vessel, way=lot.way,
                outside=_("picking %(block)s, tub %(vessel)d") % {"block": lot.block, "vessel": lot.vessel},
            )
            for lot in lots
        ),
        filled=_("filled at"),
        made=_("Printed %(when)s.") % {"when": moment(now.astimezone(ZoneInfo(row.garden.time_zone)))},
    )  # fmt: skip
