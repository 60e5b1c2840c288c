"""How deep a cloth gets: K/S, on an axis of even factors, and lightness against dips or strength of the vat."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from bluewright.charts.colours import Chip, Lab, hex_of_lab
from bluewright.charts.inputs import Span, check_words
from bluewright.charts.palette import INK, SMALL_SIZE, SOFT_INK
from bluewright.charts.parts import RIGHT, Entry, Labels, Panel, heading, key, left_edge, prefix, range_said, sheet
from bluewright.charts.readout import Figures
from bluewright.charts.scale import Scale, Tick, outer_ticks
from bluewright.charts.svg import element, label, line
from bluewright.science.base.bands import NINETY_Z
from bluewright.science.base.errors import InputError
from bluewright.words.language import gettext as _
from bluewright.words.numbers import figure, with_range

HEIGHTS: Final = (190.0, 130.0)
DEPTHS: Final = (0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0)
LEAST_DEPTH: Final = DEPTHS[0]
ROOM: Final = 1.2
"""Beyond the deepest and the palest swatch the axis of depth goes on by this factor, so that no name touches it."""
LIGHT_ROOM: Final = 3.0
LIFT: Final = 6.0
MOST_OWN: Final = 6
LEAST_APART: Final = 0.4
"""So many places get a mark of their own on the level axis, so many doublings apart."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rung:
    """One swatch of the ladder."""

    x: float
    """Dips, or strength; above 0."""
    chip: Chip
    depth: Span
    """K/S."""

    def __post_init__(self) -> None:
        if not (math.isfinite(self.x) and self.x > 0):
            raise InputError(where="x", what=f"{self.x:g} has no place on the axis", right="give a number above 0")


@dataclass(frozen=True, slots=True, kw_only=True)
class DepthLadder:
    """The question, its answer, what runs along the level axis, and at least one rung."""

    question: str
    answer: str
    x_name: str
    rungs: tuple[Rung, ...]

    def __post_init__(self) -> None:
        check_words(question=self.question, answer=self.answer, x_name=self.x_name)
        if not self.rungs:
            raise InputError(where="rungs", what="there are none", right="give at least one swatch")


def depth_ladder(chart: DepthLadder) -> str:
    """The chart as SVG text: K/S above, L* below, both over an axis on which each doubling is as wide."""
    rungs = sorted(chart.rungs, key=lambda rung: (rung.x, -rung.depth.mid))
    name = prefix(chart.question, chart.answer, *(rung.chip.name for rung in rungs))
    head, y = heading(chart.question, answer=chart.answer)
    keyed, height = key(_entries(), top=y + 4)
    upper, lower = _panels(rungs, top=y + height + 34)
    names = (_("depth K/S, even factors"), _("lightness L*"))
    axes = [panel.upright_axis(said, lift=LIFT) for panel, said in zip((upper, lower), names, strict=True)]
    drawn = [head, keyed, *axes]
    ticks = _own_places(rungs) or _doublings(rungs)
    for panel, place in ((upper, _depth_place), (lower, _light_place)):
        drawn.append(panel.level_axis(ticks if panel is lower else [Tick(at=tick.at, label="") for tick in ticks]))
        labels = Labels(panel)
        for rung in rungs:
            low, mid, high = (panel.y(value) for value in place(rung))
            x = panel.x(math.log2(rung.x))
            drawn.append(_rung(rung, x, low, mid, high))
            labels.keep_clear(x - 7, min(high, mid - 7), x + 7, max(low, mid + 7))
        drawn += [labels.beside(panel.x(math.log2(rung.x)), panel.y(place(rung)[1]), rung.chip.name) for rung in rungs]
    drawn.append(label(RIGHT, lower.bottom + 38, chart.x_name, size=SMALL_SIZE, fill=SOFT_INK, anchor="end"))
    return sheet(
        *drawn, height=lower.bottom + 50, question=chart.question, summary=description(chart), name=name,
        figures=_figures(chart, rungs, upper, lower),
    )  # fmt: skip


def description(chart: DepthLadder) -> str:
    """What the drawing says, in sentences with figures."""
    told = [
        _("%(name)s at %(x)s: K/S %(depth)s, L* %(light)s.")
        % {
            "name": rung.chip.name, "x": figure(rung.x), "depth": _depth_said(rung), "light": f"{rung.chip.lab[0]:.0f}",
        }
        for rung in chart.rungs
    ]  # fmt: skip
    return " ".join([chart.answer, *told])


