"""What the pages of trials show: rounding and words happen here, once. A sealed lot tells its way to nobody."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from uuid import UUID
from zoneinfo import ZoneInfo

from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from bluewright.charts.compare_answers import batches_chart, tubs_chart
from bluewright.journal.bridge.trials import Got
from bluewright.journal.models import Trial, TrialTub
from bluewright.journal.queries.history import Step
from bluewright.journal.queries.trials import tub_of
from bluewright.science.learn.design_record import TrialPlanAnswer
from bluewright.science.learn.mixed_record import BatchesAnswer
from bluewright.science.learn.trial_answer import TrialAnswer
from bluewright.web.ui.answered import Answered, answered
from bluewright.web.ui.history import HistoryRow, history, written
from bluewright.web.ui.turning import Linked
from bluewright.web.ui.why import Link
from bluewright.words.batches import said as many_said
from bluewright.words.compare import ASSIGNED, EQUAL, OUTCOMES, got_said
from bluewright.words.numbers import day, percent, sentence
from bluewright.words.trial import said
from bluewright.words.trial_plan import beforehand


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialRow:
    """One trial at a glance."""

    key: str
    name: str
    question: str
    stands: str
    """How far it is."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialsPage:
    """All trials of a garden."""

    rows: tuple[TrialRow, ...]
    pages: tuple[Linked, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchesPage:
    """What many batches say."""

    answer: Answered | None
    trouble: str
    """Why they say nothing yet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LotRow:
    """One lot; the way is empty while it is sealed."""

    key: str
    number: int
    block: str
    vessel: int
    sealed: bool
    way: str
    tub: str
    tub_page: str
    gave: str
    """What it gave, or why that is not known."""
    spoilt: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TrialPage:
    """One trial."""

    key: str
    name: str
    question: str
    stands: str
    ended: bool
    running: bool
    """Whether lots are still to be opened."""
    facts: tuple[tuple[str, str], ...]
    """What was laid down."""
    power: Answered | None
    """What it can show, as it was told before any work."""
    equal: tuple[str, ...]
    """What to keep equal."""
    next: str
    """Which envelope is next, in words; empty where none is."""
    lots: tuple[LotRow, ...]
    answer: Answered | None
    """The result; absent while nobody may look, or where there is none yet."""
    may_look: bool
    """Whether it could be looked at before the end, which is counted."""
    looks: str
    trouble: str
    note: str
    written: str
    history: tuple[HistoryRow, ...]


def trials_page(rows: Iterable[Trial], *, pages: tuple[Linked, ...]) -> TrialsPage:
    """All trials, the newest first."""
    found = tuple(
        TrialRow(key=str(row.pk), name=row.name, question=row.question, stands=stands_said(row)) for row in rows
    )  # fmt: skip
    return TrialsPage(rows=found, pages=pages)


def batches_page(found: BatchesAnswer | None, trouble: str) -> BatchesPage:
    """What many batches say of their causes."""
    if found is None:
        return BatchesPage(answer=None, trouble=trouble)
    words = many_said(found)
    why = Link(to=reverse("compare.batches_why", kwargs={"figure": "causes"}), name=_("the causes"))
    chart = batches_chart(found, answer=words.first)
    return BatchesPage(answer=answered(words, chart=chart, why=why), trouble="")


def stands_said(row: Trial) -> str:
    """`3 of 8 tubs set`, or that it is ended."""
    lots = list(row.lots.all())
    told = {"set": sum(lot.opened_at is not None for lot in lots), "of": len(lots)}
    if row.ended_at is not None:
        return _("ended; %(set)d of %(of)d tubs set") % told
    return ngettext("%(set)d of %(of)d tub set", "%(set)d of %(of)d tubs set", len(lots)) % told


def next_lot(row: Trial) -> TrialTub | None:
    """The next envelope; None where all are open, or the trial is ended."""
    if row.ended_at is not None:
        return None
    return next((lot for lot in row.lots.all() if lot.opened_at is None), None)


def trial_page(
    row: Trial, *, plan: TrialPlanAnswer | None, found: Mapping[UUID, Got], answer: TrialAnswer | None, may_look: bool,
    trouble: str, steps: Sequence[Step],
) -> TrialPage:  # fmt: skip
    """One trial with its lots, and its result where it may be told."""
    zone = ZoneInfo(row.garden.time_zone)
    following = next_lot(row)
    return TrialPage(
        key=str(row.pk), name=row.name, question=row.question, stands=stands_said(row), ended=row.ended_at is not None,
        running=following is not None, facts=_facts(row, zone),
        power=None if plan is None else answered(beforehand(plan)),
        equal=() if plan is None else tuple(_(EQUAL[one]) for one in plan.keep_equal),
        next="" if following is None else _next(following), lots=tuple(_lot(lot, found, row) for lot in row.lots.all()),
        answer=None if answer is None else _answered(row, answer), may_look=may_look,
        looks=ngettext("Looked at %(n)d time before the end.", "Looked at %(n)d times before the end.", row.looks)
        % {"n": row.looks}
        if row.looks
        else "",
        trouble=trouble, note=row.note, written=written(row, zone), history=history(row, steps, zone),
    )  # fmt: skip


def _answered(row: Trial, answer: TrialAnswer) -> Answered:
    words = said(answer)
    figure = "against" if answer.against[0].ratio_factor is None else "against.0.ratio_factor"
    why = Link(to=reverse("compare.why", kwargs={"key": row.pk, "figure": figure}), name=_("the result"))
    return answered(words, chart=tubs_chart(answer, answer=words.first), why=why)


def _facts(row: Trial, zone: ZoneInfo) -> tuple[tuple[str, str], ...]:
    found = [
        (_("Laid down"), day(row.laid_down_at.astimezone(zone))),
        (_("Compared"), ", ".join(row.ways)),
        (_("Measured"), sentence(_(OUTCOMES[row.outcome]))),  # type: ignore[index]
        (_("Which tub gets which"), sentence(_(ASSIGNED[row.assigned]))),  # type: ignore[index]
        (_("Tubs"), str(len(row.lots.all()))),
        (_("A difference worth finding"), percent(row.worth_finding_frac)),
        (_("Leaf in each tub"), row.leaf_typed),
        (_("It must give more by at least"), percent(row.least_gain_frac) if row.least_gain_frac else ""),
        (_("Work for a tub"), ", ".join(_hours(row))),
        (_("An hour of work must bring at least"), "" if row.least_g_per_h is None else f"{row.least_g_per_h:g} g"),
        (_("A tub is spoilt by"), row.spoilt_if),
        (_("Seal of the lots"), row.seal),
    ]
    return tuple((name, text) for name, text in found if text)


def _hours(row: Trial) -> list[str]:
    return [
        _("%(way)s %(hours)s h") % {"way": way, "hours": f"{hours:g}"}
        for way, hours in zip(row.ways, row.work_h, strict=False)
    ]


def _next(lot: TrialTub) -> str:
    told = {"number": lot.number, "block": lot.block, "vessel": lot.vessel}
    return _("Next: envelope %(number)d, picking %(block)s, tub %(vessel)d.") % told


def _lot(lot: TrialTub, found: Mapping[UUID, Got], row: Trial) -> LotRow:
    steep, sealed = tub_of(lot), lot.opened_at is None
    return LotRow(
        key=str(lot.pk), number=lot.number, block=lot.block, vessel=lot.vessel, sealed=sealed,
        way="" if sealed else lot.way, tub="" if steep is None else steep.name,
        tub_page="" if steep is None else reverse("tubs.show", kwargs={"key": steep.pk}),
        gave="" if sealed else _gave(lot, Got() if steep is None else found.get(steep.pk, Got()), row),
        spoilt=lot.spoilt,
    )  # fmt: skip


def _gave(lot: TrialTub, one: Got, row: Trial) -> str:
    if lot.got_g_per_kg is not None:
        return _("%(much)s, weighed by hand") % {"much": got_said(lot.got_g_per_kg, row.outcome)}  # type: ignore[arg-type]
    if one.g_per_kg is not None:
        return got_said(one.g_per_kg, row.outcome)  # type: ignore[arg-type]
    if one.joined:
        return _("worked together with another tub: it cannot be told apart")
    return _("on its way") if one.batches else _("not known yet")
