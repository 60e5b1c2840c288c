"""From an assay to its chart: the spectrum with its parts, test swatches with their lines, results side by side."""

from __future__ import annotations

from bluewright.charts.forest_chart import ForestChart, ForestRow, forest_chart
from bluewright.charts.inputs import Span
from bluewright.charts.lines_chart import LinesChart, Pairs, lines_chart
from bluewright.charts.spectrum_chart import SpectrumChart
from bluewright.charts.spectrum_chart import spectrum_chart as drawn_spectrum
from bluewright.science.assay.combine_record import CombineAnswer
from bluewright.science.assay.dyeing_record import DyeingAnswer, Of
from bluewright.science.assay.spectrum_record import SpectrumAnswer
from bluewright.science.base.bands import Band
from bluewright.words.assay_dyeing import NAMES
from bluewright.words.language import gettext as _


def spectrum_chart(found: SpectrumAnswer, *, answer: str) -> str:
    """What absorbs in this solution? The readings, the fit and its parts."""
    parts = found.parts
    return drawn_spectrum(
        SpectrumChart(
            question=_("What absorbs in the solution of %(pigment)s?") % _pigment(found.id),
            answer=answer,
            wavelength_nm=tuple(one.wavelength_nm for one in parts),
            measured=tuple(one.measured_absorbance for one in parts),
            indigo=tuple(one.indigo_absorbance for one in parts),
            indirubin=tuple(one.indirubin_absorbance for one in parts) if found.indirubin_pct is not None else (),
            other=tuple(one.other_absorbance for one in parts),
        )
    )


def dyeing_chart(found: DyeingAnswer, *, answer: str) -> str:
    """How deep does each pigment dye? Depth against mass, with the lines fitted together where they are parallel."""
    return lines_chart(
        LinesChart(
            question=_("How deep does %(pigment)s dye beside the standard?") % _pigment(found.id),
            answer=answer,
            x_name=_("pigment in the vat, %(unit)s") % {"unit": "mg"},
            y_name=_("depth, K/S in the red"),
            first=_pairs(found, "standard"),
            second=_pairs(found, "sample"),
        )
    )


def purity_chart(found: CombineAnswer, *, answer: str) -> str:
    """How pure is this pigment? Each method in its range, and all together if they agree."""
    rows = [
        ForestRow(label=one.method, kind="bound" if one.at_most else "result", amount=_span(one.indigo_pct))
        for one in found.methods
    ]
    if found.indigo_pct is not None and len(rows) > 1:
        rows.append(ForestRow(label=_("all together"), kind="together", amount=_span(found.indigo_pct)))
    return forest_chart(
        ForestChart(
            question=_("How much of %(pigment)s is indigo?") % _pigment(found.id),
            answer=answer,
            name=_("indigo in the dry pigment, %(unit)s") % {"unit": "%"},
            unit="%",
            rows=tuple(rows),
        )
    )


def _pairs(found: DyeingAnswer, of: Of) -> Pairs:
    line = next(one for one in found.lines if one.of == of)
    return Pairs(
        name=_(NAMES[of]),
        points=tuple((one.pigment_mg, one.k_over_s) for one in found.inputs.swatches if one.of == of),
        slope=found.slope,
        level=line.level,
    )


def _pigment(name: str) -> dict[str, str]:
    return {"pigment": name or _("this pigment")}


def _span(band: Band) -> Span:
    return Span(low=band.p5, mid=band.p50, high=band.p95)
