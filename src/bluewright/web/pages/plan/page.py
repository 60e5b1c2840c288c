"""What the pages of the plan show: rounding and words happen here, once."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from zoneinfo import ZoneInfo

from django.utils.translation import gettext as _

from bluewright.charts.plan_chart import plan_chart
from bluewright.journal.bridge.planning import due
from bluewright.journal.models import Garden, Want
from bluewright.journal.queries.history import Step
from bluewright.science.plan.chain_record import ClothPlanAnswer, DaysBack, Taken
from bluewright.science.season.answer import SeasonAnswer
from bluewright.web.pages.schedule.page import work_ahead
from bluewright.web.ui.answered import Answered, Table, answered
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.web.ui.why import main_why
from bluewright.web.ui.why_view import why_address
from bluewright.words import plan_cloth as words
from bluewright.words.measures import measured
from bluewright.words.numbers import ranged, sentence, weekday


@dataclass(frozen=True, slots=True, kw_only=True)
class WantRow:
    """One want at a glance."""

    key: str
    name: str
    said: str
    """What it is and by when."""
    slack: str
    """How much time is left, or that it is late; empty where it has no day."""
    state: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanPage:
    """The plan of a garden."""

    answer: Answered | None
    trouble: str
    """Why nothing can be reckoned; empty where it can."""
    wanted: tuple[WantRow, ...]
    past: tuple[WantRow, ...]
    """What is done or was dropped."""
    can_dye: Table | None
    """What the jars alone are enough for."""
    unknown: str
    """Jars of which nobody knows how much is indigo; empty where there is none."""
    waits: bool
    """Whether forecasts of beds are still being worked out."""
    needs_place: bool
    """Whether the garden does not say where it lies."""
    next_planned: str
    """What the season's schedule has next, with its day; empty where there is none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WantPage:
    """One want."""

    row: WantRow
    open: bool
    takes: tuple[str, ...]
    """What it takes by itself, in sentences."""
    days: tuple[tuple[str, str], ...]
    """Each step and the day by which it begins."""
    note: str
    written: str
    history: tuple[HistoryRow, ...]


def plan_page(
    garden: Garden, *, answer: ClothPlanAnswer | None, trouble: str, wants: Sequence[Want], unknown: Sequence[str],
    today: date, waits: bool, season: SeasonAnswer | None,
) -> PlanPage:  # fmt: skip
    """The page of a plan, given its answer."""
    days = days_of(answer)
    rows = [(want, _row(want, days.get((want.name, due(want, today))))) for want in wants]
    return PlanPage(
        answer=None if answer is None or not (answer.wants or answer.beds) else _answered(answer),
        trouble=trouble,
        wanted=tuple(row for want, row in rows if want.state == "open"),
        past=tuple(row for want, row in rows if want.state != "open"),
        can_dye=None if answer is None else next(iter(answered(words.said_of_jars(answer)).tables), None),
        unknown=_("Counted as such pigment usually is, for want of an assay: %(jars)s.") % {"jars": ", ".join(unknown)}
        if unknown
        else "",
        waits=waits,
        needs_place=garden.latitude_deg is None,
        next_planned="" if season is None else _next(season, today),
    )


def want_page(want: Want, *, answer: ClothPlanAnswer | None, steps: Sequence[Step], today: date) -> WantPage:
    """The page of one want, given the answer of the whole plan."""
    zone = ZoneInfo(want.garden.time_zone)
    taken = next((one for one in answer.wants if is_of(one, want)), None) if answer and want.state == "open" else None
    days = days_of(answer).get((want.name, due(want, today))) if want.state == "open" else None
    return WantPage(
        row=_row(want, days),
        open=want.state == "open",
        takes=() if taken is None else _takes(taken),
        days=() if days is None or answer is None else _steps(days),
        note=want.note,
        written=written(want, zone),
        history=history(want, steps, zone),
    )


def _next(season: SeasonAnswer, today: date) -> str:
    for day, what in work_ahead(season, today=today):
        return _("Planned next, on %(day)s: %(what)s.") % {"day": weekday(day), "what": what}
    return _("Nothing is planned from today on.")


def _answered(answer: ClothPlanAnswer) -> Answered:
    found = words.said(answer)
    return answered(
        found, chart=plan_chart(answer, answer=found.first), why=main_why(answer, address=why_address("plan.why"))
    )


def is_of(one: Taken, want: Want) -> bool:
    """Whether this is what a want takes."""
    return one.kind == want.what and one.name == want.name and (one.by is None) == (want.by_day is None)


def days_of(answer: ClothPlanAnswer | None) -> dict[tuple[str, object], DaysBack]:
    """The days back by name and day of a want."""
    return {} if answer is None else {(one.name, one.by): one for one in answer.days}


def _row(want: Want, days: DaysBack | None) -> WantRow:
    return WantRow(
        key=str(want.pk),
        name=want.name,
        said=sentence(want_told(want)),
        slack="" if days is None else words.slack_said(days),
        state=want.get_state_display(),
    )


def want_told(want: Want) -> str:
    """`600 g of wool to medium blue, by Fri 20 Nov`."""
    told = {"mass": want.mass_typed, "fibre": want.get_fibre_display(), "depth": want.get_depth_display()}
    if want.what == "cloth" and want.fixed_typed:
        said = _("%(mass)s of %(fibre)s, %(fixed)s of indigo fixed on it") % (told | {"fixed": want.fixed_typed})
    elif want.what == "cloth":
        said = _("%(mass)s of %(fibre)s to %(depth)s") % told
    elif want.purity_typed:
        said = _("%(mass)s of pigment, %(purity)s of it pure indigo") % (told | {"purity": want.purity_typed})
    else:
        said = _("%(mass)s of pure indigo, as pigment") % told
    if want.by_day is None:
        return said
    return _("%(what)s, by %(day)s") % {"what": said, "day": weekday(want.by_day)}


def _takes(one: Taken) -> tuple[str, ...]:
    told = {
        "needed": ranged(one.needed_g, "g"), "jars": ranged(one.from_jars_g, "g"),
        "leaf": measured(one.leaf_kg, "mass_kg"), "area": measured(one.area_m2, "area_m2"),
        "beds": measured(one.from_beds_kg, "mass_kg"),
        "cloth": ranged(one.on_cloth_g, "g"), "drawn": ranged(one.drawn_g, "g"),
    }  # fmt: skip
    lines = []
    if one.kind == "cloth":
        lines.append(_("On the cloth: %(cloth)s of pure indigo; taken from the vat for it: %(drawn)s.") % told)
    lines.append(_("Pure indigo that must be there: %(needed)s.") % told)
    if one.from_jars_g.p95 > 0:
        lines.append(_("From the jars, once earlier wants have theirs: %(jars)s.") % told)
    if one.leaf_kg.p95 > 0:
        lines.append(_("Leaf for the rest: %(leaf)s.") % told)
    if one.from_beds_kg.p95 > 0:
        lines.append(_("Of it from beds that stand: %(beds)s.") % told)
    if one.area_m2.p95 > 0:
        lines.append(_("To be sown for what is missing, by itself: %(area)s.") % told)
    return tuple(lines)


def _steps(days: DaysBack) -> tuple[tuple[str, str], ...]:
    sow = [(words.sow_name(one.cuts), words.sow_said(one)) for one in days.sow]
    steps = [(_(words.STEPS[one.step]), weekday(one.begin_by)) for one in days.steps]
    return (*sow, *steps, (_("ready"), weekday(days.by)))
