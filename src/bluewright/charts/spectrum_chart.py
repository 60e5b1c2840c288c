"""A spectrum and its parts: readings as rings, the fit and each part as lines told apart by dash, the rest below."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bluewright.charts.inputs import check_words
from bluewright.charts.palette import INDIGO, INK, SMALL_SIZE, SOFT_INK, TAN
from bluewright.charts.parts import RIGHT, Entry, Panel, dot, heading, key, left_edge, prefix, sheet
from bluewright.charts.readout import Figures
from bluewright.charts.scale import Scale, inner_ticks, outer_ticks
from bluewright.charts.svg import Look, label, line, path
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _
from bluewright.words.numbers import figure

HEIGHT: Final = 200.0
REST_HEIGHT: Final = 60.0
FIT: Final[Look] = {"stroke": INK, "stroke_width": 2.4}
BLUE: Final[Look] = {"stroke": INDIGO[3], "stroke_width": 2.4, "stroke_dasharray": "10 4"}
RED: Final[Look] = {"stroke": INDIGO[4], "stroke_width": 2.0, "stroke_dasharray": "3 3"}
OTHER: Final[Look] = {"stroke": TAN, "stroke_width": 2.0, "stroke_dasharray": "10 3 2 3"}


@dataclass(frozen=True, slots=True, kw_only=True)
class SpectrumChart:
    """What is drawn: readings and parts at rising wavelengths, two at least."""

    question: str
    answer: str
    wavelength_nm: tuple[float, ...]
    measured: tuple[float, ...]
    indigo: tuple[float, ...]
    indirubin: tuple[float, ...]
    """Empty where it was not looked for."""
    other: tuple[float, ...]

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer)
        if len(self.wavelength_nm) < 2:
            raise InputError(where="wavelength_nm", what="a line needs two points", right="give the whole spectrum")

    @property
    def fit(self) -> tuple[float, ...]:
        """All parts together."""
        red = self.indirubin or (0.0,) * len(self.indigo)
        return tuple(map(sum, zip(self.indigo, red, self.other, strict=True)))


def spectrum_chart(chart: SpectrumChart) -> str:
    """The chart as SVG text."""
    name = prefix(chart.question, chart.answer)
    head, y = heading(chart.question, answer=chart.answer)
    key_drawn, key_height = key(_entries(chart), top=y + 4)
    upper = _panel(chart, [*chart.measured, *chart.fit, *chart.other, 0.0], top=y + key_height + 32, height=HEIGHT)
    rest = [one - fit for one, fit in zip(chart.measured, chart.fit, strict=True)]
    most = max(map(abs, rest)) or 0.001
    lower = _panel(chart, [-most, most], top=upper.bottom + 42, height=REST_HEIGHT, wanted=2, left=upper.x.start)
    drawn = [head, key_drawn, upper.upright_axis(_("absorbance"))]
    drawn += [_line(upper, chart, values, look) for values, look in _lines(chart)]
    drawn += [dot(*upper.at(at, value), "") for at, value in zip(chart.wavelength_nm, chart.measured, strict=True)]
    drawn += [upper.level_axis([]), lower.upright_axis(_("what the fit leaves over"))]
    drawn += [
        line(lower.x(at), lower.y(0.0), lower.x(at), lower.y(value), stroke=INK, stroke_width=2.0)
        for at, value in zip(chart.wavelength_nm, rest, strict=True)
    ]
    drawn.append(lower.level_axis(inner_ticks(lower.x.low, lower.x.high, wanted=6)))
    drawn.append(
        label(RIGHT, lower.bottom + 38, _("wavelength, %(unit)s") % {"unit": "nm"}, size=SMALL_SIZE, fill=SOFT_INK,
              anchor="end")
    )  # fmt: skip
    return sheet(
        *drawn, height=lower.bottom + 50, question=chart.question, summary=description(chart), name=name,
        figures=_figures(chart, upper, lower),
    )  # fmt: skip


def description(chart: SpectrumChart) -> str:
    """What the drawing says, in sentences with figures."""
    high = max(range(len(chart.measured)), key=lambda i: chart.measured[i])
    told = {"nm": figure(chart.wavelength_nm[high]), "value": figure(chart.measured[high])}
    shares = {"blue": figure(chart.indigo[high]), "other": figure(chart.other[high])}
    return " ".join(
        [
            chart.answer,
            _("Read highest at %(nm)s nm: %(value)s.") % told,
            _("Of that, indigo %(blue)s, haze and the rest %(other)s.") % shares,
        ]
    )


def _panel(
    chart: SpectrumChart, values: Sequence[float], *, top: float, height: float, wanted: int = 5,
    left: float | None = None,
) -> Panel:  # fmt: skip
    ticks = outer_ticks(min(values), max(values), wanted=wanted)
    start = left_edge(ticks) if left is None else left
    return Panel(
        x=Scale(chart.wavelength_nm[0], chart.wavelength_nm[-1], start + 6, RIGHT - 8) if left is None
        else Scale(chart.wavelength_nm[0], chart.wavelength_nm[-1], left, RIGHT - 8),
        y=Scale(ticks[0].at, ticks[-1].at, top + height, top), y_ticks=ticks,
    )  # fmt: skip


def _lines(chart: SpectrumChart) -> list[tuple[tuple[float, ...], Look]]:
    red = [(chart.indirubin, RED)] if chart.indirubin else []
    return [(chart.other, OTHER), *red, (chart.indigo, BLUE), (chart.fit, FIT)]


def _line(panel: Panel, chart: SpectrumChart, values: Sequence[float], look: Look) -> str:
    return path([panel.at(at, value) for at, value in zip(chart.wavelength_nm, values, strict=True)], **look)


def _entries(chart: SpectrumChart) -> list[Entry]:
    def sample(look: Look) -> str:
        return line(0, 7, 26, 7, **look)

    red = [Entry(sample=sample(RED), text=_("indirubin"))] if chart.indirubin else []
    return [
        Entry(sample=dot(13, 7, ""), text=_("measured")),
        Entry(sample=sample(FIT), text=_("the fit")),
        Entry(sample=sample(BLUE), text=_("indigo")),
        *red,
        Entry(sample=sample(OTHER), text=_("haze and the rest")),
    ]


def _figures(chart: SpectrumChart, upper: Panel, lower: Panel) -> Figures:
    red = (_("indirubin"),) if chart.indirubin else ()
    rows = zip(
        chart.wavelength_nm, chart.measured, chart.indigo, *([chart.indirubin] if chart.indirubin else []), chart.other,
        strict=True,
    )  # fmt: skip
    return Figures(
        heads=(_("wavelength, %(unit)s") % {"unit": "nm"}, _("measured"), _("indigo"), *red, _("haze and the rest")),
        places=tuple((upper.x(at), (figure(at), *(figure(value) for value in values))) for at, *values in rows),
        top=upper.top,
        bottom=lower.bottom,
    )
