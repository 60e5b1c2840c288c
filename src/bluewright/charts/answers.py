"""From an answer to its chart: one question each, as title, with the answer in words below it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from typing import Final

from bluewright.charts.band_chart import BandChart, TimePanel, band_chart
from bluewright.charts.curve_chart import Choice, CurveChart, Target, curve_chart
from bluewright.charts.inputs import CurveBand, Mark, Point, Span, TimeBand, Window
from bluewright.charts.scale import nights
from bluewright.charts.waterfall import Step, Waterfall, waterfall
from bluewright.science.air.answer import AirAnswer
from bluewright.science.alkali.record import Alkali, DoseAnswer, Jar, LiquorRecord
from bluewright.science.base.bands import Band, BandAt, BandAtTime
from bluewright.science.media.alkalis import KINDS
from bluewright.science.media.tub_temp_record import TubTempAnswer
from bluewright.science.media.weather.days_record import WeatherAnswer
from bluewright.science.media.weather.record import BandOnDay, DayBand
from bluewright.science.pigment.yield_record import YieldAnswer
from bluewright.science.settle.drying_record import DryAnswer
from bluewright.science.settle.interface_record import SettleAnswer
from bluewright.science.settle.wash_record import WashAnswer
from bluewright.science.steep.answer import SteepAnswer
from bluewright.science.steep.ensemble import noticed
from bluewright.science.steep.record import Reading, SteepRecord
from bluewright.science.watering.record import BedWaterAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import marked
from bluewright.words.measures import degree, in_own_units, unit_of_dose
from bluewright.words.numbers import MANY_H
from bluewright.words.signs import sign_said

MOST_LOGGED: Final = 24
MOST_DAYS: Final = 120
"""Of more than these every second day is drawn, or every third."""

STEP_NAMES = {
    "steep": marked("stayed in the leaf, or was lost in the tub"),
    "strain": marked("stayed with the strained leaf"),
    "conversion": marked("did not become indigo (alkali, air)"),
    "wash": marked("went with decants and washes"),
    "dry": marked("dust, dish and sieve"),
}


def strain_chart(found: SteepAnswer, *, answer: str) -> str:
    """When will this tub be at its best? Share of the best against time, with temperature, readings and window."""
    record = found.inputs
    start, end = found.curve[0].time, found.curve[-1].time
    looks = tuple(Mark(time=r.time, label=strongest(r)) for r in record.readings if strongest(r))
    temps = tuple(_warm(r.time, r.temp_c) for r in record.readings if r.temp_c is not None)
    temps += tuple(_logged(record))
    share = over_time(found.share_curve_frac, scale=100)
    opens, closes = max(found.window.from_, start), min(found.window.to, end)
    return band_chart(
        BandChart(
            question=_("When will %(tub)s be at its best?") % _tub(record.id),
            answer=answer,
            upper=TimePanel(name=_("share of the best, %(unit)s") % {"unit": "%"}, unit="%", band=share, marks=looks),
            lower=_tub_panel(found.temp_curve_c, temps),
            window=Window(start=opens, end=closes, label=_("best time to strain")),
            now=record.now,
            nights=tuple(nights(start, end)),
        )
    )


def _logged(record: SteepRecord) -> Iterator[Mark]:
    """What a logger read in the tub, as so many points that they can be told apart."""
    known = [temp for temp in record.temps if temp.where == "tub" and not temp.forecast]
    for temp in known[:: -(-len(known) // MOST_LOGGED) or 1]:
        yield _warm(temp.time, temp.temp_c)


def strongest(reading: Reading) -> str:
    """The strongest sign of a reading in words; nothing where no sign was given or all were 0."""
    levels = {name: level for name, level in noticed(reading).items() if level}
    if not levels:
        return ""
    name = max(levels, key=lambda n: levels[n])
    return _("%(sign)s %(level)s") % {"sign": sign_said(name), "level": levels[name]}


def tub_chart(found: TubTempAnswer, *, answer: str) -> str:
    """How warm will the tub be? Temperature against time, with the readings."""
    record = found.inputs
    start, end = found.curve[0].time, found.curve[-1].time
    return band_chart(
        BandChart(
            question=_("How warm will %(tub)s be?") % _tub(record.id),
            answer=answer,
            upper=_tub_panel(found.curve, tuple(_warm(r.time, r.temp_c) for r in record.readings)),
            now=record.now,
            nights=tuple(nights(start, end)),
        )
    )


def loss_chart(found: YieldAnswer, *, answer: str) -> str:
    """Where did the blue go? From what the leaf could give, loss by loss, to the jar."""
    steps = [Step(label=_("the leaf could give"), kind="level", amount=_span(found.potential_g))]
    steps += [Step(label=_(STEP_NAMES[step.step]), kind="loss", amount=_span(step.lost_g)) for step in found.steps]
    steps.append(Step(label=_("pure blue in the jar"), kind="level", amount=_span(found.pure_g)))
    question = _("Where did the blue of %(jar)s go?") % {"jar": found.inputs.id or _("this jar")}
    return waterfall(
        Waterfall(
            question=question,
            answer=answer,
            name=_("pure indigo, %(unit)s") % {"unit": "g"},
            unit="g",
            steps=tuple(steps),
        )
    )


def dose_chart(found: DoseAnswer, titration: tuple[BandAt, ...], *, answer: str) -> str:
    """How much alkali does the tub need? pH against what is added in all, with the wanted pH and the dose."""
    record, unit = found.inputs, found.dose.unit
    added = (record.added_so_far[-1].added(unit) or 0.0) if record.added_so_far else 0.0
    seen = [Point(x=step.added(unit) or 0.0, y=step.ph) for step in record.added_so_far]
    dose = Span(low=added + found.dose.p5, mid=added + found.dose.p50, high=added + found.dose.p95)
    return curve_chart(
        CurveChart(
            question=_("How much alkali does %(tub)s need?") % _tub(record.id),
            answer=answer,
            x_name=_("%(alkali)s in the tub in all, %(unit)s") % _alkali(record.alkali, unit),
            y_name="pH",
            band=_curve(titration),
            points=tuple(seen),
            target=Target(value=record.target_ph, label=_wanted(f"{record.target_ph:g}")),
            choice=Choice(span=dose, label=_("dose")),
        )
    )


def jar_chart(record: LiquorRecord, jar: Jar, titration: tuple[BandAt, ...], *, answer: str) -> str:
    """How does the pH of the jar rise? pH against what is added to it, through its readings, with the wanted pH."""
    alkali = jar.alkali or record.alkali
    return curve_chart(
        CurveChart(
            question=_("How does the pH rise in the jar of %(tub)s?") % _tub(record.id),
            answer=answer,
            x_name=_("%(alkali)s in the jar in all, %(unit)s") % _alkali(alkali, alkali.unit),
            y_name="pH",
            band=_curve(titration),
            points=tuple(Point(x=step.added(alkali.unit) or 0.0, y=step.ph) for step in jar.steps),
            target=Target(value=record.target_ph, label=_wanted(f"{record.target_ph:g}")),
        )
    )


def air_chart(found: AirAnswer, *, answer: str) -> str:
    """How long must this liquor be aired? Share turned against minutes."""
    done_min = found.inputs.done_min or 0.0
    return curve_chart(
        CurveChart(
            question=_("How long must the liquor of %(tub)s be aired?") % _tub(found.inputs.id),
            answer=answer,
            x_name=_("minutes of airing"),
            y_name=_("turned, %(unit)s") % {"unit": "%"},
            band=_curve(found.done_frac_by_min, scale=100),
            target=Target(value=95.0, label=_("done: %(share)s") % {"share": "95%"}),
            choice=Choice(span=Span(low=done_min, mid=done_min, high=done_min), label=_("now")) if done_min else None,
            y_from_zero=True,
        )
    )


def settle_chart(found: SettleAnswer, *, answer: str) -> str:
    """When may the clear liquor be decanted? Height of the edge against hours of standing."""
    record = found.inputs
    (scale,), unit = in_own_units((1.0,), "length_mm")
    return curve_chart(
        CurveChart(
            question=_("When may %(tub)s be decanted?") % _tub(record.id),
            answer=answer,
            x_name=_("hours of standing"),
            y_name=_("edge of the blue, %(unit)s above the bottom") % {"unit": unit},
            band=_curve(found.edge_mm_by_h, scale=scale),
            points=tuple(Point(x=r.after_h, y=scale * r.interface_mm) for r in record.readings),
            choice=Choice(span=_span(found.decant_after_h), label=_("decant")),
            y_from_zero=True,
        )
    )


def wash_chart(found: WashAnswer, *, answer: str) -> str:
    """How much stays after each wash? Share of what was dissolved against washes, with the share that is aimed at."""
    done = found.residues[0].wash - 1
    steps = [(done, found.residue_now_frac), *((step.wash, step.residue_frac) for step in found.residues)]
    return curve_chart(
        CurveChart(
            question=_("How much stays in %(sludge)s after each wash?")
            % {"sludge": found.inputs.id or _("the sludge")},
            answer=answer,
            x_name=_("washes"),
            y_name=_("left of what was dissolved, %(unit)s") % {"unit": "%"},
            band=_curve(tuple(BandAt(at=at, p5=b.p5, p50=b.p50, p95=b.p95) for at, b in steps), scale=100),
            target=Target(value=100 * found.target_frac, label=_wanted(f"{100 * found.target_frac:.2g}%")),
            y_from_zero=True,
        )
    )


def dry_chart(found: DryAnswer, *, answer: str) -> str:
    """When will the paste be dry? Mass against hours, or days where it takes many, with the weighings."""
    record = found.inputs
    first_h = record.weighings[0].after_h
    stood_h = record.weighings[-1].after_h - first_h
    dry_h = Band(p5=stood_h + found.left_h.p5, p50=stood_h + found.left_h.p50, p95=stood_h + found.left_h.p95)
    days = found.mass_g_by_h[-1].at >= MANY_H
    unit_h = 24.0 if days else 1.0
    return curve_chart(
        CurveChart(
            question=_("When will %(paste)s be dry?") % {"paste": record.id or _("the paste")},
            answer=answer,
            x_name=_("days since the first weighing") if days else _("hours since the first weighing"),
            y_name=_("paste without the dish, %(unit)s") % {"unit": "g"},
            band=_curve(found.mass_g_by_h, unit=unit_h),
            points=tuple(
                Point(x=(w.after_h - first_h) / unit_h, y=w.total_g - record.dish_g) for w in record.weighings
            ),
            choice=Choice(span=_span(dry_h, unit=unit_h), label=_("dry")),
            y_from_zero=True,
        )
    )


def weather_chart(found: WeatherAnswer, *, answer: str) -> str:
    """How much warmth had the season? Degree-days from the first day on, the day's warmest below."""
    record, (unit, step) = found.inputs, degree()
    warmest = tuple(BandOnDay(day=row.day, p5=row.max_c.p5, p50=row.max_c.p50, p95=row.max_c.p95) for row in found.days)
    (base,) = _degrees((record.base_c,))
    target = record.target_degree_d
    lower = _by_day(warmest)
    low, mid, high = (_degrees(values) for values in (lower.low, lower.mid, lower.high))
    return band_chart(
        BandChart(
            question=_("How much warmth has %(place)s had?") % {"place": record.id or _("this place")},
            answer=answer,
            upper=TimePanel(
                name=_("degree-days above %(base)s %(unit)s") % {"base": f"{base:.3g}", "unit": unit},
                unit="",
                band=_by_day(found.degree_d_by_day, scale=step),
                target=None if target is None else Target(value=step * target, label=_wanted(f"{step * target:.4g}")),
            ),
            lower=TimePanel(
                name=_("warmest of the day, %(unit)s") % {"unit": unit}, unit=unit, from_zero=False,
                band=replace(lower, low=low, mid=mid, high=high),
            ),
            window=None if found.reached_on is None else _days_window(found.reached_on, label=_("reached")),
            now=noon(record.today),
        )
    )  # fmt: skip


