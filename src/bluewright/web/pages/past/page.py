"""What the page of a bed's past shows: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from uuid import UUID
from zoneinfo import ZoneInfo

from django.contrib import messages
from django.http import HttpRequest
from django.utils import timezone
from django.utils.translation import gettext as _

from bluewright.journal.bridge.past import own_years, rotation_of, sown_in
from bluewright.journal.models import Bed, BedPast
from bluewright.journal.queries.history import Step
from bluewright.science.bed.rotation_record import RotationAnswer
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.history import HistoryRow, history
from bluewright.web.ui.why import main_why
from bluewright.web.ui.why_view import why_address
from bluewright.words import rotation
from bluewright.words.numbers import sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class YearRow:
    """What grew in a year."""

    key: str
    """Empty where it is known from the bed's own seasons: there is nothing to correct."""
    year: str
    said: str
    history: tuple[HistoryRow, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PastPage:
    """The past of one bed."""

    key: str
    name: str
    asked: str
    """Of which sowing the answer is."""
    answer: Answered
    again: Answered | None
    """The same of the next year, where something stands."""
    again_asked: str
    years: tuple[YearRow, ...]


def answer_now(bed: Bed, *, today: date) -> RotationAnswer:
    """Whether what stands may stand there; of a bare bed, whether its plant may be sown this year."""
    return rotation_of(bed, sow_year=sown_in(bed, today=today) or today.year, today=today)


def rotation_first(bed: Bed) -> str:
    """What to say first of a bed that should have waited, or should; empty where its plant fits."""
    today = timezone.localdate()
    found = answer_now(bed, today=today)
    stands = sown_in(bed, today=today) is not None
    return "" if found.advice == "fits" else str((rotation.standing if stands else rotation.said)(found).parts[0])


def warn_of_rotation(request: HttpRequest, bed: Bed) -> None:
    """Say at once where a bed that is begun should wait."""
    first = rotation_first(bed)
    if first:
        messages.warning(request, f"{bed.name}: {first}")


def past_page(bed: Bed, *, rows: Sequence[BedPast], steps: Mapping[UUID, Sequence[Step]], today: date) -> PastPage:
    """The page of a bed's past."""
    found, stands = answer_now(bed, today=today), sown_in(bed, today=today) is not None
    told = {"plant": bed.get_plant_display(), "year": str(found.inputs.sow_year), "next": str(today.year + 1)}
    return PastPage(
        key=str(bed.pk),
        name=bed.name,
        asked=(_("The %(plant)s of %(year)s") if stands else _("To sow %(plant)s in %(year)s")) % told,
        answer=_answered(bed, found, stands=stands),
        again=answered(rotation.said(rotation_of(bed, sow_year=today.year + 1, today=today))) if stands else None,
        again_asked=_("To sow %(plant)s again in %(next)s") % told,
        years=_years(bed, rows, steps, today),
    )


def _answered(bed: Bed, found: RotationAnswer, *, stands: bool) -> Answered:
    why = None if found.spores_left_frac is None else main_why(found, address=why_address("past.why", key=bed.pk))
    return answered((rotation.standing if stands else rotation.said)(found), why=why)


def _years(bed: Bed, rows: Sequence[BedPast], steps: Mapping[UUID, Sequence[Step]], today: date) -> tuple[YearRow, ...]:
    """What was written down and what the bed's own seasons tell, the latest first."""
    zone = ZoneInfo(bed.garden.time_zone)
    told = [
        (row.year, YearRow(key=str(row.pk), year=str(row.year), said=_said(row),
                           history=history(row, steps.get(row.pk, ()), zone)))
        for row in rows
    ]  # fmt: skip
    own = _("%(plant)s, by the looks and pickings of this bed") % {"plant": bed.get_plant_display()}
    told += [
        (year, YearRow(key="", year=str(year), said=sentence(own), history=()))
        for year in own_years(bed, before=today.year + 1, today=today)
    ]
    return tuple(row for _year, row in sorted(told, key=lambda pair: -pair[0]))


def _said(row: BedPast) -> str:
    """`Kale; the cabbage family; roots were swollen`."""
    family = _("the cabbage family") if row.family == "cabbage" else _("not of the cabbage family")
    told = [*filter(None, [row.crop]), family]
    told += [_("roots were swollen: clubroot")] if row.clubroot else []
    return sentence("; ".join([*told, *filter(None, [row.note])]))
