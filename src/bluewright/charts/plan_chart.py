"""From a plan to the drawing of its days."""

from __future__ import annotations

from collections.abc import Iterator

from bluewright.charts.days_back_chart import DayMark, DaysBackChart, DaysRow, days_back_chart
from bluewright.science.plan.chain_record import ClothPlanAnswer, DaysBack
from bluewright.words.language import gettext as _
from bluewright.words.plan_cloth import STEPS, odds


def plan_chart(found: ClothPlanAnswer, *, answer: str) -> str:
    """By when must each step begin? Empty where nothing has a day."""
    if not found.days or found.inputs.now is None:
        return ""
    told = _("Each begun by its day, it is ready in time with %(odds)s.") % {"odds": odds(found.inputs.wanted_chance)}
    rows = tuple(
        DaysRow(label=one.name or _("want %(number)s") % {"number": number}, marks=tuple(_marks(one)))
        for number, one in enumerate(found.days, start=1)
    )
    return days_back_chart(
        DaysBackChart(
            question=_("By when must each step begin?"), answer=f"{answer} {told}", today=found.inputs.now, rows=rows
        )
    )


def _marks(one: DaysBack) -> Iterator[DayMark]:
    if one.sow and one.sow[0].begin_by is not None:
        yield DayMark(day=one.sow[0].begin_by, kind="sow", label=_("sow, for one cut"))
    for step in one.steps:
        yield DayMark(day=step.begin_by, kind="cut" if step.step == "cut" else "step", label=_(STEPS[step.step]))
    yield DayMark(day=one.by, kind="ready", label=_("ready"))
