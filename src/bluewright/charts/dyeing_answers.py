"""From answers about dyeing to their charts."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from bluewright.charts.colours import Chip
from bluewright.charts.depth_ladder import DepthLadder, depth_ladder
from bluewright.charts.depth_ladder import Rung as LadderRung
from bluewright.charts.dyed_swatches import DyedSwatches, Patch, dyed_swatches
from bluewright.charts.forest_chart import ForestChart, ForestRow, forest_chart
from bluewright.charts.inputs import Span
from bluewright.science.base.bands import Band, BandAt, sd_of
from bluewright.science.dyeing.ladder_record import LadderAnswer
from bluewright.science.dyeing.match_record import MatchAnswer
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


def ladder_chart(found: LadderAnswer, *, answer: str) -> str:
    """How deep does each dip take it? The swatches in their colour; before any, what is believed of 1, 2, 4, 8 dips."""
    return depth_ladder(
        DepthLadder(
            question=_("How deep does each dip take %(cloth)s?") % {"cloth": found.inputs.id or _("this cloth")},
            answer=answer,
            x_name=_("dips"),
            rungs=tuple(_rungs(found)),
        )
    )


def _rungs(found: LadderAnswer) -> Iterator[LadderRung]:
    for dips in sorted({rung.dips for rung in found.inputs.rungs} or {1, 2, 4, 8}):
        if dips > len(found.l_star_by_dips):
            continue
        light, depth = found.l_star_by_dips[dips - 1], found.k_over_s_by_dips[dips - 1]
        seen = next((rung.lab for rung in found.inputs.rungs if rung.dips == dips and rung.lab is not None), None)
        lab = (light.p50, -2.0, -20.0) if seen is None else seen
        sd = sd_of(light)
        yield LadderRung(
            x=float(dips),
            chip=Chip(
                name=ngettext("%(dips)d dip", "%(dips)d dips", dips) % {"dips": dips}, lab=lab, lab_sd=(sd, 0.0, 0.0)
            ),
            depth=Span(low=depth.p5, mid=depth.p50, high=depth.p95),
        )


def match_chart(found: MatchAnswer, *, answer: str) -> str:
    """How near does each strength come? The difference at its best number of dips, with its range."""
    rows = tuple(
        ForestRow(
            label=ngettext("%(strength)s g/L, %(dips)d dip", "%(strength)s g/L, %(dips)d dips", one.dips)
            % {"strength": figure(one.active_g_per_l), "dips": one.dips},
            kind="together" if one.active_g_per_l == found.active_g_per_l else "result",
            amount=_span(one.de00),
        )
        for one in found.choices
    )
    return forest_chart(
        ForestChart(
            question=_("How near does each strength come to %(swatch)s?")
            % {"swatch": found.inputs.id or _("the swatch")},
            answer=answer,
            name=_("apart, CIEDE2000"),
            unit="",
            rows=rows,
        )
    )