def _panels(rungs: Sequence[Rung], *, top: float) -> tuple[Panel, Panel]:
    lows, highs = [max(r.depth.low, LEAST_DEPTH) for r in rungs], [max(r.depth.high, LEAST_DEPTH) for r in rungs]
    first = max((at for at in DEPTHS if at <= min(lows) / ROOM), default=DEPTHS[0])
    last = next((at for at in DEPTHS if at >= max(highs) * ROOM and at > first), DEPTHS[-1])
    depths = [Tick(at=math.log10(at), label=figure(at)) for at in DEPTHS if first <= at <= last]
    reach = [value for rung in rungs for value in _light_place(rung)]
    lights = outer_ticks(min(reach) - LIGHT_ROOM, max(reach) + LIGHT_ROOM, wanted=4)
    left = left_edge(depths, lights)
    xs = [math.log2(rung.x) for rung in rungs]
    room = 0.35 if max(xs) > min(xs) else 1.0
    across = Scale(min(xs) - room, max(xs) + room, left, RIGHT - 8)
    below = top + HEIGHTS[0] + 48
    return (
        Panel(x=across, y=Scale(depths[0].at, depths[-1].at, top + HEIGHTS[0], top), y_ticks=depths),
        Panel(x=across, y=Scale(lights[0].at, lights[-1].at, below + HEIGHTS[1], below), y_ticks=lights),
    )


def _depth_place(rung: Rung) -> Lab:
    low, mid, high = (math.log10(max(v, LEAST_DEPTH)) for v in (rung.depth.low, rung.depth.mid, rung.depth.high))
    return low, mid, high


def _light_place(rung: Rung) -> Lab:
    by = NINETY_Z * rung.chip.lab_sd[0]
    return rung.chip.lab[0] - by, rung.chip.lab[0], rung.chip.lab[0] + by


def _own_places(rungs: Sequence[Rung]) -> list[Tick]:
    """Where the swatches stand, if these are few and far enough apart to be read."""
    places = sorted({math.log2(rung.x) for rung in rungs})
    crowded = any(after - before < LEAST_APART for before, after in pairwise(places))
    return [] if crowded or len(places) > MOST_OWN else [Tick(at=at, label=figure(2.0**at)) for at in places]


def _doublings(rungs: Sequence[Rung]) -> list[Tick]:
    """1, 2, 4 ... (or halves) across what is drawn."""
    low, high = min(rung.x for rung in rungs), max(rung.x for rung in rungs)
    steps = range(math.floor(math.log2(low)), math.ceil(math.log2(high)) + 1)
    inside = [k for k in steps if math.log2(low) - 0.35 <= k <= math.log2(high) + 0.35]
    return [Tick(at=float(k), label=figure(2.0**k)) for k in inside]


def _rung(rung: Rung, x: float, low: float, mid: float, high: float) -> str:
    """A square of the cloth's colour on a line from low to high."""
    said = element("title", f"{figure(rung.x)}")
    stem = line(x, low, x, high, stroke=INK, stroke_width=1.6) if low != high else ""
    ends = "".join(line(x - 5, y, x + 5, y, stroke=INK, stroke_width=1.6) for y in (low, high)) if stem else ""
    return element(
        "g", said, stem, ends,
        element("rect", x=x - 6, y=mid - 6, width=12.0, height=12.0, fill=hex_of_lab(rung.chip.lab), stroke=INK,
                stroke_width=1.6),
    )  # fmt: skip


def _entries() -> list[Entry]:
    square = element("rect", x=7.0, y=1.0, width=12.0, height=12.0, fill="none", stroke=INK, stroke_width=1.6)
    return [
        Entry(sample=square, text=_("a swatch, in its colour")),
        Entry(sample=line(13, 0, 13, 14, stroke=INK, stroke_width=1.6), text=range_said()),
    ]


def _figures(chart: DepthLadder, rungs: Sequence[Rung], upper: Panel, lower: Panel) -> Figures:
    return Figures(
        heads=(chart.x_name, _("swatch"), "K/S", "L*"),
        places=tuple(
            (
                upper.x(math.log2(rung.x)),
                (figure(rung.x), rung.chip.name, _depth_said(rung), f"{rung.chip.lab[0]:.0f}"),
            )
            for rung in rungs
        ),
        top=upper.top,
        bottom=lower.bottom,
    )


def _depth_said(rung: Rung) -> str:
    return with_range(figure(rung.depth.mid), figure(rung.depth.low), figure(rung.depth.high))
