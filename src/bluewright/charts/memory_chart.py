"""What was got beside what was foretold, batch by batch: 1 is as foretold."""

from __future__ import annotations

from typing import Final

from bluewright.charts.inputs import Span
from bluewright.charts.ratio_rows import RatioChart, RatioRow, ratio_chart
from bluewright.science.memory.record import GardenAnswer, PastCall
from bluewright.words.language import gettext as _
from bluewright.words.numbers import by_scale, weekday

MOST_ROWS: Final = 12
"""The latest batches."""


def memory_chart(found: GardenAnswer, *, answer: str) -> str:
    """Got over foretold with the range that was foretold; empty without a yield."""
    if not found.calls:
        return ""
    return ratio_chart(
        RatioChart(
            question=_("Was it got as foretold?"),
            answer=answer,
            name=_("times what was foretold"),
            rows=tuple(_row(one) for one in reversed(found.calls[-MOST_ROWS:])),
        )
    )


def _row(one: PastCall) -> RatioRow:
    told = {"foretold": by_scale(one.foretold_g.p50), "got": by_scale(one.got_g)}
    return RatioRow(
        label=weekday(one.started),
        figures=_("%(got)s g got, %(foretold)s g foretold") % told,
        ratio=Span(
            low=one.got_g / one.foretold_g.p95, mid=one.got_g / one.foretold_g.p50, high=one.got_g / one.foretold_g.p5
        ),
    )
