"""What the page of a bed's water shows: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.utils.translation import gettext as _

from bluewright.charts.answers import water_chart
from bluewright.journal.models import Bed, WaterNote
from bluewright.journal.models.water import FEELS, STAGES
from bluewright.science.watering.record import BedWaterAnswer
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.why import main_why
from bluewright.web.ui.why_view import why_address
from bluewright.words.numbers import sentence, weekday
from bluewright.words.watering import said


@dataclass(frozen=True, slots=True, kw_only=True)
class NoteRow:
    """What was given or seen on a day."""

    key: str
    when: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WateringPage:
    """The water of one bed."""

    key: str
    name: str
    answer: Answered | None
    trouble: str
    needs_area: bool
    needs_place: bool
    taken_for: str
    """What was taken for known that nobody wrote down."""
    notes: tuple[NoteRow, ...]


def watering_page(
    bed: Bed, *, answer: BedWaterAnswer | None, notes: Sequence[WaterNote], trouble: str = ""
) -> WateringPage:
    """The page of a bed's water, given its answer."""
    return WateringPage(
        key=str(bed.pk),
        name=bed.name,
        answer=None if answer is None else _answered(bed, answer),
        trouble=trouble,
        needs_area=bed.area_m2 is None,
        needs_place=bed.garden.latitude_deg is None,
        taken_for=_taken_for(bed, notes),
        notes=tuple(_row(row) for row in reversed(notes)),
    )


def _answered(bed: Bed, answer: BedWaterAnswer) -> Answered:
    found = said(answer)
    why = main_why(answer, address=why_address("watering.why", key=bed.pk))
    return answered(found, chart=water_chart(answer, answer=found.first), why=why)


def _taken_for(bed: Bed, notes: Sequence[WaterNote]) -> str:
    """Which of soil and cover is guessed."""
    soil, cover = bed.soil == "unknown", not any(row.stage for row in notes)
    if soil and cover:
        return _("The soil is taken as any, and the ground as about half shaded: say both, and the range narrows.")
    if soil:
        return _("The soil is taken as any: say which it is, and the range narrows.")
    return _("How much of the ground is shaded was not said lately; look, and say so.") if cover else ""


def _row(row: WaterNote) -> NoteRow:
    told = [row.water_typed] if row.water_typed else []
    told += [_("felt %(soil)s") % {"soil": dict(FEELS)[row.felt]}] if row.felt else []
    told += [_("leaves shade %(much)s") % {"much": dict(STAGES)[row.stage]}] if row.stage else []
    return NoteRow(key=str(row.pk), when=weekday(row.day), said=sentence("; ".join(told)))
