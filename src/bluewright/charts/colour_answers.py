"""From answers about colour to their charts."""

from __future__ import annotations

from bluewright.charts.ab_plane import AbPlane, ab_plane
from bluewright.charts.colours import Chip
from bluewright.charts.curve_chart import Choice, CurveChart, curve_chart
from bluewright.charts.inputs import CurveBand, Span
from bluewright.charts.split_square import SplitSquare, Way, split_square
from bluewright.science.base.bands import NINETY_Z, Band
from bluewright.science.colour.compare import spread_of
from bluewright.science.colour.compare_record import CompareAnswer, Difference
from bluewright.science.colour.depth import INDIGO_NM
from bluewright.science.colour.hues import turn_words
from bluewright.science.colour.reflectance_record import ReflectanceAnswer
from bluewright.words.colour import SIGNS, named, names_of
from bluewright.words.language import gettext as _


def compare_chart(found: CompareAnswer, *, answer: str) -> str:
    """Two colours as a split square; more of them on the plane of a* and b*."""
    if len(found.colours) == 2:
        return difference_chart(found, answer=answer)
    question = _("Where do these colours lie?")
    return ab_plane(AbPlane(question=question, answer=answer, chips=_chips(found)))


def difference_chart(found: CompareAnswer, *, answer: str) -> str:
    """How does the second colour differ from the first? Both side by side, and each way in which they do."""
    standard, sample = _chips(found)[:2]
    return split_square(
        SplitSquare(
            question=_("How does the right one differ from the left?"), answer=answer, standard=standard,
            sample=sample, ways=_ways(found.against[0], found.inputs.colours[0].lab),
        )
    )  # fmt: skip


def spectrum_chart(found: ReflectanceAnswer, *, answer: str) -> str:
    """What does it send back? Reflectance against wavelength, with the noise of the instrument."""
    record = found.inputs
    nm = tuple(point.wavelength_nm for point in record.points)
    read = tuple(100 * point.reflectance_factor for point in record.points)
    by = tuple(
        NINETY_Z * ((100 * record.noise_sd) ** 2 + (record.scale_sd_frac * value) ** 2) ** 0.5 for value in read
    )  # fmt: skip
    band = CurveBand(
        x=nm,
        low=tuple(value - off for value, off in zip(read, by, strict=True)),
        mid=read,
        high=tuple(value + off for value, off in zip(read, by, strict=True)),
    )
    at = INDIGO_NM.value
    return curve_chart(
        CurveChart(
            question=_("What does %(sample)s send back?") % {"sample": found.id or _("this sample")},
            answer=answer,
            x_name=_("wavelength, nm"),
            y_name=_("sent back, % of white"),
            band=band,
            choice=Choice(span=Span(low=at, mid=at, high=at), label=_("where indigo absorbs most")),
            y_from_zero=True,
            middle_text=_("as read"),
        )
    )


def _chips(found: CompareAnswer) -> tuple[Chip, ...]:
    return tuple(
        Chip(
            name=name, lab=typed.lab, said=named(told.hue, told.shade),
            lab_sd=tuple(float(sd) for sd in spread_of(typed, found.inputs.taken)),  # type: ignore[arg-type]
        )
        for name, told, typed in zip(names_of(found), found.colours, found.inputs.colours, strict=True)
    )  # fmt: skip


def _ways(difference: Difference, standard: tuple[float, float, float]) -> tuple[Way, ...]:
    more, less = turn_words(standard)
    return (
        Way(less=_(SIGNS["darker"]), more=_(SIGNS["lighter"]), by=_span(difference.lightness)),
        Way(less=_(SIGNS["duller"]), more=_(SIGNS["brighter"]), by=_span(difference.chroma)),
        Way(less=_(SIGNS[less]), more=_(SIGNS[more]), by=_span(difference.hue)),
    )


def _span(band: Band) -> Span:
    return Span(low=band.p5, mid=band.p50, high=band.p95)