def water_chart(found: BedWaterAnswer, *, answer: str) -> str:
    """When does this bed want water? What is missing in the root zone, day by day, without any more watering."""
    record = found.inputs
    (scale,), unit = in_own_units((1.0,), "length_mm")
    return band_chart(
        BandChart(
            question=_("When does %(bed)s want water?") % {"bed": record.id or _("this bed")},
            answer=answer,
            upper=TimePanel(
                name=_("missing in the root zone, %(unit)s of water") % {"unit": unit},
                unit=unit,
                band=_by_day(found.gone_mm_by_day, scale=scale),
                target=Target(value=scale * found.easy_mm.p50, label=_("easy for the plants up to here")),
            ),
            window=_days_window(found.dry_on, label=_("wants water")),
            now=noon(record.now),
        )
    )


def noon(day: date) -> datetime:
    """Where a day stands on an axis of time."""
    return datetime.combine(day, time(12), tzinfo=UTC)


def _days_window(on: DayBand, *, label: str) -> Window | None:
    """From the early day to the late one; nothing where either lies beyond what was asked."""
    return None if on.early is None or on.late is None else Window(start=noon(on.early), end=noon(on.late), label=label)


def _by_day(rows: tuple[BandOnDay, ...], *, scale: float = 1.0) -> TimeBand:
    """Days as a band; a single one is drawn as long as half a day, and of many some, with the last."""
    every = -(-len(rows) // MOST_DAYS)
    shown = rows[::-1][::every][::-1]
    times = [noon(row.day) for row in shown]
    if len(rows) == 1:
        shown, times = (rows[0], rows[0]), [times[0], times[0] + timedelta(hours=12)]
    low, mid, high = (tuple(scale * getattr(row, end) for row in shown) for end in ("p5", "p50", "p95"))
    return TimeBand(times=tuple(times), low=low, mid=mid, high=high)


def _tub(name: str) -> dict[str, str]:
    return {"tub": name or _("this tub")}


def _alkali(alkali: Alkali, unit: str) -> dict[str, str]:
    return {"alkali": _(KINDS[alkali.kind].words), "unit": unit_of_dose(unit)}


def _wanted(value: str) -> str:
    return _("wanted: %(value)s") % {"value": value}


def _tub_panel(curve: tuple[BandAtTime, ...], marks: tuple[Mark, ...]) -> TimePanel:
    """The warmth of a tub, in the reader's degrees."""
    band, (unit, _step) = over_time(curve), degree()
    low, mid, high = (_degrees(values) for values in (band.low, band.mid, band.high))
    drawn = replace(band, low=low, mid=mid, high=high)
    return TimePanel(name=_("tub, %(unit)s") % {"unit": unit}, unit=unit, band=drawn, marks=marks, from_zero=False)


def _warm(time: datetime, temp_c: float) -> Mark:
    """A temperature that was read."""
    (temp,) = _degrees((temp_c,))
    return Mark(time=time, label=f"{temp:.3g} {degree()[0]}", value=temp)


def _degrees(values_c: Sequence[float]) -> tuple[float, ...]:
    return in_own_units(values_c, "temp_c")[0]


def _curve(points: tuple[BandAt, ...], *, scale: float = 1.0, unit: float = 1.0) -> CurveBand:
    """A curve as a band to be drawn, its values times `scale`, along an axis of which one is `unit` of the points'."""
    return CurveBand(
        x=tuple(point.at / unit for point in points),
        low=tuple(scale * point.p5 for point in points),
        mid=tuple(scale * point.p50 for point in points),
        high=tuple(scale * point.p95 for point in points),
    )


def over_time(curve: tuple[BandAtTime, ...], *, scale: float = 1.0) -> TimeBand:
    """A curve over time as a band to be drawn."""
    return TimeBand(
        times=tuple(point.time for point in curve),
        low=tuple(scale * point.p5 for point in curve),
        mid=tuple(scale * point.p50 for point in curve),
        high=tuple(scale * point.p95 for point in curve),
    )


def _span(band: Band, *, unit: float = 1.0) -> Span:
    return Span(low=max(0.0, band.p5) / unit, mid=max(0.0, band.p50) / unit, high=max(0.0, band.p95) / unit)
