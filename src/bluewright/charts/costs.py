"""Where the cost of the blue goes, and what the jars still hold: ranges side by side."""

from __future__ import annotations

from typing import Final

from bluewright.charts.forest_chart import ForestChart, ForestRow, forest_chart
from bluewright.charts.inputs import Span
from bluewright.science.base.bands import Band
from bluewright.science.cost.cost_record import CostAnswer
from bluewright.science.cost.stock_record import StockAnswer
from bluewright.words.cost import ITEMS
from bluewright.words.language import gettext as _

DRAWN: Final = 9
"""The largest; all stand in the table."""


def cost_chart(found: CostAnswer, *, answer: str) -> str:
    """Where does the cost go? Each thing's share of the whole, the largest first."""
    told, unit = {"of": found.id or _("the blue")}, {"unit": "%"}
    return forest_chart(
        ForestChart(
            question=_("Where does the cost of %(of)s go?") % told,
            answer=answer,
            name=_("share of the money, %(unit)s") % unit
            if found.shares_of == "money"
            else _("share of the hours, %(unit)s") % unit,
            unit="%",
            rows=tuple(
                ForestRow(label=_(ITEMS[part.item]), kind="result", amount=_span(part.share_band_frac, scale=100))
                for part in found.parts[:DRAWN]
                if part.share_band_frac.p95 > 0
            ),
        )
    )


def stock_chart(found: StockAnswer, *, answer: str) -> str:
    """How much pure blue is left? Each jar, the oldest first, and all together."""
    rows = [
        ForestRow(label=jar.name or _("a jar"), kind="result", amount=_span(jar.pure_g))
        for jar in found.jars[:DRAWN]
        if jar.pure_g.p95 > 0
    ]
    if found.pure_g is None or not rows:
        return ""
    if len(rows) > 1:
        rows.append(ForestRow(label=_("all together"), kind="together", amount=_span(found.pure_g)))
    return forest_chart(
        ForestChart(
            question=_("How much pure blue is left?"),
            answer=answer,
            name=_("pure blue, %(unit)s") % {"unit": "g"},
            unit=" g",
            rows=tuple(rows),
        )
    )


def _span(band: Band, *, scale: float = 1.0) -> Span:
    return Span(low=scale * band.p5, mid=scale * band.p50, high=scale * band.p95)
