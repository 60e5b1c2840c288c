"""From answers about dyeing to their charts."""

from __future__ import annotations

from typing import Final

from bluewright.charts.dyed_swatches import DyedSwatches, Patch, dyed_swatches
from bluewright.charts.inputs import Span
from bluewright.science.base.bands import Band, BandAt
from bluewright.science.dyeing.shade_record import AfterDips, ShadeAnswer
from bluewright.words.language import gettext as _
from bluewright.words.language import ngettext
from bluewright.words.measures import amount
from bluewright.words.numbers import figure

MOST_PATCHES: Final = 8


def shade_chart(found: ShadeAnswer, *, answer: str) -> str:
    """How does the cloth come out? A patch for each number of dips, and the yarn cut through."""
    inside = found.inside_frac_by_depth_mm
    return dyed_swatches(
        DyedSwatches(
            question=_("How does %(piece)s come out?") % {"piece": found.inputs.id or _("this cloth")},
            answer=answer,
            patches=tuple(map(_patch, found.steps[-MOST_PATCHES:])),
            wanted=found.inputs.wanted,
            section=tuple(_share(point) for point in inside),
            thickness=amount(2 * inside[-1].at, "length_mm"),
            layered=found.inputs.cloth.body == "sheet",
        )
    )


def _patch(step: AfterDips) -> Patch:
    note = "" if step.de00 is None else _("%(apart)s apart") % {"apart": figure(step.de00.p50)}
    return Patch(
        name=ngettext("%(dips)d dip", "%(dips)d dips", step.dips) % {"dips": step.dips},
        lab=(step.l_star.p50, step.a_star.p50, step.b_star.p50), lightness=_span(step.l_star), note=note,
    )  # fmt: skip


def _span(band: Band) -> Span:
    return Span(low=band.p5, mid=band.p50, high=band.p95)


def _share(point: BandAt) -> Span:
    return Span(low=point.p5, mid=point.p50, high=point.p95)
