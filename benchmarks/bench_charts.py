"""Drawing a forecast of five days by the hour, with twenty marks, at an invented tub."""

from __future__ import annotations

from collections.abc import Callable
from datetime import datetime, timedelta

from bluewright.charts.band_chart import BandChart, TimePanel, band_chart
from bluewright.charts.inputs import Mark, TimeBand
from bluewright.charts.scale import nights

START = datetime.fromisoformat("2026-07-03T11:00+01:00")


def drawing() -> Callable[[], str]:
    """The chart is built once; a run draws it."""
    times = tuple(START + timedelta(hours=h) for h in range(121))
    mid = tuple(5 - abs(h - 60) / 15 for h in range(121))
    band = TimeBand(times=times, low=tuple(0.6 * m for m in mid), mid=mid, high=tuple(1.5 * m for m in mid))
    marks = tuple(Mark(time=times[5 * k], label=f"scum {k % 4}") for k in range(20))
    chart = BandChart(
        question="When will tub 3 be at its best?",
        answer="Wait until Sunday 18:00.",
        upper=TimePanel(name="blue to be had, g", unit="g", band=band, marks=marks),
        lower=TimePanel(name="tub, C", unit="C", band=band),
        now=times[45],
        nights=tuple(nights(times[0], times[-1])),
    )
    return lambda: band_chart(chart)


BENCHMARKS = {"chart: five days by the hour, 20 marks": drawing}
