"""From an answer to its chart: one question each, as title, with the answer in words below it."""

from __future__ import annotations

from bluewright.charts.band_chart import BandChart, TimePanel, band_chart
from bluewright.charts.inputs import Mark, Span, TimeBand, Window
from bluewright.charts.scale import nights
from bluewright.charts.waterfall import Step, Waterfall, waterfall
from bluewright.science.base.bands import Band
from bluewright.science.pigment.yield_record import YieldAnswer
from bluewright.science.steep.answer import CurvePoint, SteepAnswer
from bluewright.science.steep.ensemble import noticed
from bluewright.science.steep.record import Reading

STEP_NAMES = {
    "steep": "stayed in the leaf, or was lost in the tub",
    "strain": "stayed with the strained leaf",
    "conversion": "did not become indigo (alkali, air)",
    "wash": "went with decants and washes",
    "dry": "dust, dish and sieve",
}


def strain_chart(found: SteepAnswer, *, answer: str) -> str:
    """When will this tub be at its best? Share of the best against time, with temperature, readings and window."""
    record = found.inputs
    start, end = found.curve[0].time, found.curve[-1].time
    looks = tuple(Mark(time=r.time, label=strongest(r)) for r in record.readings if strongest(r))
    temps = tuple(
        Mark(time=r.time, label=f"{r.temp_c:g} C", value=r.temp_c) for r in record.readings if r.temp_c is not None
    )
    share = _band(found.share_curve_frac, scale=100)
    tub = _band(found.temp_curve_c)
    opens, closes = max(found.window.from_, start), min(found.window.to, end)
    return band_chart(
        BandChart(
            question=f"When will {record.id or 'this tub'} be at its best?",
            answer=answer,
            upper=TimePanel(name="share of the best, %", unit="%", band=share, marks=looks),
            lower=TimePanel(name="tub, C", unit="C", band=tub, marks=temps, from_zero=False),
            window=Window(start=opens, end=closes, label="best time to strain"),
            now=record.now,
            nights=tuple(nights(start, end)),
        )
    )


def strongest(reading: Reading) -> str:
    """The strongest sign of a reading in words; nothing where no sign was given or all were 0."""
    levels = {name: level for name, level in noticed(reading).items() if level}
    if not levels:
        return ""
    name = max(levels, key=lambda n: levels[n])
    return f"{name.replace('_', ' ')} {levels[name]}"


def loss_chart(found: YieldAnswer, *, answer: str) -> str:
    """Where did the blue go? From what the leaf could give, loss by loss, to the jar."""
    steps = [Step(label="the leaf could give", kind="level", amount=_span(found.potential_g))]
    steps += [Step(label=STEP_NAMES[step.step], kind="loss", amount=_span(step.lost_g)) for step in found.steps]
    steps.append(Step(label="pure blue in the jar", kind="level", amount=_span(found.pure_g)))
    question = f"Where did the blue of {found.inputs.id or 'this jar'} go?"
    return waterfall(Waterfall(question=question, answer=answer, name="pure indigo, g", unit="g", steps=tuple(steps)))


def _band(curve: tuple[CurvePoint, ...], *, scale: float = 1.0) -> TimeBand:
    return TimeBand(
        times=tuple(point.time for point in curve),
        low=tuple(scale * point.p5 for point in curve),
        mid=tuple(scale * point.p50 for point in curve),
        high=tuple(scale * point.p95 for point in curve),
    )


def _span(band: Band) -> Span:
    return Span(low=max(0.0, band.p5), mid=max(0.0, band.p50), high=max(0.0, band.p95))
