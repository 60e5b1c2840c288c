"""From answers of trials and batches to their charts."""

from __future__ import annotations

from bluewright.charts.inputs import Span
from bluewright.charts.ratio_rows import RatioChart, RatioRow, ratio_chart
from bluewright.charts.trial_chart import TrialChart, TubDot, trial_chart
from bluewright.science.base.bands import Band
from bluewright.science.learn.mixed_record import BatchesAnswer
from bluewright.science.learn.trial_answer import TrialAnswer, WayAgainst
from bluewright.science.learn.trial_record import TrialTub
from bluewright.words.batches import cause_said
from bluewright.words.compare import OUTCOMES, got_said, range_said, ratio_said
from bluewright.words.language import gettext as _
from bluewright.words.numbers import sentence

MOST_ROWS = 12


def tubs_chart(found: TrialAnswer, *, answer: str) -> str:
    """Every tub, and how each way compares."""
    places = {way.name: place for place, way in enumerate(found.inputs.ways)}
    return trial_chart(
        TrialChart(
            question=found.inputs.question or found.inputs.id or _("Was it worth it?"),
            answer=answer,
            name=_name(found),
            ways=tuple(way.name for way in found.inputs.ways),
            tubs=tuple(
                TubDot(
                    way=places[tub.way], block=tub.block, value=tub.value, spoilt=bool(tub.spoilt),
                    label=_label(tub, found),
                )
                for tub in found.inputs.tubs
            ),
            rows=tuple(_against(one) for one in found.against),
        )
    )  # fmt: skip


def _name(found: TrialAnswer) -> str:
    what = sentence(_(OUTCOMES[found.inputs.outcome]))
    unit = {"pure_blue": "g", "powder": "g", "hours": "h"}.get(found.inputs.outcome)
    return what if unit is None else _("%(what)s, %(unit)s") % {"what": what, "unit": unit}


def _label(tub: TrialTub, found: TrialAnswer) -> str:
    told = {"picking": tub.block or "–", "way": tub.way, "spoilt": tub.spoilt}
    told["value"] = "–" if tub.value is None else got_said(tub.value, found.inputs.outcome)
    if tub.spoilt:
        return _("%(picking)s, %(way)s: spoilt, %(spoilt)s") % told
    return _("%(picking)s, %(way)s: %(value)s") % told


def _against(one: WayAgainst) -> RatioRow:
    figures = "–" if one.ratio_factor is None else range_said(one.ratio_factor)
    return RatioRow(
        label=sentence(one.way), figures=figures, ratio=None if one.ratio_factor is None else _span(one.ratio_factor),
        singles=tuple((each.ratio_factor, f"{each.block}: {ratio_said(each.ratio_factor)}") for each in one.by_block),
    )  # fmt: skip


def batches_chart(found: BatchesAnswer, *, answer: str) -> str:
    """Each cause with its range; the first twelve."""
    rows = tuple(
        RatioRow(label=cause_said(one), figures=range_said(one.ratio_factor), ratio=_span(one.ratio_factor))
        for one in found.causes[:MOST_ROWS]
    )
    return ratio_chart(
        RatioChart(
            question=found.inputs.question or found.inputs.id or _("What do the batches say?"), answer=answer,
            name=_("times as much"), rows=rows,
        )
    )  # fmt: skip


def _span(one: Band) -> Span:
    return Span(low=one.p5, mid=one.p50, high=one.p95)
