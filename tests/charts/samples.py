"""Charts with invented numbers, for the tests of drawing."""

from datetime import UTC, date, datetime, timedelta, timezone

from bluewright.charts.band_chart import BandChart, TimePanel
from bluewright.charts.curve_chart import Choice, CurveChart, Target
from bluewright.charts.days_back_chart import DayMark, DaysBackChart, DaysRow
from bluewright.charts.forest_chart import ForestChart, ForestRow
from bluewright.charts.inputs import CurveBand, Mark, Point, Span, TimeBand, Window
from bluewright.charts.lines_chart import LinesChart, Pairs
from bluewright.charts.scale import nights
from bluewright.charts.series_chart import Event, Series, SeriesChart
from bluewright.charts.spectrum_chart import SpectrumChart
from bluewright.charts.waterfall import Step, Waterfall

START = datetime(2026, 7, 3, 11, tzinfo=timezone(timedelta(hours=1)))
HOURS = [START + timedelta(hours=h) for h in range(0, 121, 2)]
HOSTILE = '<script>alert("1")</script> & \x00\x1b]\ud800 \'"'


def time_band(*, scale: float = 1.0, shift: float = 0.0) -> TimeBand:
    mid = [scale * (1 - abs(h - 30) / 40) + shift for h in range(len(HOURS))]
    return TimeBand(
        times=tuple(HOURS),
        low=tuple(m - 0.4 * scale * abs(h) / 60 for h, m in enumerate(mid)),
        mid=tuple(mid),
        high=tuple(m + 0.5 * scale * abs(h) / 60 for h, m in enumerate(mid)),
    )


def band_sample(**changed: object) -> BandChart:
    parts: dict[str, object] = {
        "question": "When will tub 3 be at its best?",
        "answer": "Wait until Sunday 18:00.",
        "upper": TimePanel(
            name="blue to be had, g",
            unit="g",
            band=time_band(scale=4.8),
            marks=(Mark(time=HOURS[10], label="scum 1"), Mark(time=HOURS[12], label="3.1 g", value=3.1)),
        ),
        "lower": TimePanel(name="tub, °C", unit="°C", band=time_band(scale=5, shift=12), from_zero=False),
        "window": Window(start=HOURS[24], end=HOURS[36], label="within a tenth of the best"),
        "now": HOURS[22],
        "nights": tuple(nights(HOURS[0], HOURS[-1])),
    }
    return BandChart(**(parts | changed))  # type: ignore[arg-type]


def waterfall_sample(label: str = "Left in the leaves") -> Waterfall:
    return Waterfall(
        question="Where did the blue go?",
        answer="About half is in the jar.",
        name="indigo, g",
        unit="g",
        steps=(
            Step(label="The leaf could give", kind="level", amount=Span(low=4.1, mid=6.6, high=9.9)),
            Step(label=label, kind="loss", amount=Span(low=1.0, mid=2.1, high=3.9)),
            Step(label="In the jar", kind="level", amount=Span(low=3.0, mid=4.4, high=5.2)),
        ),
    )


def curve_sample(label: str = "wanted: pH 9.5") -> CurveChart:
    return CurveChart(
        question="How much ammonia takes this liquor to pH 9.5?",
        answer="300 mL, half of it first.",
        x_name="ammonia, mL",
        y_name="pH",
        band=CurveBand(x=(0.0, 100.0, 400.0), low=(5.4, 7.0, 9.4), mid=(5.6, 7.4, 9.8), high=(5.8, 7.9, 10.1)),
        points=(Point(x=0.0, y=5.6, label="5.6"), Point(x=100.0, y=7.2)),
        target=Target(value=9.5, label=label),
        choice=Choice(span=Span(low=240.0, mid=300.0, high=380.0), label="dose for all of it"),
    )


def series_sample(name: str = "dye index") -> SeriesChart:
    return SeriesChart(
        question="Is blue still forming in jar 3?",
        answer="It has come to rest.",
        x_name="minutes since the alkali",
        y_name="light lost, as a logarithm",
        series=(
            Series(
                name=name,
                readings=((0.0, Span(low=-0.08, mid=-0.06, high=-0.04)), (15.0, Span(low=0.2, mid=0.26, high=0.3))),
            ),
            Series(name="yellow index", readings=((0.0, Span(low=0.2, mid=0.3, high=0.4)),)),
        ),
        level=(0.0, "above this line only blue dye brings it"),
        events=(Event(at=0.0, label="50 mL"),),
    )


NAIVE = datetime(2026, 7, 3, 11, tzinfo=UTC).replace(tzinfo=None)


def forest_sample(label: str = "test dyeing") -> ForestChart:
    return ForestChart(
        question="How much of jar 7 is indigo?",
        answer="Together 35%.",
        name="indigo, %",
        unit="%",
        rows=(
            ForestRow(label="spectrum", kind="result", amount=Span(low=31, mid=34, high=37)),
            ForestRow(label=label, kind="result", amount=Span(low=32, mid=37, high=42)),
            ForestRow(label="ash", kind="bound", amount=Span(low=78, mid=81, high=84)),
            ForestRow(label="all together", kind="together", amount=Span(low=32.4, mid=34.8, high=37.3)),
        ),
    )


def days_back_sample(label: str = "two shawls") -> DaysBackChart:
    return DaysBackChart(
        question="By when must each step begin?",
        answer="Sow 30 square metres.",
        today=date(2026, 3, 2),
        rows=(
            DaysRow(
                label=label,
                marks=(
                    DayMark(day=date(2026, 7, 18), kind="sow", label="sow, for one cut"),
                    DayMark(day=date(2026, 10, 20), kind="cut", label="last cut"),
                    DayMark(day=date(2026, 11, 5), kind="step", label="dry"),
                    DayMark(day=date(2026, 11, 20), kind="ready", label=label),
                ),
            ),
        ),
    )


def spectrum_sample(answer: str = "28% indigo.") -> SpectrumChart:
    at = tuple(float(nm) for nm in range(500, 760, 10))
    blue = tuple(0.5 * 2 ** -(((nm - 610) / 40) ** 2) for nm in at)
    red, haze = tuple(0.05 * 2 ** -(((nm - 545) / 40) ** 2) for nm in at), tuple(0.02 * (700 / nm) ** 2 for nm in at)
    read = tuple(sum(parts) + 0.004 * (k % 3 - 1) for k, parts in enumerate(zip(blue, red, haze, strict=True)))
    return SpectrumChart(
        question="What absorbs in the solution of jar 7?", answer=answer, wavelength_nm=at, measured=read, indigo=blue,
        indirubin=red, other=haze,
    )  # fmt: skip


def lines_sample(name: str = "sample") -> LinesChart:
    return LinesChart(
        question="How deep does jar 7 dye beside the standard?",
        answer="33% indigo.",
        x_name="pigment in the vat, mg",
        y_name="depth, K/S",
        first=Pairs(name="standard", points=((20, 2.1), (40, 3.9), (80, 6.8)), slope=0.85, level=-1.8),
        second=Pairs(name=name, points=((60, 2.2), (120, 4.1), (240, 7.0)), slope=0.85, level=-2.7),
    )
